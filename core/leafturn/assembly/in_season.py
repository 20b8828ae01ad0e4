"""An open garden in its season: jobs, partners, guesses, and what to ask about a note."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping
from functools import cached_property
from typing import TYPE_CHECKING

from leafturn.assembly.open_garden import OpenGarden
from leafturn.assembly.remarks import remarks_on_years
from leafturn.assembly.seasons import Seasons
from leafturn.base.kept import kept
from leafturn.bloom.likely_stages import likely_harvests, likely_stages
from leafturn.bloom.model import BloomForecast, LikelyStage
from leafturn.journal.entries import Entry, HarvestNote
from leafturn.partners.chance.cross_groups import crossing_plants
from leafturn.partners.decisions import Answer
from leafturn.partners.model import TreeReview
from leafturn.season.axis import SeasonAxis
from leafturn.tasks.assignments import Assignments
from leafturn.tasks.completions import Completions
from leafturn.tasks.garden_jobs import is_left_over
from leafturn.tasks.hanging import may_hang_over, overhangs
from leafturn.tasks.jobs import JobMaker
from leafturn.tasks.lookup import job_named, jobs_meant, why_of_plant
from leafturn.tasks.model import Job
from leafturn.tasks.rule_model import Rule, load_rules
from leafturn.tasks.season_model import SeasonModel
from leafturn.tasks.subjects import Subject
from leafturn.tasks.week.model import Round
from leafturn.tasks.week.plan import week_round

if TYPE_CHECKING:
    from leafturn.answers.rules import RuleView
    from leafturn.assembly.hindcasts import Hindcasts


WORK = ("graft", "move", "plant")  # answers whose jobs may lie in the season to come


class InSeason(OpenGarden):
    """What the season of the day asks of hands, from the forecasts and notes up to it."""

    @property
    def notes(self) -> tuple[str, ...]:
        """What else is worth knowing about them."""
        return (*self.remarks, *self._seasons.filled_words)

    @property
    def remarks(self) -> tuple[str, ...]:
        """The same, but for what the heading tells."""
        years = remarks_on_years(self._sources.garden, self.file.name, self.on.year)
        return (*self._sources.notes, *years, *self._seasons.remarks)

    @cached_property
    def _seasons(self) -> Seasons:
        return Seasons(self._sources, self.day)

    @property
    def axis(self) -> SeasonAxis:
        """The season that holds the day."""
        return self._seasons.axis

    @property
    def forecasts(self) -> dict[str, BloomForecast]:
        """This season's bloom and harvest, by plant."""
        return self._seasons.now.forecasts

    def partners(self) -> tuple[TreeReview, ...]:
        """Every tree that wants fruit, its chance of enough pollen; those a help is at hand for first."""
        return tuple(self._seasons.now.reviews.values())

    def answers(self) -> Mapping[str, Answer]:
        """What was answered about trees without a partner and still stands, by plant."""
        return self._seasons.now.answers

    @cached_property
    def _rules(self) -> tuple[RuleView, ...]:
        from leafturn.answers.rules import rule_views

        own = {rule.id for rule in self._sources.rules.rules} - {rule.id for rule in load_rules().rules}
        own |= {str(table["id"]) for table in self.garden.own_rules if "id" in table}
        return rule_views(self._sources.rules, own, self._seasons.now, self._jobs)

    def rules(self) -> tuple[RuleView, ...]:
        """Every rule in force, what it matches this season and what it does not."""
        return self._rules

    @cached_property
    def _jobs(self) -> tuple[Job, ...]:
        """All jobs of this season, of the next season's winter once that has begun, and all that a help
        chosen for a tree without a partner makes there."""
        jobs = (*self._hanging_over, *self._of_this_season.jobs())
        begun = self.axis.next.day(self.on) >= 0
        if not begun and not any(answer.way in WORK for answer in self.answers().values()):
            return jobs
        later = self._of_next_season.jobs(
            lambda rule: (begun and rule.winter) or rule.applies.answered_by is not None,
            lambda job: begun and not is_left_over(job, self.axis.next),
        )
        return (*jobs, *later)

    @property
    def _hanging_over(self) -> Iterator[Job]:
        """Harvests of the season before that go on into this one, as those of this one will into the next."""
        plants = self._picked_since_before
        if self._season_before is None:
            return
        maker = JobMaker(
            self._season_before, self._sources.rules, *self._settled, self._of_this_season.opening
        )
        for job in maker.jobs(may_hang_over, lambda own: False):
            if plants.issuperset(job.plants):
                yield job

    @cached_property
    def _picked_since_before(self) -> frozenset[str]:
        """Plants whose picking began in the season before and is not over yet."""
        now = self._seasons.now
        start = now.axis.day(now.axis.start)
        return frozenset(plant for plant, days in overhangs(now).items() if now.today < start + days)

    @cached_property
    def _season_before(self) -> SeasonModel | None:
        """The season before, of those plants and what they cross with; None where there are none."""
        plants = self._picked_since_before
        return self._seasons.before(crossing_plants(self.day, plants)) if plants else None

    @cached_property
    def _of_this_season(self) -> JobMaker:
        return JobMaker(self._seasons.now, self._sources.rules, *self._settled, self._next_open)

    @cached_property
    def _of_next_season(self) -> JobMaker:
        """What makes the jobs of the season to come; of the one after that nothing is foretold."""
        return JobMaker(self._seasons.after, self._sources.rules, *self._settled, lambda rule, subject: None)

    def _next_open(self, rule: Rule, subject: Subject) -> dt.date | None:
        return self._of_next_season.opening(rule, subject)

    @cached_property
    def _settled(self) -> tuple[Completions, Assignments]:
        """What the notes close, and what they give to whom."""
        entries, whole = self.day.entries, self.day.whole
        return Completions(entries, whole), Assignments(entries, whole)

    def jobs(self) -> tuple[Job, ...]:
        """All jobs of the season, whatever their state."""
        return self._jobs

    def job(self, job_id: str) -> Job | None:
        """A job by its id; without year or number the one that is open now, else the next."""
        return job_named(self._jobs, job_id)

    def jobs_meant(self, typed: str) -> tuple[Job, ...]:
        """The jobs that words mean, "turn bay-2" or "bay-2 turn": one where it is plain which."""
        return jobs_meant(self._jobs, typed)

    @kept
    def round(self, helper: str | None = None) -> Round:
        """This week's jobs within the hours at hand, in walking order; of one helper if named."""
        return week_round(self.garden, self._jobs, self.on, helper)

    def why_plant(self, plant_id: str) -> tuple[str, ...]:
        """Why there is, or is not yet, anything to do at a plant."""
        return why_of_plant(self._jobs, plant_id, self.answers().get(plant_id))

    @kept
    def likely_stages(self) -> tuple[LikelyStage, ...]:
        """Plants that may just have reached a stage, likeliest first."""
        now = self._seasons.weather.now
        able = self._seasons.now.flowerers(self.forecasts)
        return likely_stages(able, now, self.on)

    @kept
    def likely_harvests(self) -> tuple[LikelyStage, ...]:
        """Plants that may be ripe, likeliest first."""
        able = self._seasons.now.flowerers(self.forecasts)
        pickings = {plant: (forecast, self._seasons.weather.now) for plant, forecast in able.items()}
        if (before := self._season_before) is not None:
            still = {p: f for p, f in before.forecasts.items() if p in self._picked_since_before}
            pickings |= {p: (f, before.weather.now) for p, f in before.flowerers(still).items()}
        return likely_harvests(pickings, self.day)

    def question_about(self, entry: Entry) -> str | None:
        """A question to ask before a note is kept, or None."""
        from leafturn.answers.note_check import question_about

        return question_about(entry, self.day, lambda: self._seasons_of(entry))

    def _seasons_of(self, entry: Entry) -> Iterator[SeasonModel]:
        """The season that a note is of, and of a picking that goes on over its start the one before."""
        yield self._season_of(entry)
        if isinstance(entry, HarvestNote) and entry.plant in overhangs(self._seasons.now):
            yield self._seasons.before(crossing_plants(self.day, frozenset({entry.plant})))

    def _season_of(self, entry: Entry) -> SeasonModel:
        """The season of the day, or the earlier one that a note is of."""
        if entry.on >= self.axis.first or entry.plant is None:
            return self._seasons.now
        return self._hindcasts.season_of(entry.plant, entry.on)

    @cached_property
    def _hindcasts(self) -> Hindcasts:
        """Seasons past as they were foretold."""
        from leafturn.assembly.hindcasts import Hindcasts

        return Hindcasts(self._sources, self.day)
