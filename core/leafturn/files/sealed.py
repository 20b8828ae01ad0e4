"""What was made from files, kept so that it need not be made again as long as they are the same.

It lies in one file: a seal of 32 bytes, then what is kept. The seal is a hash over what it was made from, as
that is now, and over what is kept. So a source that was changed, a kept file of another version, one cut
short, and one that two processes wrote at once all end alike, without a time stamp or a lock: the seal does
not fit, and it is made anew. A kept file that is lost, or cannot be written, costs the time of making it and
nothing else.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
from collections.abc import Sequence
from pathlib import Path

from leafturn.files.reading import file_bytes

SEAL_BYTES = 32
MOST_BYTES = 64_000_000  # some four times the most that is kept in one file


def unsealed(kept: Path | None, made_of: Sequence[bytes]) -> bytes | None:
    """What is kept, if it is whole and was made from just this; None if not.

    Parameters
    ----------
    kept : Path or None
        Where it lies; None where nothing is kept.
    made_of : sequence of bytes
        All that decides what is kept, the way it is laid out too.
    """
    if kept is None:
        return None
    try:
        data = file_bytes(kept, MOST_BYTES)
    except (OSError, ValueError):
        return None
    found = data[SEAL_BYTES:]
    return found if data[:SEAL_BYTES] == _seal(made_of, found) else None


def keep_sealed(kept: Path | None, made_of: Sequence[bytes], found: bytes) -> None:
    """Keep what was made, for the eyes of the user only; where that cannot be done, nothing is said."""
    if kept is None:
        return
    with contextlib.suppress(OSError, ValueError):
        kept.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        flags = os.O_WRONLY | os.O_CREAT | os.O_TRUNC | os.O_NONBLOCK | os.O_CLOEXEC
        with os.fdopen(os.open(kept, flags, 0o600), "wb") as file:
            file.write(_seal(made_of, found) + found)


def _seal(made_of: Sequence[bytes], found: bytes) -> bytes:
    seal = hashlib.blake2b(digest_size=SEAL_BYTES)
    for part in (*made_of, found):
        seal.update(len(part).to_bytes(8, "big"))
        seal.update(part)
    return seal.digest()
