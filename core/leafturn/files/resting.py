"""What was made from files that may lie anywhere, kept with a seal of each, in one file of its own.

It is found again only while every one of them holds the same bytes, and those that were not there are not.
What is kept begins with one line, a JSON object of seals by path.
"""

from __future__ import annotations

import hashlib
import os
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path

import msgspec

from leafturn.files.cache_folder import cache_folder
from leafturn.files.reading import file_bytes
from leafturn.files.sealed import keep_sealed, unsealed

MOST_OF_A_FILE = 1 << 30


def keep_resting(
    kept: Path | None,
    made_for: Sequence[bytes],
    found: bytes,
    on: Iterable[Path],
    still: Callable[[], bool] = lambda: True,
) -> None:
    """Keep what was made; where that cannot be done nothing is kept, and nothing is said.

    Parameters
    ----------
    kept : Path or None
        Where it lies; None where nothing is kept.
    made_for : sequence of bytes
        All that decides what was made beside the files.
    found : bytes
        What was made.
    on : iterable of Path
        Every file and folder that it rests on, there or not.
    still : callable
        Asked when each has its seal: whether they are still those that it was made from.
    """
    seals = {str(path.absolute()): _seal(path) for path in on}
    if still():
        keep_sealed(kept, made_for, msgspec.json.encode(seals) + b"\n" + found)


def resting(kept: Path | None, made_for: Sequence[bytes]) -> bytes | None:
    """What was kept, if it was made for just this and every file that it rests on is as it was."""
    seals, _, found = (unsealed(kept, made_for) or b"{}").partition(b"\n")
    as_they_were = all(_seal(Path(path)) == seal for path, seal in msgspec.json.decode(seals).items())
    return found if found and as_they_were else None


def place_of(folder: str, *named: bytes) -> Path | None:
    """Where in a folder of the cache folder something of such names lies; None where nothing is kept."""
    name = hashlib.blake2b(b"\0".join(named), digest_size=16).hexdigest()
    cache = cache_folder()
    return None if cache is None else cache / folder / name


def _seal(path: Path) -> str:
    """A hash over what a file holds, or over the names in a folder, and whether it may be written to; empty
    where there is neither. Names that begin with a dot are those of other programs."""
    try:
        if path.is_dir():
            data = "\n".join(sorted(name for name in os.listdir(path) if name[0] != ".")).encode()
        else:
            data = file_bytes(path, MOST_OF_A_FILE)
    except (OSError, ValueError):
        return ""
    may_be_written = b"w" if os.access(path, os.W_OK) else b"r"
    return hashlib.blake2b(may_be_written + data, digest_size=16).hexdigest()
