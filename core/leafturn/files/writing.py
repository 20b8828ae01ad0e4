"""Writing files whole, so that they are on the disk on return, and never through a link out of a folder."""

from __future__ import annotations

import errno
import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from leafturn.files.reading import real_path, require_inside
from leafturn.files.reasons import Refused

LEFT_BEHIND_S = 3600.0


def write_whole(within: Path, name: str, data: bytes) -> Path:
    """Write a file in place of an earlier one, whole or not at all.

    Parameters
    ----------
    within : Path
        The folder the user named. What is written really lies in it, however links below it lead.
    name : str
        The file, from that folder: "papers/week.txt". Folders that are missing are made.
    data : bytes

    Returns
    -------
    Path
        Where it lies, as named.

    Raises
    ------
    Refused
        If a link leads out of the folder, or something stands there that is no ordinary file.
    OSError
        If the disk does not take it; an earlier file is then still whole.
    """
    with ready_to_write(within, name, data) as put:
        put()
    return within / name


@contextmanager
def ready_to_write(within: Path, name: str, data: bytes) -> Iterator[Callable[[], None]]:
    """A file written beside the one whose place it takes once what is given is called.

    Without that nothing is left of it. Parameters and errors are those of `write_whole`.
    """
    named = within / name
    require_inside(real_path(named), within)
    named.parent.mkdir(parents=True, exist_ok=True)
    real = real_path(named)  # replacing a link would destroy it, so what it leads to is replaced
    require_inside(real, within)
    if real.exists() and not real.is_file():
        raise Refused("something that is no ordinary file has its name")
    fresh = real.with_name(f".{real.name}.{os.getpid()}")
    try:
        write_new(fresh, data)
        _sweep(fresh)
        if real.exists():  # who may read it stays as it was
            fresh.chmod(real.stat().st_mode & 0o777)

        def put() -> None:
            fresh.replace(real)
            sync_folder(real.parent)

        yield put
    finally:
        fresh.unlink(missing_ok=True)


def _sweep(fresh: Path) -> None:
    """Delete what a process that was killed left beside the file that it was writing.

    What is younger than an hour may be in the midst of being written.
    """
    name, _, _ = fresh.name.rpartition(".")
    now = fresh.stat().st_mtime
    for other in fresh.parent.iterdir():
        left, _, process = other.name.rpartition(".")
        if left == name and process.isdecimal() and now - other.stat().st_mtime > LEFT_BEHIND_S:
            other.unlink(missing_ok=True)


def write_new(path: Path, data: bytes) -> None:
    """Write a file that is not there yet, and wait until it is on the disk.

    Raises
    ------
    FileExistsError
        If something of that name is there, a dangling link too.
    OSError
        If it cannot be written; nothing is then left of it.
    """
    with path.open("xb") as file:
        try:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        except OSError:
            path.unlink(missing_ok=True)
            raise


def sync_folder(folder: Path) -> None:
    """Wait until the names in a folder are on the disk, where its file system knows how."""
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(descriptor)
    except OSError as error:
        if error.errno not in (errno.EINVAL, errno.ENOTSUP):
            raise
    finally:
        os.close(descriptor)
