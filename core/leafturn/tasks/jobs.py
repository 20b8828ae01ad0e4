"""Every job of a season: rules laid on the garden, and the steward's own."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator
from functools import cached_property

from msgspec.structs import replace

from leafturn.base import day_words
from leafturn.base.evidence import Basis, weakest
from leafturn.base.value import Value
from leafturn.garden.model import OwnJob
from leafturn.hazards.look_alikes import picking_cautions, poisonous_herbs
from leafturn.journal.entries import Entry, LetGo, PutOff
from leafturn.journal.job_id import JobId, verb_id
from leafturn.tasks.assignments import Assignments
from leafturn.tasks.completions import Completions
from leafturn.tasks.conditions import damage_of, is_for
from leafturn.tasks.cutting import dated
from leafturn.tasks.demands import cautions_of, demands_of, is_under_failing
from leafturn.tasks.garden_jobs import OWN_JOB, is_dated, jobs_as_rules
from leafturn.tasks.hanging import hangs_over
from leafturn.tasks.holds import hold_on, next_hold
from leafturn.tasks.model import DUE, OVER, Job, State, Trigger
from leafturn.tasks.reasons import reasons_for
from leafturn.tasks.rule_model import Rule, RuleBook
from leafturn.tasks.season_model import SeasonModel
from leafturn.tasks.subjects import Subject, called, heads_of, subjects_of
from leafturn.tasks.timing.frost_threat import under_threat
from leafturn.tasks.timing.windows import (
    JobStatus,
    Sequel,
    Window,
    ended_before,
    in_order,
    status_of,
    window_of,
)
from leafturn.tasks.week.labour import for_want_of, wanted_hands
from leafturn.tasks.whereabouts import Whereabouts

TOLD_DAYS = 60  # for so long after its window a job that is done says when it may next be done
# guess: past its best day a job costs as if it had so long left at most, however far off its end
LATE_DAYS = 30.0
NextOpen = Callable[[Rule, Subject], dt.date | None]


class JobMaker(Value, eq=False, kw_only=False):
    """Makes the jobs of one season.

    Parameters
    ----------
    next_open : callable
        Gives the opening date of a rule's window in the season after; asked only where it is shown.
    """

    season: SeasonModel
    book: RuleBook
    completions: Completions
    assignments: Assignments
    next_open: NextOpen

    def jobs(
        self,
        only: Callable[[Rule], bool] = lambda rule: True,
        own: Callable[[OwnJob], bool] = lambda job: True,
    ) -> Iterator[Job]:
        """All jobs of the season whose rule passes `only`, by rules and garden, then those of the
        steward's own that pass `own`."""
        for rule in self.book.rules:
            if rule.cut is not None or only(rule):
                for subject in subjects_of(rule, self.season):
                    now = self._dated(rule, subject)
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

    def _dated(self, rule: Rule, subject: Subject) -> Rule:
        """The rule with its dates: of a cut's windows the first that has not closed, else the last."""
        rules = dated(rule, subject.plants, self.season)
        if len(rules) == 1:
            return rules[0]
        windows = [window_of(one, subject, self.season, None) for one in rules]
        still = (one for one, w in zip(rules, windows, strict=True) if w.close_day >= self.season.today)
        return next(still, rules[-1])

    def _of_subject(self, rule: Rule, subject: Subject) -> Iterator[Job]:
        axis = self.season.axis
        notes = self.completions.in_season(subject, rule, axis, hangs_over(rule, subject, self.season))
        done = [e for e in notes if not isinstance(e, LetGo | PutOff)]
        ever = self.completions.all_done(subject, rule)
        last_done = ever[-1].on if ever else None
        threatened = under_threat(rule, subject, self.season)
        if rule.again:
            if done:
                before = ever[-2].on if len(ever) > 1 else None
                yield from self._job(rule, subject, len(done), before, done[-1])
            if not threatened:
                return
            pending = [e for e in notes if e not in done and (not done or e.on >= done[-1].on)]
            yield from self._job(rule, subject, len(done) + 1, last_done, pending[-1] if pending else None)
        elif threatened and (notes or not self._is_seen_to(rule, subject, last_done)):
            left = self._without_note(rule, subject)
            if left != subject:  # what was noted of the others was not done to these
                ever = self.completions.all_done(left, rule)
                last_done = ever[-1].on if ever else None
            yield from self._job(rule, left, 1, last_done, notes[-1] if notes else None)

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

    def _job(
        self, rule: Rule, subject: Subject, number: int, last_done: dt.date | None, note: Entry | None
    ) -> Iterator[Job]:
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
        if status.state in DUE and (wants := self._wanted(self._demands(rule, subject), subject)):
            status = JobStatus(state="held", hold=for_want_of(wants))
        yield self._filled(rule, subject, job_id, window, status, last_done)

    def _sequel(self, rule: Rule, subject: Subject, window: Window, state: State) -> Sequel | None:
        """What follows a job that is over; None of one that is not."""
        if state not in OVER:
            return None
        passed = state == "passed"
        lately = not rule.again and self.season.today - window.close_day <= TOLD_DAYS
        return Sequel(
            next_open=self.next_open(rule, subject) if passed or lately else None,
            instead=self._instead(rule, subject) if passed else "",
        )

    def _has_forerunner(self, rule: Rule, subject: Subject, window: Window) -> bool:
        """Whether what a rule follows was done; true of a rule that follows none."""
        if rule.follows is None or window.close.likely is None:
            return rule.follows is None
        first = next((r for r in self.book.rules if r.id == rule.follows), None)
        return first is not None and self.completions.done_before(subject, first, window.close.likely)

    def _filled(
        self,
        rule: Rule,
        subject: Subject,
        job_id: JobId,
        window: Window,
        status: JobStatus,
        last_done: dt.date | None,
    ) -> Job:
        season = self.season
        demands = self._demands(rule, subject)
        note = status.note if status.state in OVER else None
        days_left = max(window.close_day - season.today, 0.5)
        return Job(
            id=str(job_id),
            plant=subject.id,
            verb=rule.verb,
            title=_title(rule, status).replace("{name}", subject.name),
            state=status.state,
            open=window.open,
            best=window.best,
            close=window.close,
            minutes=self._minutes(rule, subject),
            where=self._whereabouts.of(subject),
            guild=subject.guild,
            point=subject.point,
            telling=lambda: reasons_for(
                rule,
                subject,
                window,
                status,
                season,
                last_done,
                self._sequel(rule, subject, window, status.state),
            ),
            basis=self._basis(rule, window),
            trigger=Trigger(moment=window.opens_with, measure=window.opens.measure),
            plants=tuple(p.id for p in subject.plants),
            members=self._whereabouts.members(subject),
            name=subject.name,
            look=rule.look or "",
            rule=rule.id,
            counts_as=rule.counts_as,
            harms_late=rule.too_late == "do not",
            source=rule.source,
            hold=None if status.lifted else status.hold,
            given_to=self.assignments.given_to(job_id),
            days_late=status.days_late,
            demands=demands,
            cautions=self._cautions(rule, demands, subject),
            wants=self._wanted(demands, subject),
            wait_until=window.close.likely,
            harm=rule.harm,
            closed_on=note.on if note else None,
            closed_by=(note.by or "") if note else "",
            cost_of_delay=(rule.harm + 0.1)
            / (min(days_left, LATE_DAYS) if season.today > window.best_day else days_left),
        )

    @cached_property
    def _whereabouts(self) -> Whereabouts:
        return Whereabouts(self.season.day)

    def _demands(self, rule: Rule, subject: Subject) -> tuple[str, ...]:
        return demands_of(rule, subject, self.season, own=rule.verb == OWN_JOB)

    def _wanted(self, demands: tuple[str, ...], subject: Subject) -> str:
        """Who is missing in this garden to do what nobody may do alone or without a licence."""
        points = [plant.point for plant in subject.plants] or [subject.point]
        return wanted_hands(demands, points, self.season.day.garden.all_helpers)

    def _cautions(self, rule: Rule, demands: tuple[str, ...], subject: Subject) -> tuple[str, ...]:
        """The rule's cautions; of a picking also those of the kinds picked, their look-alikes among them."""
        picked = subject.plants if rule.closed_by == "harvest" else ()
        own = picking_cautions(picked, self.season.day, self._poisonous_herbs) if picked else ()
        failing_host = any(p.host and self.season.here.is_failing(p) for p in subject.plants)
        frost_ahead = self.season.cold.of_spring_ahead
        under = is_under_failing(subject, self.season)
        said = cautions_of(
            rule, demands, frost_ahead=frost_ahead, failing_host=failing_host, under_failing=under
        )
        return (*said, *own)

    @cached_property
    def _poisonous_herbs(self) -> tuple[str, ...]:
        return poisonous_herbs(self.season.day)

    def _basis(self, rule: Rule, window: Window) -> Basis:
        """What the job's dates rest on; a heap's own readings need no weather."""
        if rule.applies.subject == "heap" and window.opens.basis == "own record":
            return window.opens.basis
        return weakest(window.opens.basis, rule.basis, self.season.weather.now.sureness)

    def _instead(self, rule: Rule, subject: Subject) -> str:
        other = next((r for r in self.book.rules if r.id == rule.instead), None)
        if other is None:
            return ""
        if not all(is_for(other, plant, self.season) for plant in subject.plants):
            return ""
        window = window_of(self._dated(other, subject), subject, self.season, None)
        if not window.exists or window.close_day < self.season.today or window.open.likely is None:
            return ""
        return f"Instead {other.verb} from {day_words.day(window.open.likely)}."

    def _minutes(self, rule: Rule, subject: Subject) -> float:
        """The mean of minutes noted for this very job, else the rule's figure for so many plants.

        Minutes of a note that closes several jobs are shared out evenly.
        """
        noted = [
            e.minutes / max(len(e.closes), 1) for e in self.completions.all_done(subject, rule) if e.minutes
        ]
        if noted:
            return sum(noted) / len(noted)
        return rule.minutes + rule.minutes_each * (heads_of(subject, self.season) - 1)


def _stands(rule: Rule, window: Window, season: SeasonModel) -> bool:
    """Whether there is such a job: its window, or of watering the season in which rain may yet stay away."""
    return window.exists or (rule.counts_as == "water" and season.today <= window.close_day)


def _title(rule: Rule, status: JobStatus) -> str:
    ahead = status.state in ("soon", "not yet")
    return rule.title_ahead if ahead and rule.title_ahead is not None else rule.title
