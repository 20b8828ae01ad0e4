"""Why a file cannot be read or written, in plain words."""

from __future__ import annotations

import errno

_WORDS = {
    errno.ENOSPC: "the disk is full",
    errno.EDQUOT: "the disk is full",
    errno.EFBIG: "the disk is full",
    errno.EROFS: "the disk may only be read",
    errno.ELOOP: "its links lead round in a ring",
    errno.ENOENT: "it is missing, or its link leads to nothing",
    errno.EISDIR: "it is a folder, not a file",
    errno.ENOTDIR: "a file stands where a folder belongs",
    errno.EEXIST: "something of that name is there already",
    errno.ENAMETOOLONG: "its name is too long",
    errno.EIO: "the disk failed",
    errno.ENODEV: "the disk is gone",
    errno.ENXIO: "the disk is gone",
    errno.ESTALE: "the disk is gone",
}
_FORBIDDEN = frozenset({errno.EACCES, errno.EPERM})


class Refused(OSError):
    """A file that is not read or written though the disk would; `strerror` says why in plain words."""

    def __init__(self, why: str) -> None:
        super().__init__(errno.EINVAL, why)


def reason(error: OSError | ValueError, *, writing: bool = False) -> str:
    """Why the disk refused, to follow a colon.

    Parameters
    ----------
    error : OSError or ValueError
        As Python raised it; a ValueError comes of names that no file can have.
    writing : bool
        Whether something was to be written; else it was to be read.
    """
    if isinstance(error, Refused):
        return str(error.strerror)
    if not isinstance(error, OSError):
        return "no file can have this name"
    if error.errno in _FORBIDDEN:
        return "it may not be written to" if writing else "you have no right to read it"
    if writing and error.errno == errno.ENOENT:
        return "the folder it would lie in is missing"
    return _WORDS.get(error.errno or 0) or (error.strerror or "the disk refused").lower()
