"""The one way in which a file of a garden is opened for reading."""

from __future__ import annotations

import os
import stat
from pathlib import Path

from leafturn.files.reasons import Refused

_KINDS = (
    (stat.S_ISDIR, "it is a folder, not a file"),
    (stat.S_ISFIFO, "it is a pipe, not a file"),
    (stat.S_ISSOCK, "it is a socket, not a file"),
    (stat.S_ISCHR, "it is a device, not a file"),
    (stat.S_ISBLK, "it is a device, not a file"),
)
OUTSIDE = "it lies outside the garden's folder, or a link leads there"


def file_bytes(path: Path, most: int, within: Path | None = None) -> bytes:
    """What an ordinary file holds. Nothing is waited for, and no more is read than allowed.

    Parameters
    ----------
    path : Path
        The file, or a link to it.
    most : int
        The largest size that is read [bytes].
    within : Path or None
        The folder that the file must really lie in, however links lead; None for a file that the user
        named.

    Raises
    ------
    Refused
        If it is no ordinary file, lies outside the folder, or is larger than `most`.
    OSError, ValueError
        If the disk does not give it, or no file can have the name.
    """
    real = real_path(path)
    if within is not None:
        require_inside(real, within)
    _require_ordinary(os.stat(real).st_mode)
    # A pipe put there meanwhile is not waited for, nor a link followed.
    descriptor = os.open(real, os.O_RDONLY | os.O_NONBLOCK | os.O_NOFOLLOW | os.O_NOCTTY | os.O_CLOEXEC)
    with os.fdopen(descriptor, "rb") as file:
        status = os.fstat(descriptor)
        _require_ordinary(status.st_mode)
        data = b"" if status.st_size > most else file.read(most + 1)
    if max(status.st_size, len(data)) > most:
        raise Refused(f"it holds {max(status.st_size, len(data)):,} bytes; {most:,} is the most that is read")
    return data


def real_path(path: Path) -> Path:
    """Where a path leads once all links are followed, whether or not there is anything yet."""
    return Path(os.path.realpath(path))


def require_inside(real: Path, within: Path) -> None:
    """Refuse a path without links that does not lie in a folder."""
    if not real.is_relative_to(real_path(within)):
        raise Refused(OUTSIDE)


def _require_ordinary(mode: int) -> None:
    for is_kind, words in _KINDS:
        if is_kind(mode):
            raise Refused(words)
    if not stat.S_ISREG(mode):
        raise Refused("it is no ordinary file")
