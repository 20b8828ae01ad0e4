"""The one object the pages and commands talk to: a garden on a day, everything else computed when asked."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import cached_property
from pathlib import Path

from leafturn.answers import season as season_answers
from leafturn.answers.climbers import ClimberView, climber_views
from leafturn.answers.cold_night import Tonight, tonight
from leafturn.answers.forecast_score import Progress as ScoreProgress
from leafturn.answers.forecast_score import Score, forecast_score
from leafturn.answers.harvest_calendar import Larder, larder
from leafturn.answers.heaps import HeapView, heap_views
from leafturn.answers.learnt import Learnt, learnt
from leafturn.answers.note_check import doubt_about
from leafturn.answers.plant_card import PlantCard, plant_card
from leafturn.answers.season import Heading, Season
from leafturn.answers.weather import WeatherKnown, weather_known
from leafturn.assembly.open_garden import OpenGarden
from leafturn.assembly.past_forecasts import past_forecasts
from leafturn.assembly.seasons import Seasons
from leafturn.assembly.sources import read_sources
from leafturn.bloom.frost.loss import FrostLoss
from leafturn.bloom.guesses import bloom_guesses, harvest_guesses
from leafturn.bloom.model import BloomForecast, BloomGuess
from leafturn.bloom.priors.prior import BloomPrior
from leafturn.canopy.model import Canopy
from leafturn.canopy.review import Progress
from leafturn.hazards.overview import Care, care
from leafturn.journal.entries import Entry
from leafturn.partners.bloom_overlap.strip import PartnerDays, partner_days
from leafturn.partners.decisions import Answer
from leafturn.partners.model import SpareGiver, TreeReview
from leafturn.projection.model import Drift
from leafturn.projection.review import Progress as DriftProgress
from leafturn.season.axis import SeasonAxis
from leafturn.soil.nitrogen import Nitrogen, nitrogen
from leafturn.soil.water.deficit import GardenWater
from leafturn.tasks.lookup import job_named, why_of_plant
from leafturn.tasks.model import Job, Round
from leafturn.tasks.timing.frost_threat import covered
from leafturn.tasks.week.plan import week_round


def open_almanac(
    path: str | Path, on: dt.date, priors: Mapping[str, BloomPrior | None] | None = None
) -> Almanac:
    """Open a garden as of one day.

    Parameters
    ----------
    path : str or Path
        The garden's folder or its TOML file.
    on : date
        The day of asking; notes and weather after it are not used.
    priors : mapping of kind to BloomPrior or None, optional
        To be used instead of the packaged ones, for measuring skill; None sets a kind's fitted prior aside,
        so that only its class and the book are left.

    Raises
    ------
    leafturn.base.faults.Unreadable
        If no garden can be read there; its fault says why in one sentence.
    """
    return Almanac(replace(read_sources(Path(path)), priors=priors), on)


class Almanac(OpenGarden):
    """A garden on a day. Never changes: noting something gives a new almanac.

    Parameters
    ----------
    sources : Sources
        What was read.
    on : date
        The day of asking.
    """

    @property
    def notes(self) -> tuple[str, ...]:
        """What else is worth knowing about them."""
        return (*self._sources.notes, *self._seasons.notes)

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

    @cached_property
    def _heading(self) -> Heading:
        return season_answers.heading(self.day, self._seasons.weather)

    def heading(self) -> Heading:
        """The second line of every page."""
        return self._heading

    @cached_property
    def _season(self) -> Season:
        notes = (*self.notes, *self._seasons.now.outlook.beyond)
        return season_answers.season(self.day, self._seasons.weather, self.forecasts, notes)

    def frost_losses(self) -> dict[str, FrostLoss]:
        """What frost takes of the flowers this season, by plant old enough to flower.

        Only of kinds whose critical temperatures are known.
        """
        now = self._seasons.now
        return now.flowerers(now.frost_losses)

    def tonight(self, tmin_c: float, *, at_station: bool = False) -> Tonight:
        """What a cold night would do to every plant that cold can hurt now, worst first.

        Parameters
        ----------
        tmin_c : float [degC]
            The night's minimum foreseen: the garden's own, or with `at_station` the weather station's,
            to which the frost pocket is added.
        """
        now = self._seasons.now
        pocket = self.garden.place.frost_pocket_c if at_station else 0.0
        return tonight(
            self.day,
            now.weather,
            now.forecasts,
            now.flowering,
            tmin_c + pocket,
            covered(self._sources.rules.rules, now.state),
        )

    def weather(self) -> WeatherKnown:
        """What is known of the weather: the record and its gaps, the usual year, the warming used."""
        return weather_known(self._seasons.record, self._seasons.normals, self._seasons.warming)

    def season(self) -> Season:
        """Bloom and harvest of the whole season, heat and frost."""
        return self._season

    def partners(self) -> tuple[TreeReview, ...]:
        """Every tree that wants fruit, its chance of enough pollen; those a help is at hand for first."""
        return self._seasons.now.reviews

    def spare_pollen(self) -> tuple[SpareGiver, ...]:
        """Plants kept for their pollen that could go without any tree's chance falling by much."""
        return self._seasons.now.pollen.spare

    def partner_days(self, plant_id: str) -> PartnerDays | None:
        """The days on which a tree takes pollen and its partners give it; None where none are foreseen."""
        review = next((r for r in self.partners() if r.plant == plant_id), None)
        if review is None:
            return None
        return partner_days(review, self.day, self.forecasts, self.axis)

    def answers(self) -> Mapping[str, Answer]:
        """What was answered about trees without a partner and still stands, by plant."""
        return self._seasons.now.state.answers

    @cached_property
    def _jobs(self) -> tuple[Job, ...]:
        return tuple(self._seasons.jobs())

    def jobs(self) -> tuple[Job, ...]:
        """All jobs of the season, whatever their state."""
        return self._jobs

    def job(self, job_id: str) -> Job | None:
        """A job by its id; without year or number the one that is open now, else the next."""
        return job_named(self._jobs, job_id)

    @cached_property
    def _week(self) -> Round:
        return week_round(self.garden, self._jobs, self.on)

    def round(self, helper: str | None = None) -> Round:
        """This week's jobs within the hours at hand, in walking order; of one helper if named."""
        return self._week if helper is None else week_round(self.garden, self._jobs, self.on, helper)

    def why_plant(self, plant_id: str) -> tuple[str, ...]:
        """Why there is, or is not yet, anything to do at a plant."""
        return why_of_plant(self._jobs, plant_id, self.answers().get(plant_id))

    @cached_property
    def _cards(self) -> dict[str, PlantCard]:
        events = self.season().events
        return {p.id: plant_card(p, self.day, events, self._jobs) for p in self.garden.plants}

    def heaps(self) -> tuple[HeapView, ...]:
        """Every heap: mix, course, ripeness, and where its compost goes."""
        return heap_views(self.day, self._seasons.weather.now, self._jobs)

    def water(self) -> GardenWater:
        """How much of their water the woody plants have used, which want it, and which are left."""
        return self._seasons.now.anchors.water

    @cached_property
    def _larder(self) -> Larder:
        now = self._seasons.now
        return larder(self.day, now.weather, self.forecasts, now.flowering)

    def larder(self) -> Larder:
        """What is picked and what bees find in every week, the gaps, and what would fill them."""
        return self._larder

    @cached_property
    def _care(self) -> Care:
        return care(self.day)

    def care(self) -> Care:
        """Trees over paths, roots that poison, bark, look-alikes, and who to call."""
        return self._care

    def nitrogen(self) -> Nitrogen:
        """What fixes nitrogen: its share of each guild, when it is cut, and when shade ends it."""
        ensemble, light_at = self._seasons.weather.now, self._seasons.canopy.light_at
        return nitrogen(self.day, self.forecasts, ensemble, light_at)

    def climbers(self) -> tuple[ClimberView, ...]:
        """Every climber: growth since its cut, load on its host, and who else could bear it."""
        return climber_views(self._seasons.now.state, self._jobs)

    @cached_property
    def _canopy(self) -> Canopy:
        return self._seasons.canopy.canopy(self._wanted())

    def _wanted(self) -> list[str]:
        """Kinds of which a tree here lacks a partner."""
        return sorted({r.kind for r in self.partners() if r.standing == "lacks"})

    def canopy(self, progress: Progress | None = None) -> Canopy:
        """What changes when the old tree goes: light, heirs, reach, now and for thirty years.

        Parameters
        ----------
        progress : callable, optional
            Called with the year reckoned and the last; it may raise, to stop.
        """
        if progress is not None and "_canopy" not in self.__dict__:
            self.__dict__["_canopy"] = self._seasons.canopy.canopy(self._wanted(), progress)
        return self._canopy

    def canopy_ready(self) -> bool:
        """Whether the thirty years are reckoned already, so that `canopy` answers at once."""
        return "_canopy" in self.__dict__

    def drift_ready(self) -> bool:
        """Whether `drift` answers at once."""
        return "_drift" in self.__dict__

    def drift(self, progress: DriftProgress | None = None) -> Drift:
        """Bloom, frost, chill and heat now, in fifteen and in thirty years, under the stated warming.

        Parameters
        ----------
        progress : callable, optional
            Called with what is reckoned and how much there is in all; it may raise to stop.
        """
        if "_drift" not in self.__dict__:
            self.__dict__["_drift"] = self._seasons.drift(progress)
        found: Drift = self.__dict__["_drift"]
        return found

    def light_at(self, plant_id: str, year: int) -> float | None:
        """Light of a plant [% of open, growing season] in a year up to thirty on; None without a place.

        The first call reckons all years of all plants, later ones look it up.
        """
        return self._seasons.canopy.light_at(plant_id, year)

    def light_by_month(self, without: str | None = None) -> dict[str, tuple[float, ...]]:
        """Light of each plant this year [% of open], January first; without an old tree if one is named."""
        return self._seasons.canopy.light_by_month(without)

    def ground_light(
        self, year: int, at: Sequence[tuple[float, float]], without: str | None = None
    ) -> list[float]:
        """Light on the ground [% of open] of places east and north [m] in a year up to thirty on.

        Without an old tree if one is named.
        """
        review = self._seasons.canopy
        gone = review.stand.index.get(without) if without else None
        return [float(percent) for percent in review.ground_light(year, at, gone)]

    def plants(self) -> tuple[PlantCard, ...]:
        """A card for every plant, in the order of the garden file."""
        return tuple(self._cards.values())

    def plant(self, plant_id: str) -> PlantCard | None:
        """One plant's card."""
        return self._cards.get(plant_id)

    @cached_property
    def _learnt(self) -> Learnt:
        now = self._seasons.now
        return learnt(self.day, now.weather, now.outlook)

    def learnt(self) -> Learnt:
        """What the notes taught: what the place adds, and when each plant opens in a usual spring."""
        return self._learnt

    def score_ready(self) -> bool:
        """Whether `score` answers at once."""
        return "_score" in self.__dict__

    def score(self, progress: ScoreProgress | None = None) -> Score:
        """How far forecasts of the last seasons missed, beside the published date and the mean of notes.

        Every spring is foretold anew as of two weeks before each of its notes: the first call takes a while.

        Parameters
        ----------
        progress : callable, optional
            Called with what is reckoned and how much there is in all; it may raise to stop.
        """
        if not self.score_ready():
            published = {line.plant: line.published for line in self.learnt().lines}
            told = past_forecasts(self._sources, self.day)
            self.__dict__["_score"] = forecast_score(self.axis, self.entries, published, told, progress)
        score: Score = self.__dict__["_score"]
        return score

    def bloom_guesses(self) -> tuple[BloomGuess, ...]:
        """Plants that may just have reached a stage, likeliest first."""
        now = self._seasons.weather.now
        able = self._seasons.now.flowerers(self.forecasts)
        return bloom_guesses(able, now, now.axis.day(self.on))

    def harvest_guesses(self) -> tuple[BloomGuess, ...]:
        """Plants that may be ripe, likeliest first."""
        now = self._seasons.weather.now
        able = self._seasons.now.flowerers(self.forecasts)
        return harvest_guesses(able, now, now.axis.day(self.on), self.entries)

    def doubt(self, entry: Entry) -> str | None:
        """A question to ask before a note is kept, or None."""
        return doubt_about(entry, self.day, self.forecasts, self._seasons.weather.now)
