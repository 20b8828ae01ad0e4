"""What was made from files, kept so that it need not be made again as long as they are the same.

It lies in one file: a seal of 32 bytes, then what is kept. The seal is a hash over what it was made from, as
that is now, and over what is kept. So a source that was changed, a kept file of another version, one cut
short, and one that two processes wrote at once all end alike, without a time stamp or a lock: the seal does
not fit, and it is made anew. A kept file that is lost, or cannot be written, costs the time of making it and
nothing else. So of many in a folder, as gardens leave behind that are gone, the oldest go.
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
MOST_FILES = 400  # in one folder; a guess: some gardens with journals of some decades
MOST_TOGETHER = 256_000_000  # [bytes] of the files in one folder; a guess likewise


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


def keep_sealed(
    kept: Path | None, made_of: Sequence[bytes], found: bytes, *, one_of_many: bool = True
) -> bool:
    """Keep what was made, for the eyes of the user only.

    Parameters
    ----------
    kept : Path or None
        Where it lies; None where nothing is kept.
    made_of : sequence of bytes
        As for `unsealed`.
    found : bytes
        What was made.
    one_of_many : bool
        Whether its folder holds only such files, and ever more of them, so that the oldest go.

    Returns
    -------
    bool
        Whether it could be kept; why not is nowhere said.
    """
    if kept is None:
        return False
    with contextlib.suppress(OSError, ValueError):
        kept.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        # Nothing is written over what a link put there leads to, and no pipe is waited for.
        flags = os.O_WRONLY | os.O_CREAT | os.O_TRUNC | os.O_NONBLOCK | os.O_NOFOLLOW | os.O_CLOEXEC
        with os.fdopen(os.open(kept, flags, 0o600), "wb") as file:
            file.write(_seal(made_of, found) + found)
        if one_of_many:
            drop_oldest(kept.parent)
        return True
    return False


def drop_oldest(folder: Path) -> None:
    """Delete the files of a folder that were written longest ago, until few and little enough are left.

    Parameters
    ----------
    folder : Path
        In the user's cache folder; all files in it can be made again.

    Raises
    ------
    OSError
        If one was there and is gone, as another process may have it; some may then be left.
    """
    with os.scandir(folder) as listing:
        files = [entry for entry in listing if entry.is_file(follow_symlinks=False)]
    size = 0
    newest_first = sorted(
        files, key=lambda entry: entry.stat(follow_symlinks=False).st_mtime_ns, reverse=True
    )
    for number, entry in enumerate(newest_first):
        size += entry.stat(follow_symlinks=False).st_size
        if number >= MOST_FILES or size > MOST_TOGETHER:
            os.unlink(entry.path)


def _seal(made_of: Sequence[bytes], found: bytes) -> bytes:
    seal = hashlib.blake2b(digest_size=SEAL_BYTES)
    for part in (*made_of, found):
        seal.update(len(part).to_bytes(8, "big"))
        seal.update(part)
    return seal.digest()
