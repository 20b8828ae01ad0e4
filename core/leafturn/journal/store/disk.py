"""Writing files so that the data is on the disk on return, and a file stays as it was on failure."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from leafturn.files.writing import sync_folder

LOCK_NAME = ".journal.lock"


class LockNotHad(Exception):
    """Another process kept the lock longer than anyone wished to wait."""


@contextmanager
def locked(folder: Path, patience: float) -> Iterator[None]:
    """Hold the journal's lock: an advisory one, which the system lets go if the process dies.

    Parameters
    ----------
    folder : Path
        The folder the journal files really lie in.
    patience : float
        How long to wait while nothing comes of it [s]: as long as others write one after another, as on a
        machine with more to do than it can, the turn comes.

    Raises
    ------
    LockNotHad
        If another process kept it that long and wrote nothing.
    OSError
        If no lock can be made there at all.
    """
    import filelock

    lock = filelock.FileLock(folder / LOCK_NAME, timeout=patience)
    while not lock.is_locked:
        before = _written(folder)
        try:
            lock.acquire(poll_interval=0.01)
        except filelock.Timeout:
            if _written(folder) == before:
                raise LockNotHad from None
    try:
        yield
    finally:
        lock.release()


def _written(folder: Path) -> set[tuple[str, int, int]]:
    """What changes in a folder when a note is written: each file's name, size [bytes] and time [ns]."""
    with os.scandir(folder) as files:
        states = [(file.name, file.stat(follow_symlinks=False)) for file in files]
    return {(name, state.st_size, state.st_mtime_ns) for name, state in states if name != LOCK_NAME}


def append(path: Path, data: bytes) -> None:
    """Add `data` to the end of a file, made if need be, and wait until it is on the disk.

    Parameters
    ----------
    path : Path
        The file itself, not a link to it.
    data : bytes
        What to add.

    Raises
    ------
    OSError
        If it cannot be done; the file is then as it was, as far as the disk allows.
    """
    existed = path.exists()
    descriptor = os.open(path, os.O_WRONLY | os.O_APPEND | os.O_CREAT, 0o666)
    try:
        size = os.fstat(descriptor).st_size
        try:
            _write_all(descriptor, data)
            os.fsync(descriptor)
            if not existed:
                sync_folder(path.parent)
        except OSError:
            # Giving room back needs none, so this works on a full disk. Where it does not, the part
            # written has no end and is known as torn.
            with suppress(OSError):
                os.ftruncate(descriptor, size)
                os.fsync(descriptor)
            if not existed:
                with suppress(OSError):
                    path.unlink()
            raise
    finally:
        os.close(descriptor)


def set_aside(path: Path, at: int) -> Path:
    """Move the bytes from `at` on into a new file beside `path`, never over another.

    The copy is on the disk before anything is taken away.

    Parameters
    ----------
    path : Path
        The file itself, not a link to it.
    at : int
        Where the tail begins [bytes].

    Returns
    -------
    Path
        The new file: `NAME.torn`, or `NAME.torn-2` and so on.

    Raises
    ------
    OSError
        If it cannot be done; nothing is then changed.
    """
    tail = path.read_bytes()[at:]
    aside, descriptor = _new_file_beside(path)
    try:
        _write_all(descriptor, tail)
        os.fsync(descriptor)
    except OSError:
        with suppress(OSError):
            aside.unlink()
        raise
    finally:
        os.close(descriptor)
    sync_folder(path.parent)
    descriptor = os.open(path, os.O_WRONLY)
    try:
        os.ftruncate(descriptor, at)
        os.fsync(descriptor)
    finally:
        os.close(descriptor)
    return aside


def make_folder(folder: Path) -> None:
    """Make a folder, if it is missing, so that it is there after a power cut too."""
    if not folder.is_dir():
        folder.mkdir(exist_ok=True)
        sync_folder(folder.parent)


def _new_file_beside(path: Path) -> tuple[Path, int]:
    number = 1
    while True:
        aside = path.with_name(f"{path.name}.torn" if number == 1 else f"{path.name}.torn-{number}")
        try:
            return aside, os.open(aside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o666)
        except FileExistsError:
            number += 1


def _write_all(descriptor: int, data: bytes) -> None:
    view = memoryview(data)
    while view:
        view = view[os.write(descriptor, view) :]
