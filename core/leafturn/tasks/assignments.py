"""Assignments: what a person settled about a job: whom it falls to, and that a hold shall not bind it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Iterable
from typing import TypeVar

from leafturn.journal.entries import Entry, Given, HoldLifted
from leafturn.journal.job_id import JobId
from leafturn.journal.noted import noted

K = TypeVar("K", Given, HoldLifted)
Said = dict[tuple[str, str], list[tuple[JobId, K]]]  # by subject and verb, either way round

NOBODY = "anyone"  # given to nobody in particular: whoever has time


class Assignments:
    """Notes "given" and "hold-lifted", ready to be asked by job.

    Parameters
    ----------
    entries : iterable of Entry
        Notes not taken back, oldest first.
    whole : collection of str
        What their jobs call the whole garden.
    """

    def __init__(self, entries: Iterable[Entry], whole: Collection[str] = ()) -> None:
        notes = noted(entries)
        self._given: Said[Given] = notes.by_job(whole, Given)
        self._lifted: Said[HoldLifted] = notes.by_job(whole, HoldLifted)

    def given_to(self, job: JobId) -> str:
        """The helper a job was last given to; empty if to nobody in particular."""
        last = next(iter(_of(self._given, job)), None)
        return "" if last is None or last.to == NOBODY else last.to

    def lifted(self, job: JobId, on: dt.date) -> HoldLifted | None:
        """The note by which somebody lifted the hold that binds a job on a day; a later hold binds anew."""
        return next((e for e in _of(self._lifted, job) if e.until is None or on < e.until), None)


def _of(said: Said[K], job: JobId) -> list[K]:
    """Notes about a job, the last first. A note without a year is about the season of its day."""
    return [
        entry
        for told, entry in reversed(said.get((job.subject, job.verb), []))
        if (told.year, told.number) == (job.year, job.number)
        or (told.year is None and entry.on.year == job.year)
    ]
