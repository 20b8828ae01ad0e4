"""What came from archives, kept in the user's cache folder under the hash of its content.

An index tells which content a file had, where and when it was asked for, and of which version it was.
Content whose hash does not fit its name, and an index that does not read, are as if they were not there. What
could not be understood is never kept.
"""

from __future__ import annotations

import contextlib
import datetime as dt
import hashlib
import os
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

import msgspec
from filelock import FileLock, Timeout

from leafturn.base.faults import Fault, Unreadable
from leafturn.files.reasons import reason
from leafturn.files.writing import write_whole
from leafturn.weather.fetch.line import Line, Wanted
from leafturn.weather.fetch.part import Part
from leafturn.weather.fetch.transfer import transfer

T = TypeVar("T")

FORGOTTEN_DAYS = 180  # what nobody asked for in so long is thrown away

FORGOTTEN_PART_DAYS = 30  # what nobody went on with in so long, too
PART = ".part"
HASH_LETTERS = 64  # of SHA-256

Read = Callable[[bytes], T]


class _Row(msgspec.Struct):
    """What a file had: its address, hash of content and version, and the day on which that was known."""

    url: str
    content: str
    validator: str
    day: dt.date


class Kept:
    """Files of archives, brought or taken from what was brought before.

    Parameters
    ----------
    folder : Path
        Made if it is not there.
    line : Line
    today : date
    """

    def __init__(self, folder: Path, line: Line, today: dt.date) -> None:
        self._folder, self._line, self._today = folder, line, today

    def get(self, wanted: Wanted, read: Read[T], fresh_days: int) -> T:
        """What a file holds.

        Parameters
        ----------
        wanted : Wanted
        read : callable
            Understands its bytes; raises Unreadable if they are not what was asked for.
        fresh_days : int
            So many days what was brought is used without asking whether there is a newer version.

        Raises
        ------
        Unreadable
            If it cannot be had or understood, with one sentence.
        """
        try:
            self._folder.mkdir(parents=True, exist_ok=True)
            with FileLock(self._folder / "lock", timeout=0):
                return self._got(wanted, read, fresh_days)
        except Timeout:
            wanted.refuse("another run is asking it just now.", "Let that one end first.")
        except OSError as why:
            message = f"what archives send cannot be kept here: {reason(why, writing=True)}."
            raise Unreadable(Fault(file=str(self._folder), line=None, message=message)) from why

    def _got(self, wanted: Wanted, read: Read[T], fresh_days: int) -> T:
        index = self._index()
        key = wanted.kept_as or wanted.url
        row = index.get(key)
        held = None if row is None or row.url != wanted.url else self._content(row)
        if row is not None and held is not None and 0 <= (self._today - row.day).days <= fresh_days:
            return read(held)
        part = Part(self._folder / f"{_name(wanted.url.encode())}{PART}")
        known = row.validator if row is not None and held is not None else ""
        came = transfer(wanted, part, self._line, known)
        if came is None and row is not None and held is not None:
            understood, content, validator = read(held), row.content, row.validator
        else:
            brought = part.path.read_bytes()
            try:
                understood = read(brought)
            except Unreadable:
                part.discard()
                raise
            content, validator = _name(brought), part.validator
            os.replace(part.path, self._folder / content)
            part.discard()
        index[key] = _Row(url=wanted.url, content=content, validator=validator, day=self._today)
        self._keep(index)
        return understood

    def _content(self, row: _Row) -> bytes | None:
        """What the index says there is, if it is whole."""
        try:
            data = (self._folder / row.content).read_bytes()
        except OSError:
            return None
        return data if _name(data) == row.content else None

    def _index(self) -> dict[str, _Row]:
        try:
            return msgspec.json.decode((self._folder / "index.json").read_bytes(), type=dict[str, _Row])
        except (OSError, msgspec.DecodeError):
            return {}

    def _keep(self, index: dict[str, _Row]) -> None:
        """Write the index without what was long not asked for, and throw away what it does not name."""
        oldest = self._today - dt.timedelta(days=FORGOTTEN_DAYS)
        index = {url: row for url, row in index.items() if row.day >= oldest}
        write_whole(self._folder, "index.json", msgspec.json.format(msgspec.json.encode(index)))
        named = {row.content for row in index.values()}
        for file in self._folder.iterdir():
            unnamed = len(file.name) == HASH_LETTERS and file.name not in named
            if unnamed or (PART in file.suffixes and self._is_old(file)):
                with contextlib.suppress(OSError):
                    file.unlink()

    def _is_old(self, file: Path) -> bool:
        """Whether nothing has come to a part for long."""
        last = dt.date.fromtimestamp(file.stat().st_mtime)
        return (self._today - last).days > FORGOTTEN_PART_DAYS


def _name(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()
