"""A hand-made almanac with fixed answers, so that screens and words are tested apart from any reckoning."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING

import msgspec
from fake_canopy import fake_canopy, fake_drift, fake_ground_light
from fake_garden import (
    BLOOM_GUESSES,
    ENTRIES,
    EVENTS,
    FROST,
    GARDEN,
    GARDEN_PLAN,
    HARVEST_GUESSES,
    HEAT,
    HEAT_COURSE,
    HELPER_LOADS,
    JOBS,
    ON,
    REVIEWS,
    SEASON_DAYS,
    WAITING,
    WALK,
    card,
    days_of_partners,
)
from fake_rules import FakeRules
from fake_tending import (
    CLIMBERS,
    COLD_HIT,
    HAZARDS,
    HEAPS,
    LARDER,
    LEARNT,
    NITROGEN,
    SCORE,
    FakeWater,
    frost_loss,
    known_weather,
)

from leafturn.answers.climbers import ClimberView
from leafturn.answers.cold_night import Tonight
from leafturn.answers.forecast_score import Score
from leafturn.answers.garden_plan import GardenPlan
from leafturn.answers.harvest_calendar import Larder
from leafturn.answers.heaps import HeapView
from leafturn.answers.heat_course import HeatCourse
from leafturn.answers.learnt import Learnt
from leafturn.answers.plant_card import PlantCard
from leafturn.answers.season import Heading, Season
from leafturn.answers.season_days import SeasonDays
from leafturn.answers.weather import WeatherKnown
from leafturn.assembly.looking_ahead import SlowAnswer
from leafturn.assembly.other_gardens import NamedGarden
from leafturn.base.faults import Fault, Unreadable
from leafturn.bloom.frost.loss import FrostLoss
from leafturn.bloom.model import LikelyStage, SeasonEvent
from leafturn.canopy.model import Canopy
from leafturn.garden.editing.edits import Edit
from leafturn.garden.model import Garden
from leafturn.hazards.overview import Hazards
from leafturn.journal.book import BookLine
from leafturn.journal.entries import Entry, Withdrawal
from leafturn.kinds.library import Library, load_library
from leafturn.partners.bloom_overlap.partner_days import PartnerDays
from leafturn.partners.decisions import Answer, answers_in_force
from leafturn.partners.model import RedundantDonor, TreeReview
from leafturn.projection.model import ClimateProjection
from leafturn.season.axis import SeasonAxis
from leafturn.season.foreseen import ForeseenNight
from leafturn.soil.nitrogen import Nitrogen
from leafturn.tasks.lookup import jobs_meant
from leafturn.tasks.model import Job
from leafturn.tasks.week.grouping import lines_of
from leafturn.tasks.week.model import Round, Walk
from leafturn_tui.almanac_face import AlmanacFace, Progress


@dataclass(frozen=True, eq=False)
class FakeAlmanac(FakeRules):
    """Answers like an almanac, and like one is equal to itself alone; noting gives a new one."""

    on: dt.date = ON
    garden: Garden = GARDEN
    season_jobs: tuple[Job, ...] = JOBS
    waiting: tuple[Job, ...] = WAITING
    events: tuple[SeasonEvent, ...] = EVENTS
    reviews: tuple[TreeReview, ...] = REVIEWS
    redundant: tuple[RedundantDonor, ...] = (
        RedundantDonor(plant="kiwi-m", kind="hardy kiwi", most_lost=0.0),
    )
    entries: tuple[Entry, ...] = ENTRIES
    faults: tuple[Fault, ...] = ()
    notes: tuple[str, ...] = ()
    notice: tuple[str, ...] = ()
    quiet: str = ""
    walk: Walk = WALK
    filled: str = ""
    read_only: bool = False
    rests_on: tuple[Path, ...] = ()
    doubts: bool = False
    gone_bad: str = ""
    is_stale: bool = False
    file: Path = Path("garden.toml")
    nights_foreseen: tuple[ForeseenNight, ...] = ()
    folder: Path = Path(".")
    log: list[Entry] = field(default_factory=list, compare=False)

    @property
    def axis(self) -> SeasonAxis:
        """The season that holds the day."""
        return SeasonAxis.holding(self.on, self.garden.place.southern)

    @property
    def library(self) -> Library:
        """The packaged one."""
        return load_library()[0]

    def heading(self) -> Heading:
        return Heading(
            place=self.garden.place.name,
            on=self.on,
            heat=HEAT,
            frost=FROST,
            filled=self.filled,
        )

    @property
    def remarks(self) -> tuple[str, ...]:
        return self.notes

    def also(self) -> tuple[NamedGarden[FakeAlmanac], ...]:
        return ()

    def round(self, helper: str | None = None) -> Round:
        jobs = tuple(j for j in self.season_jobs if helper is None or helper in j.helpers)
        return Round(
            jobs=jobs,
            waiting=self.waiting,
            hours_needed=2.95,
            hours_available=12.0,
            helpers=HELPER_LOADS,
            walk=self.walk,
            beyond_reach=(),
            quiet=self.quiet,
            notice=self.notice,
            lines=lines_of(jobs, self.waiting if helper is None else (), 8),
        )

    def jobs(self) -> tuple[Job, ...]:
        return (*self.season_jobs, *self.waiting)

    def job(self, job_id: str) -> Job | None:
        return next((j for j in self.jobs() if j.id in (job_id, f"{job_id}:{self.on.year}")), None)

    def jobs_meant(self, typed: str) -> tuple[Job, ...]:
        return jobs_meant(self.jobs(), typed)

    def why_plant(self, plant_id: str) -> tuple[str, ...]:
        return (f"Nothing to do at {plant_id} yet.", "Next: mulch, 1 to 9 May.")

    def heat_course(self) -> HeatCourse:
        return HEAT_COURSE

    def garden_plan(self, year: int | None = None) -> GardenPlan:
        return GARDEN_PLAN

    def season_days(self) -> SeasonDays:
        return SEASON_DAYS

    def season(self) -> Season:
        return Season(events=self.events, heat=HEAT, frost=FROST, notes=self.notes)

    def partners(self) -> tuple[TreeReview, ...]:
        return self.reviews

    def answers(self) -> dict[str, Answer]:
        return answers_in_force(self.entries, self.on)

    def redundant_donors(self) -> tuple[RedundantDonor, ...]:
        return self.redundant

    def partner_days(self, plant_id: str) -> PartnerDays | None:
        return days_of_partners(next(r for r in self.reviews if r.plant == plant_id))

    def plants(self) -> tuple[PlantCard, ...]:
        return tuple(card(p) for p in self.garden.plants)

    def plant(self, plant_id: str) -> PlantCard | None:
        return next((c for c in self.plants() if c.id == plant_id), None)

    def book(self) -> tuple[BookLine, ...]:
        back = {e.entry for e in self.entries if isinstance(e, Withdrawal)}
        lines = [BookLine(entry=e, taken_back=e.id in back) for e in self.entries]
        return tuple(reversed(lines))

    def likely_stages(self) -> tuple[LikelyStage, ...]:
        return BLOOM_GUESSES

    def likely_harvests(self) -> tuple[LikelyStage, ...]:
        return HARVEST_GUESSES

    def learnt(self) -> Learnt:
        """A plant with notes of which one is doubted, one far from where its kind was learnt, one without."""
        return LEARNT

    def score(self, progress: Progress | None = None) -> Score:
        """Two seasons; in the latest the mean of notes did better."""
        return SCORE

    def foreseen(self) -> tuple[ForeseenNight, ...]:
        return self.nights_foreseen

    def tonight(self, tmin_c: float, *, at_station: bool = False) -> Tonight:
        """One plant that such a night hurts."""
        return Tonight(
            on=self.on, garden_c=tmin_c, station_c=tmin_c + 1, said=f"In the garden {tmin_c:.1f} C.",
            plants=(COLD_HIT,), not_known=("hazel-b",), caution="The tables hold for half an hour.",
        )  # fmt: skip

    def canopy(self, progress: Progress | None = None) -> Canopy:
        return fake_canopy(self.garden)

    def light_by_month(
        self, plants: Iterable[str], without: str | None = None
    ) -> dict[str, tuple[float, ...]]:
        percent = 95.0 if without else 82.0
        return dict.fromkeys(plants, (percent,) * 12)

    def ground_light(
        self, year: int, at: Sequence[tuple[float, float]], without: str | None = None
    ) -> list[float]:
        return [100.0] * len(at) if without else fake_ground_light(at)

    def ready(self, answer: SlowAnswer) -> bool:
        return True

    def weather(self) -> WeatherKnown:
        return known_weather(self.notes)

    def drift(self, progress: Progress | None = None) -> ClimateProjection:
        return fake_drift(self.garden)

    def climbers(self) -> tuple[ClimberView, ...]:
        """One that is too much for its host."""
        return CLIMBERS

    def larder(self) -> Larder:
        """A poor one."""
        return LARDER

    def water(self) -> FakeWater:
        """One young plant, one old."""
        return FakeWater()

    def nitrogen(self) -> Nitrogen:
        """One guild with one fixer."""
        return NITROGEN

    def heed(self) -> Hazards:
        """A plum over a path."""
        return HAZARDS

    def heaps(self) -> tuple[HeapView, ...]:
        """One that works, one that is ripe."""
        return HEAPS

    def frost_losses(self) -> dict[str, FrostLoss]:
        """Of the first plant."""
        plant = self.garden.plants[0].id
        return {plant: frost_loss(plant)}

    def question_about(self, entry: Entry) -> str | None:
        return "That is 31 days before anything known here: keep it?" if self.doubts else None

    def note(self, entry: Entry, written: dt.date, edit: Edit | None = None) -> tuple[FakeAlmanac, Entry]:
        number = sum(e.id.startswith(written.isoformat()) for e in self.entries) + 1
        kept = msgspec.structs.replace(entry, id=f"{written.isoformat()}.{number}")
        self.log.append(kept)
        jobs = tuple(
            msgspec.structs.replace(j, state="done", closed_on=entry.on)
            if entry.what == "done" and j.id in entry.closes
            else j
            for j in self.season_jobs
        )
        return replace(self, entries=(*self.entries, kept), season_jobs=jobs), kept

    def note_many(self, entries: Sequence[Entry], written: dt.date) -> tuple[FakeAlmanac, tuple[Entry, ...]]:
        almanac, kept = self, []
        for entry in entries:
            almanac, one = almanac.note(entry, written)
            kept.append(one)
        return almanac, tuple(kept)

    def takeable(self, skip: int = 0) -> Entry | None:
        kept = ("withdraw", "sheet")
        lines = [b.entry for b in self.book() if not b.taken_back and b.entry.what not in kept]
        return lines[skip] if skip < len(lines) else None

    def take_back(
        self, entry_id: str, written: dt.date, edit: Edit | None = None
    ) -> tuple[FakeAlmanac, Entry]:
        taken = next(e for e in self.entries if e.id == entry_id)
        almanac, kept = self.note(Withdrawal(on=written, entry=entry_id), written)
        jobs = tuple(
            msgspec.structs.replace(j, state="due") if j.id in taken.closes else j
            for j in almanac.season_jobs
        )
        return replace(almanac, season_jobs=jobs), kept

    def at(self, on: dt.date) -> FakeAlmanac:
        return replace(self, on=on)

    def stale(self) -> bool:
        return self.is_stale

    def reread(self) -> FakeAlmanac:
        if self.gone_bad:
            raise Unreadable(Fault(file="garden.toml", line=12, message=self.gone_bad))
        return replace(self, is_stale=False)


if TYPE_CHECKING:

    def _held_to_the_face(double: FakeAlmanac) -> AlmanacFace:
        return double
