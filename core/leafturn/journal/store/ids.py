"""Ids of notes: a day and a number, never given twice."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterable, Sequence

from msgspec import structs

from leafturn.base.faults import Fault
from leafturn.journal.entries import Entry
from leafturn.journal.store.sealing import mark_of

_GIVEN = re.compile(rb"""^[ \t]*id[ \t]*=[ \t]*["'](\d{4}-\d\d-\d\d)\.(\d{1,9})["']""", re.MULTILINE)


def given_numbers(data: bytes) -> dict[dt.date, int]:
    """The highest number given on each day in a journal file.

    Looks at the bytes, not at the notes read from them, so that a note that is left out for a fault
    keeps its id too.
    """
    highest: dict[dt.date, int] = {}
    for day_text, number in _GIVEN.findall(data):
        try:
            day = dt.date.fromisoformat(day_text.decode())
        except ValueError:
            continue
        highest[day] = max(highest.get(day, 0), int(number))
    return highest


def next_ids(count: int, written: dt.date, year: int, files: Sequence[tuple[int, bytes]]) -> list[str]:
    """Ids for `count` notes, later than every id in the files of `year`.

    The day is the day written, or that of the newest id if the clock has stepped back since.

    Parameters
    ----------
    count : int
        How many.
    written : date
        Today, as the face knows it.
    year : int
        The year of the file they go into.
    files : sequence of (year, bytes)
        The journal's files that may hold ids of that day. Ids of another year than their file's are
        slips of the hand; they do not move the day.
    """
    numbers = [(file_year, given_numbers(data)) for file_year, data in files]
    days = [day for file_year, given in numbers for day in given if file_year == year == day.year]
    day = max([written, *days])
    last = max((given.get(day, 0) for _, given in numbers), default=0)
    return [f"{day.isoformat()}.{last + more}" for more in range(1, count + 1)]


def with_own_ids(entries: Iterable[Entry]) -> tuple[tuple[Entry, ...], list[Fault]]:
    """The entries, each with an id of its own, and faults for ids that stand twice.

    A note written by hand without an id gets one from its day and from what it says, such as
    "2027-04-11.h1c9e02ab", so that it stays the same whatever is written around it.
    """
    seen: set[str] = set()
    kept: list[Entry] = []
    faults: list[Fault] = []
    for entry in entries:
        if not entry.id or entry.id in seen:
            if entry.id:
                faults.append(_twice(entry))
            entry = structs.replace(entry, id=_own_id(entry, seen))
        seen.add(entry.id)
        kept.append(entry)
    return tuple(kept), faults


def _own_id(entry: Entry, seen: set[str]) -> str:
    plain = f"{entry.on.isoformat()}.h{mark_of(entry)}"
    chosen, number = plain, 1
    while chosen in seen:
        number += 1
        chosen = f"{plain}-{number}"
    return chosen


def _twice(entry: Entry) -> Fault:
    return Fault(
        file=entry.file,
        line=entry.line,
        message=f"The id {entry.id} stands on an earlier note too, so this note goes by another.",
        hint="Delete the id line of the copy; a note written by hand needs none.",
    )
