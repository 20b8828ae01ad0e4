"""Papers as files beside the garden."""

from __future__ import annotations

import os
from pathlib import Path

from leafturn_tui.safe_text import safe_text

FOLDER = "papers"
MOST_BYTES = 8_000_000  # some ten times the calendar of a garden of 2,000 plants; what is larger is not ours


def write_paper(folder: Path, name: str, data: bytes) -> Path:
    """Write a paper whole, in place of an earlier one of its name.

    Parameters
    ----------
    folder : Path
        Where papers lie; made if it is not there.
    name : str
        The file's name.
    data : bytes

    Returns
    -------
    Path
        Where it lies.

    Raises
    ------
    OSError
        If it cannot be written; an earlier paper is then still whole.
    """
    folder.mkdir(parents=True, exist_ok=True)
    # Replacing a link would destroy it, so what it leads to is replaced.
    path = Path(os.path.realpath(folder / name))
    fresh = path.with_name(f".{path.name}.{os.getpid()}")
    try:
        with fresh.open("wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        fresh.replace(path)
    finally:
        fresh.unlink(missing_ok=True)
    return folder / name


def write_new(path: Path, data: bytes) -> None:
    """Write a file that is not there yet.

    Raises
    ------
    FileExistsError
        If something of that name is there, a dangling link too.
    OSError
        If it cannot be written.
    """
    with path.open("xb") as file:
        file.write(data)


def earlier_paper(folder: Path, name: str) -> bytes:
    """The paper that is about to be replaced; empty if there is none, or none of a likely size."""
    try:
        path = folder / name
        return path.read_bytes() if path.stat().st_size <= MOST_BYTES else b""
    except OSError:
        return b""


def as_text(lines: list[str] | tuple[str, ...]) -> bytes:
    """Lines of a paper as the bytes of a text file."""
    return "".join(f"{safe_text(line)}\n" for line in lines).encode("utf-8", errors="replace")
