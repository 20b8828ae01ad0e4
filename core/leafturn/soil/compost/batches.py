"""Several batches in one bay: what was noted of the heap that lies there now."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass

from leafturn.journal.entries import Done, Entry, HeapReading

EMPTYING = ("spread", "empty", "emptied", "refill")  # verbs of jobs done that end a batch


@dataclass(frozen=True, kw_only=True)
class Batch:
    """The heap that lies in a bay: its notes, and the day its forerunner was taken out (None: not noted)."""

    begun: dt.date | None
    notes: tuple[Entry, ...]

    @property
    def readings(self) -> list[tuple[dt.date, float]]:
        """Readings of its core, oldest first (date, degC)."""
        return [
            (e.on, e.temp_c) for e in self.notes if isinstance(e, HeapReading | Done) and e.temp_c is not None
        ]

    @property
    def turns(self) -> list[dt.date]:
        """Days on which it was turned, oldest first, each once."""
        return sorted({e.on for e in self.notes if "turn" in _verbs(e)})


def batch_of(heap: str, entries: Iterable[Entry], on: dt.date) -> Batch:
    """The notes of a heap since its bay was last emptied.

    Parameters
    ----------
    heap : str
        Its id.
    entries : iterable of Entry
        Standing notes, oldest first; of one day in the order they were written.
    on : date
        Notes after it do not count.

    Notes
    -----
    Spreading a heap empties its bay: readings and turnings before it belong to another heap.
    """
    begun: dt.date | None = None
    notes: list[Entry] = []
    for entry in entries:
        if entry.on > on or not _is_of(entry, heap):
            continue
        if any(verb in EMPTYING for verb in _verbs(entry)):
            begun, notes = entry.on, []
        else:
            notes.append(entry)
    return Batch(begun=begun, notes=tuple(notes))


def _is_of(entry: Entry, heap: str) -> bool:
    return entry.heap == heap or any(heap in job.names for job in entry.jobs)


def _verbs(entry: Entry) -> tuple[str, ...]:
    """What the jobs done were, as words of their ids; empty for other notes."""
    if not isinstance(entry, Done):
        return ()
    return tuple(name for job in entry.jobs for name in (job.subject, job.verb))
