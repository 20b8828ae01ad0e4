"""What keeps a journal from being written or read, in plain words."""

from __future__ import annotations

import errno

from leafturn.base.faults import Fault, Unreadable
from leafturn.journal.store.disk import LockNotHad

_FULL = frozenset({errno.ENOSPC, errno.EDQUOT, errno.EFBIG})
_FORBIDDEN = frozenset({errno.EACCES, errno.EPERM, errno.EROFS})


class NotWritten(Unreadable):
    """A note that could not be kept. `fault` says why; the files are as they were."""


def not_written(file: str, error: OSError | LockNotHad) -> NotWritten:
    """The refusal of a note that `error` kept from the disk."""
    reason, hint = _reason(error)
    message = f"The note could not be kept: {reason}. Nothing was changed."
    return NotWritten(Fault(file=file, line=None, message=message, hint=hint))


def not_read(file: str, error: OSError) -> Fault:
    """The fault of a file or folder that cannot be read."""
    return Fault(file=file, line=None, message=f"This cannot be read: {_reason(error)[0]}.")


def not_set_aside(file: str, line: int, error: OSError | LockNotHad) -> str:
    """The sentence for a torn tail that has to stay where it is."""
    reason, hint = _reason(error)
    return (
        f"{file}, line {line}: the last note was cut short while being written, and it could not be set "
        f"aside, because {reason}. Nothing was changed, and new notes cannot be kept for now. {hint}"
    ).rstrip()


def _reason(error: OSError | LockNotHad) -> tuple[str, str]:
    """Why, to follow a colon, and what to do about it."""
    if isinstance(error, LockNotHad):
        return "another process has been writing to the journal all the while", "Try again in a moment."
    if error.errno in _FULL:
        return "the disk is full", "Make room, then note it again."
    if error.errno == errno.ELOOP:
        return "its links lead round in a ring", "Point the link at a file."
    if error.errno == errno.ENOENT:
        return "it is missing, or its link leads to nothing", "Bring back what the link points at."
    if error.errno in _FORBIDDEN:
        return "its folder or file may not be written to", "Ask for the right to write there."
    if error.errno == errno.ENOTDIR or error.errno == errno.EEXIST:
        return "a file stands where the journal folder belongs", "Move that file away."
    return (error.strerror or "the disk refused").lower(), ""
