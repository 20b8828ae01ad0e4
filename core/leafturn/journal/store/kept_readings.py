"""Years of a journal that are over, read once for each state of their files.

Of a long journal nearly all is as it was yesterday. What a file came to is kept in the user's cache folder,
sealed by the file's bytes and by the code that read them (`files/sealed.py`): a file that differs in one byte
is read anew, with all care, and so is every file if the folder is emptied. Short files are read sooner than
they are looked up, and the file that new notes go into changes with each: neither is kept.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Union

import msgspec

from leafturn import __version__, journal
from leafturn.base.faults import Fault
from leafturn.base.value import Value
from leafturn.files.cache_folder import cache_folder
from leafturn.files.reading import real_path
from leafturn.files.sealed import keep_sealed, unsealed
from leafturn.journal.entries import KINDS, Entry
from leafturn.journal.store.files import JournalFile
from leafturn.journal.store.reading import FileReading, read_data

FOLDER = "leafturn/journals"
SHORT = 8_000  # [bytes]; some eighty notes, read in a millisecond


class _Kept(Value, kw_only=False, array_like=True):
    """A reading as it is kept; `entries` are looked at once their kinds are known."""

    entries: msgspec.Raw
    faults: tuple[Fault, ...]
    sound: bool
    torn: int | None


def read_or_kept(file: JournalFile, *, growing: bool) -> FileReading:
    """What a file of the journal holds, as `read_data` gives it.

    Parameters
    ----------
    file : JournalFile
    growing : bool
        Whether new notes go into it, so that what it holds now is soon out of date.

    Raises
    ------
    OSError
        As `JournalFile.data`.
    """
    data = file.data()
    folder = cache_folder()
    if growing or len(data) < SHORT or folder is None:
        return read_data(data, file.name)
    name = hashlib.blake2b(bytes(real_path(file.path)), digest_size=16).hexdigest()
    kept, made_of = folder / FOLDER / name, [*_code(), file.name.encode(), data]
    packed = unsealed(kept, made_of)
    if packed is not None:
        return _unpacked(packed)
    reading = read_data(data, file.name)
    packed = _packed(reading)
    if _unpacked(packed) == reading:  # a day among words of another kind comes back as text
        keep_sealed(kept, made_of, packed)
    return reading


def _packed(reading: FileReading) -> bytes:
    entries = msgspec.Raw(msgspec.msgpack.encode(reading.entries))
    return msgspec.msgpack.encode(_Kept(entries, reading.faults, reading.sound, reading.torn))


def _unpacked(packed: bytes) -> FileReading:
    found = msgspec.msgpack.decode(packed, type=_Kept)
    return FileReading(_entries()(found.entries), found.faults, found.sound, found.torn)


@cache
def _entries() -> Callable[[bytes], tuple[Entry, ...]]:
    """What gives the entries, each of its kind."""
    kinds: object = Union[tuple(KINDS.values())]  # noqa: UP007
    return msgspec.msgpack.Decoder(tuple[kinds, ...]).decode  # type: ignore[valid-type]


@cache
def _code() -> tuple[bytes, ...]:
    """What decides how a file is read."""
    sources = sorted(Path(journal.__path__[0]).rglob("*.py"))
    return (__version__.encode(), *(source.read_bytes() for source in sources))
