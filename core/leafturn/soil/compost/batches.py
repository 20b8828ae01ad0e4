"""Several batches in one bay: what was noted of the heap that lies there now."""

from __future__ import annotations

import datetime as dt

from leafturn.base.value import Value
from leafturn.journal.entries import Done, Entry, HeapReading
from leafturn.journal.noted import noted
from leafturn.season.garden_day import GardenDay


class Batch(Value):
    """The heap that lies in a bay: its notes, and the day its forerunner was taken out (None: not noted).

    `turns` are the days on which it was turned, oldest first, each once.
    """

    begun: dt.date | None
    notes: tuple[Entry, ...]
    turns: tuple[dt.date, ...]

    @property
    def readings(self) -> list[tuple[dt.date, float]]:
        """Readings of its core, oldest first (date, degC)."""
        return [
            (e.on, e.temp_c) for e in self.notes if isinstance(e, HeapReading | Done) and e.temp_c is not None
        ]


def batch_of(heap: str, day: GardenDay) -> Batch:
    """The notes of a heap since its bay was last emptied.

    Parameters
    ----------
    heap : str
        Its id.
    day : GardenDay
        Its notes, oldest first; of one day in the order they were written.

    Notes
    -----
    A job that counts as emptying its bay, such as spreading it, ends a heap: readings and turnings before it
    belong to another.
    """
    emptied = {id(done) for subject, done in day.done("empty") if subject == heap}
    turned = {id(done) for subject, done in day.done("turn") if subject == heap}
    begun: dt.date | None = None
    notes: list[Entry] = []
    for entry in noted(day.entries).about(heap):
        if id(entry) in emptied:
            begun, notes = entry.on, []
        else:
            notes.append(entry)
    turns = sorted({entry.on for entry in notes if id(entry) in turned})
    return Batch(begun=begun, notes=tuple(notes), turns=tuple(turns))
