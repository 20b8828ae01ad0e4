"""Papers as files: never through a link out of the garden, never over what is no paper of ours."""

from __future__ import annotations

import hashlib
from pathlib import Path

from leafturn.files.reading import file_bytes
from leafturn.files.reasons import Refused
from leafturn.files.writing import write_new, write_whole
from leafturn_tui.safe_text import safe_text

FOLDER = "papers"
MOST_BYTES = 8_000_000  # some ten times the calendar of a garden of 2,000 plants; what is larger is not ours
WRITTEN = ".written"  # sums of the papers written here, as `sha256sum` writes and checks them
MOST_WRITTEN = 2_000  # so many sums are kept; a garden prints some hundred papers a year


def write_paper(folder: Path, name: str, data: bytes) -> Path:
    """Write a paper whole, in place of an earlier one of its name.

    What has its name and was not written here, or was changed since, is kept beside it as `NAME.kept`.

    Parameters
    ----------
    folder : Path
        The garden's folder, or one that the user named for papers. What is written really lies in it.
    name : str
        The paper, from that folder: "papers/week.txt".
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
    path = folder / name
    sums = path.parent.relative_to(folder) / WRITTEN
    written = _written(folder, str(sums))
    if path.exists() and _sum_line(path.name, _earlier(folder, name)) not in written:
        _keep(path, _earlier(folder, name))
    line = _sum_line(path.name, data)
    if line not in written:  # before the paper: one that is not in the list would count as a stranger's
        written = [*written, line][-MOST_WRITTEN:]
        write_whole(folder, str(sums), "".join(f"{one}\n" for one in written).encode())
    return write_whole(folder, name, data)


def earlier_paper(folder: Path, name: str) -> bytes:
    """The paper that is about to be replaced; empty if there is none, or none of a likely size."""
    try:
        return _earlier(folder, name)
    except (OSError, ValueError):
        return b""


def as_text(lines: list[str] | tuple[str, ...]) -> bytes:
    """Lines of a paper as the bytes of a text file."""
    return "".join(f"{safe_text(line)}\n" for line in lines).encode("utf-8", errors="replace")


def _earlier(folder: Path, name: str) -> bytes:
    return file_bytes(folder / name, MOST_BYTES, folder)


def _written(folder: Path, name: str) -> list[str]:
    return earlier_paper(folder, name).decode(errors="replace").splitlines()


def _sum_line(name: str, data: bytes) -> str:
    return f"{hashlib.sha256(data).hexdigest()}  {name}"


def _keep(path: Path, data: bytes) -> None:
    """Copy what stands in a paper's place into a new file beside it."""
    for number in range(1, 1000):
        try:
            write_new(path.with_name(f"{path.name}.kept" + (f"-{number}" if number > 1 else "")), data)
        except FileExistsError:
            continue
        return
    raise Refused(f"there are too many files {path.name}.kept beside it")
