"""Completions: which notes close which jobs."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Iterable

from leafturn.garden.model import Plant
from leafturn.journal.entries import KINDS, BloomNote, Done, Entry, LetGo, PutOff
from leafturn.journal.job_id import JobId, verb_id
from leafturn.journal.noted import noted
from leafturn.season.axis import SeasonAxis
from leafturn.tasks.rule_model import Rule
from leafturn.tasks.subjects import Subject

LATELY_DAYS = 300  # guess: less than a year, so that what was put on last year does not count
CLOSING = (Done, LetGo, PutOff)
Span = tuple[dt.date, dt.date]


class Completions:
    """Notes that close jobs, ready to be asked by subject, verb and season.

    Parameters
    ----------
    entries : iterable of Entry
        Notes not taken back, oldest first.
    whole : collection of str
        What their jobs call the whole garden.
    """

    def __init__(self, entries: Iterable[Entry], whole: Collection[str] = ()) -> None:
        self._noted = noted(entries)
        self._by_job: dict[tuple[str, str], list[tuple[JobId, Entry]]] = self._noted.by_job(whole, *CLOSING)

    def in_season(self, subject: Subject, rule: Rule, axis: SeasonAxis, over: int = 0) -> list[Entry]:
        """Notes that close a rule's job for a subject in one season, oldest first.

        Parameters
        ----------
        over : int [d]
            So far the job hangs over the turn of the season: notes of the first days are of the last.
        """
        span = _span(axis, rule, over)
        explicit = [
            entry
            for job, entry in self._explicit(subject, rule)
            if (axis.year == job.year if job.year is not None else _belongs(entry, span))
        ]
        return _oldest_first([*explicit, *self._by_note(subject, rule, span)])

    def all_closed(self, subject: Subject, rule: Rule, *, also_let_go: bool) -> list[Entry]:
        """Every note of the job having been done, or also let go, in any season, oldest first."""
        closed = self._explicit(subject, rule) if also_let_go else []
        let_go = [entry for _, entry in closed if isinstance(entry, LetGo)]
        return _oldest_first([*self.all_done(subject, rule), *let_go])

    def all_done(self, subject: Subject, rule: Rule) -> list[Entry]:
        """Every note of the job having been done, in any season, oldest first."""
        explicit = [entry for _, entry in self._explicit(subject, rule) if isinstance(entry, Done)]
        noted = [e for p in subject.plants for e in self.notes(p, rule)]
        return _oldest_first([*explicit, *noted])

    def done_before(self, subject: Subject, rule: Rule, until: dt.date) -> bool:
        """Whether a rule's job was done in the months before a day, of which LATELY_DAYS is the most."""
        earliest = until - dt.timedelta(days=LATELY_DAYS)
        return any(earliest <= done.on <= until for done in self.all_done(subject, rule))

    def notes(self, plant: Plant, rule: Rule) -> list[Entry]:
        """Notes of the kind that counts as doing a rule's job, for one plant."""
        if rule.closed_by is None:
            return []
        found = self._noted.of_plant(KINDS[rule.closed_by], plant.id)
        return [e for e in found if _is_of_stage(e, rule.closed_by_stage)]

    def has_note_of(self, plant: Plant, rule: Rule, axis: SeasonAxis) -> bool:
        """Whether a plant has such a note in one season."""
        span = _span(axis, rule)
        return any(_belongs(e, span) for e in self.notes(plant, rule))

    def _explicit(self, subject: Subject, rule: Rule) -> list[tuple[JobId, Entry]]:
        """Notes that name a rule's job at a subject, in any season."""
        return self._by_job.get((subject.id, verb_id(rule.verb)), [])

    def _by_note(self, subject: Subject, rule: Rule, span: Span) -> list[Entry]:
        """Notes that count as doing the job; for plants tended together only when each has one."""
        found = [[e for e in self.notes(p, rule) if _belongs(e, span)] for p in subject.plants]
        if not found or not all(found):
            return []
        return (
            [e for notes in found for e in notes]
            if len(found) == 1
            else [max((n[-1] for n in found), key=lambda e: e.on)]
        )


def _oldest_first(entries: Iterable[Entry]) -> list[Entry]:
    return sorted(entries, key=lambda entry: (entry.on, entry.id))


def _is_of_stage(entry: Entry, stage: str | None) -> bool:
    """Whether a note is of a stage; that there is no bloom this year settles every stage."""
    if stage is None:
        return True
    return isinstance(entry, BloomNote) and entry.stage in (stage, "none this year")


def _span(axis: SeasonAxis, rule: Rule, over: int = 0) -> Span:
    """The days whose notes are of a rule's job in one season: the first, and the first of the next."""
    later = dt.timedelta(days=over)
    first, after = (one.first if rule.winter else one.start for one in (axis, axis.next))
    return first + later, after + later


def _belongs(entry: Entry, span: Span) -> bool:
    first, after = span
    return first <= entry.on < after
