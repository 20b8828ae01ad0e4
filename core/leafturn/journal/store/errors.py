"""What keeps a journal from being written or read, in plain words."""

from __future__ import annotations

import errno

from leafturn.base.faults import Fault, Unreadable
from leafturn.files.reasons import reason
from leafturn.journal.store.disk import LockNotHad

_HINTS = {
    **dict.fromkeys((errno.ENOSPC, errno.EDQUOT, errno.EFBIG), "Make room, then note it again."),
    **dict.fromkeys((errno.EACCES, errno.EPERM), "Ask for the right to write there."),
    errno.ELOOP: "Point the link at a file.",
    errno.ENOENT: "Bring back the folder, or what its link points at.",
}


class NotWritten(Unreadable):
    """A note that could not be kept. `fault` says why; the files are as they were."""


def not_written(file: str, error: OSError | ValueError | LockNotHad) -> NotWritten:
    """The refusal of a note that `error` kept from the disk."""
    reason, hint = _reason(error)
    message = f"The note could not be kept: {reason}. Nothing was changed."
    return NotWritten(Fault(file=file, line=None, message=message, hint=hint))


def not_read(file: str, error: OSError) -> Fault:
    """The fault of a file or folder that cannot be read."""
    return Fault(file=file, line=None, message=f"This cannot be read: {reason(error)}.")


def not_set_aside(file: str, line: int, error: OSError | LockNotHad) -> str:
    """The sentence for a torn tail that has to stay where it is."""
    reason, hint = _reason(error)
    return (
        f"{file}, line {line}: the last note was cut short while being written. It could not be set aside: "
        f"{reason}. Nothing was changed, and new notes cannot be kept for now. {hint}"
    ).rstrip()


def _reason(error: OSError | ValueError | LockNotHad) -> tuple[str, str]:
    """Why a file is not written, to follow a colon, and what to do about it."""
    if isinstance(error, LockNotHad):
        return "another process has been writing to the journal all the while", "Try again in a moment."
    if isinstance(error, OSError) and error.errno in (errno.ENOTDIR, errno.EEXIST):
        return "a file stands where the journal folder belongs", "Move that file away."
    return reason(error, writing=True), _HINTS.get(getattr(error, "errno", None) or 0, "")
