"""Every job of a season, made of its occurrences: what is told of each, and who does it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator
from functools import cached_property

from leafturn.base import day_words
from leafturn.base.evidence import Basis, weakest
from leafturn.base.value import Value
from leafturn.garden.model import OwnJob
from leafturn.hazards.look_alikes import picking_cautions, poisonous_herbs
from leafturn.tasks.assignments import Assignments
from leafturn.tasks.completions import Completions
from leafturn.tasks.conditions import is_for
from leafturn.tasks.demands import cautions_of, is_under_failing
from leafturn.tasks.model import OVER, Job, Trigger
from leafturn.tasks.occurrences import Occurrence, Occurrences
from leafturn.tasks.reasons import reasons_for
from leafturn.tasks.rule_model import Rule, RuleBook
from leafturn.tasks.season_model import SeasonModel
from leafturn.tasks.subjects import Subject, heads_of
from leafturn.tasks.timing.windows import Sequel, Window, window_of
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

    @cached_property
    def _occurrences(self) -> Occurrences:
        return Occurrences(self.season, self.book, self.completions, self.assignments)

    def jobs(
        self,
        only: Callable[[Rule], bool] = lambda rule: True,
        own: Callable[[OwnJob], bool] = lambda job: True,
    ) -> Iterator[Job]:
        """All jobs of the season whose rule passes `only`, by rules and garden, then those of the
        steward's own that pass `own`."""
        return map(self._job, self._occurrences.of_season(only, own))

    def opening(self, rule: Rule, subject: Subject) -> dt.date | None:
        """When a rule's first window opens for a subject, as if nothing had been done yet."""
        return self._occurrences.opening(rule, subject)

    def _job(self, one: Occurrence) -> Job:
        season, rule, subject, window, status = self.season, one.rule, one.subject, one.window, one.status
        note = status.note if status.state in OVER else None
        days_left = max(window.close_day - season.today, 0.5)
        return Job(
            id=str(one.id),
            plant=subject.id,
            verb=rule.verb,
            title=_title(one).replace("{name}", subject.name),
            state=status.state,
            open=window.open,
            best=window.best,
            close=window.close,
            minutes=self._minutes(rule, subject),
            where=self._whereabouts.of(subject),
            guild=subject.guild,
            point=subject.point,
            telling=lambda: reasons_for(one, season, self._sequel(one)),
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
            given_to=self.assignments.given_to(one.id),
            days_late=status.days_late,
            demands=one.demands,
            cautions=self._cautions(one),
            wants=one.wants,
            wait_until=window.close.likely,
            harm=rule.harm,
            closed_on=note.on if note else None,
            closed_by=(note.by or "") if note else "",
            cost_of_delay=(rule.harm + 0.1)
            / (min(days_left, LATE_DAYS) if season.today > window.best_day else days_left),
        )

    def _sequel(self, one: Occurrence) -> Sequel | None:
        """What follows a job that is over; None of one that is not."""
        state = one.status.state
        if state not in OVER:
            return None
        passed = state == "passed"
        lately = not one.rule.again and self.season.today - one.window.close_day <= TOLD_DAYS
        return Sequel(
            next_open=self.next_open(one.rule, one.subject) if passed or lately else None,
            instead=self._instead(one.rule, one.subject) if passed else "",
        )

    @cached_property
    def _whereabouts(self) -> Whereabouts:
        return Whereabouts(self.season.day)

    def _cautions(self, one: Occurrence) -> tuple[str, ...]:
        """The rule's cautions; of a picking also those of the kinds picked, their look-alikes among them."""
        rule, subject = one.rule, one.subject
        picked = subject.plants if rule.closed_by == "harvest" else ()
        own = picking_cautions(picked, self.season.day, self._poisonous_herbs) if picked else ()
        said = cautions_of(
            rule,
            one.demands,
            frost_ahead=self.season.cold.of_spring_ahead,
            failing_host=any(p.host and self.season.here.is_failing(p) for p in subject.plants),
            under_failing=is_under_failing(subject, self.season),
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
        window = window_of(self._occurrences.dated(other, subject), subject, self.season, None)
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


def _title(one: Occurrence) -> str:
    ahead = one.status.state in ("soon", "not yet")
    return one.rule.title_ahead if ahead and one.rule.title_ahead is not None else one.rule.title
