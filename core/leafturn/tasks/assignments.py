"""What a person has settled about one job: whom it falls to, and that a hold shall not bind it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable

from leafturn.journal.entries import Entry
from leafturn.journal.job_id import JobId

NOBODY = "anyone"  # given to nobody in particular: whoever has time


class Settled:
    """Notes "given" and "hold-lifted", ready to be asked by job.

    Parameters
    ----------
    entries : iterable of Entry
        Standing notes, oldest first.
    """

    def __init__(self, entries: Iterable[Entry]) -> None:
        self._said: dict[tuple[str, str, str], list[tuple[JobId, Entry]]] = {}
        for entry in entries:
            if entry.what in ("given", "hold-lifted"):
                for job in entry.jobs:
                    for pair in {(job.subject, job.verb), (job.verb, job.subject)}:
                        self._said.setdefault((entry.what, *pair), []).append((job, entry))

    def given_to(self, job: JobId) -> str:
        """The helper a job was last given to; empty if to nobody in particular."""
        last = next(iter(self._of("given", job)), None)
        return "" if last is None or last.to in (None, NOBODY) else last.to or ""

    def lifted(self, job: JobId, on: dt.date) -> Entry | None:
        """The note by which somebody lifted the hold that binds a job on a day; a later hold binds anew."""
        return next((e for e in self._of("hold-lifted", job) if e.until is None or on < e.until), None)

    def _of(self, what: str, job: JobId) -> list[Entry]:
        """Notes about a job, the last first. A note without a year is about the season of its day."""
        found = self._said.get((what, job.subject, job.verb), [])
        return [
            entry
            for told, entry in reversed(found)
            if (told.year, told.number) == (job.year, job.number)
            or (told.year is None and entry.on.year == job.year)
        ]
