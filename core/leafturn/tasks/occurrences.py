"""Which jobs a season has: rules laid on the garden and the steward's own, each with its window and where it
stands."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator

from msgspec.structs import replace

from leafturn.base.value import Value
from leafturn.garden.model import OwnJob
from leafturn.journal.entries import Entry, LetGo, PutOff
from leafturn.journal.job_id import OWN_JOB, JobId, verb_id
from leafturn.tasks.assignments import Assignments
from leafturn.tasks.completions import Completions
from leafturn.tasks.conditions import damage_of
from leafturn.tasks.cutting import dated
from leafturn.tasks.demands import demands_of
from leafturn.tasks.garden_jobs import is_dated, jobs_as_rules
from leafturn.tasks.hanging import hangs_over
from leafturn.tasks.holds import hold_on, next_hold
from leafturn.tasks.model import DUE
from leafturn.tasks.rule_model import Rule, RuleBook
from leafturn.tasks.season_model import SeasonModel
from leafturn.tasks.subjects import Subject, called, subjects_of
from leafturn.tasks.timing.frost_threat import under_threat
from leafturn.tasks.timing.windows import JobStatus, Window, ended_before, in_order, status_of, window_of
from leafturn.tasks.week.labour import for_want_of, wanted_hands


class Occurrence(Value, eq=False):
    """A rule's job at one subject, once in a season.

    Parameters
    ----------
    id : JobId
    rule : Rule
        With the dates that hold for the subject.
    subject : Subject
    window : Window
    status : JobStatus
        Where it stands on the day of asking.
    last_done : date or None
        When the job was last done before, in any season.
    demands : tuple of str
        What it demands of hands.
    wants : str
        Who is missing here to do it; empty if nobody is.
    """

    id: JobId
    rule: Rule
    subject: Subject
    window: Window
    status: JobStatus
    last_done: dt.date | None
    demands: tuple[str, ...]
    wants: str


class Occurrences(Value, eq=False, kw_only=False):
    """Finds the jobs of one season by its rules and by what was noted and settled."""

    season: SeasonModel
    book: RuleBook
    completions: Completions
    assignments: Assignments

    def of_season(
        self,
        only: Callable[[Rule], bool],
        own: Callable[[OwnJob], bool],
    ) -> Iterator[Occurrence]:
        """Those whose rule passes `only`, by rules and garden, then those of the steward's own jobs that pass
        `own`."""
        for rule in self.book.rules:
            if rule.cut is not None or only(rule):
                for subject in subjects_of(rule, self.season):
                    now = self.dated(rule, subject)
                    if only(now):
                        yield from self._of_subject(now, subject)
        for job, rule, subject in jobs_as_rules(self.season):
            closed = self.completions.all_closed(subject, rule, also_let_go=is_dated(job))
            if own(job) and (job.yearly or not closed or closed[-1].on >= self.season.axis.start):
                yield from self._of_subject(rule, subject)

    def opening(self, rule: Rule, subject: Subject) -> dt.date | None:
        """When a rule's first window opens for a subject, as if nothing had been done yet."""
        windows = (
            window_of(one, subject, self.season, None) for one in dated(rule, subject.plants, self.season)
        )
        return next((window.open.likely for window in windows if window.exists), None)

    def dated(self, rule: Rule, subject: Subject) -> Rule:
        """The rule with its dates: of a cut's windows the first that has not closed, else the last."""
        rules = dated(rule, subject.plants, self.season)
        if len(rules) == 1:
            return rules[0]
        windows = [window_of(one, subject, self.season, None) for one in rules]
        still = (one for one, w in zip(rules, windows, strict=True) if w.close_day >= self.season.today)
        return next(still, rules[-1])

    def _of_subject(self, rule: Rule, subject: Subject) -> Iterator[Occurrence]:
        axis = self.season.axis
        notes = self.completions.in_season(subject, rule, axis, hangs_over(rule, subject, self.season))
        done = [e for e in notes if not isinstance(e, LetGo | PutOff)]
        ever = self.completions.all_done(subject, rule)
        last_done = ever[-1].on if ever else None
        threatened = under_threat(rule, subject, self.season)
        if rule.again:
            if done:
                before = ever[-2].on if len(ever) > 1 else None
                yield from self._occurrence(rule, subject, len(done), before, done[-1])
            if not threatened:
                return
            pending = [e for e in notes if e not in done and (not done or e.on >= done[-1].on)]
            yield from self._occurrence(
                rule, subject, len(done) + 1, last_done, pending[-1] if pending else None
            )
        elif threatened and (notes or not self._is_seen_to(rule, subject, last_done)):
            left = self._without_note(rule, subject)
            if left != subject:  # what was noted of the others was not done to these
                ever = self.completions.all_done(left, rule)
                last_done = ever[-1].on if ever else None
            yield from self._occurrence(rule, left, 1, last_done, notes[-1] if notes else None)

    def _is_seen_to(self, rule: Rule, subject: Subject, last_done: dt.date | None) -> bool:
        """Whether the job was done since the damage that calls for it was noted."""
        words = rule.applies.damaged_by
        damage = [note for plant in subject.plants for note in damage_of(plant, self.season, words)]
        return last_done is not None and bool(damage) and all(note.on <= last_done for note in damage)

    def _without_note(self, rule: Rule, subject: Subject) -> Subject:
        """Of plants looked at together, those that still want their note (all of them once all have one)."""
        if rule.closed_by is None or len(subject.plants) < 2:
            return subject
        left = tuple(p for p in subject.plants if not self.completions.has_note_of(p, rule, self.season.axis))
        if not left or len(left) == len(subject.plants):
            return subject
        return replace(subject, plants=left, name=called(left, self.season))

    def _occurrence(
        self, rule: Rule, subject: Subject, number: int, last_done: dt.date | None, note: Entry | None
    ) -> Iterator[Occurrence]:
        season = self.season
        window = window_of(rule, subject, season, last_done)
        if (note is None or isinstance(note, PutOff)) and not (
            _stands(rule, window, season) and self._has_forerunner(rule, subject, window)
        ):
            return
        held_from = next_hold(rule, self.book, subject, season, window.close_day)
        window = in_order(ended_before(window, held_from, season))
        job_id = JobId(subject.id, verb_id(rule.verb), season.axis.year, number)
        hold = hold_on(rule, self.book, subject, season)
        lifted = self.assignments.lifted(job_id, season.day.on) if hold is not None else None
        status = status_of(rule, window, season, hold, lifted, note)
        demands = demands_of(rule, subject, season, own=rule.verb == OWN_JOB)
        points = [plant.point for plant in subject.plants] or [subject.point]
        wants = wanted_hands(demands, points, season.day.garden.all_helpers)
        if status.state in DUE and wants:
            status = JobStatus(state="held", hold=for_want_of(wants))
        yield Occurrence(
            id=job_id,
            rule=rule,
            subject=subject,
            window=window,
            status=status,
            last_done=last_done,
            demands=demands,
            wants=wants,
        )

    def _has_forerunner(self, rule: Rule, subject: Subject, window: Window) -> bool:
        """Whether what a rule follows was done; true of a rule that follows none."""
        if rule.follows is None or window.close.likely is None:
            return rule.follows is None
        first = next((r for r in self.book.rules if r.id == rule.follows), None)
        return first is not None and self.completions.done_before(subject, first, window.close.likely)


def _stands(rule: Rule, window: Window, season: SeasonModel) -> bool:
    """Whether there is such a job: its window, or of watering the season in which rain may yet stay away."""
    return window.exists or (rule.counts_as == "water" and season.today <= window.close_day)
