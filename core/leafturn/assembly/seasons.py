"""This season and the next, each with its weather, forecasts and partners; computed when asked."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection
from functools import cached_property
from typing import TYPE_CHECKING

from msgspec.structs import replace

from leafturn.assembly.sources import Sources
from leafturn.base import day_words
from leafturn.base.kept import kept
from leafturn.base.value import Value
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.canopy.stand.today import StandToday
from leafturn.journal.entries import HarvestNote
from leafturn.season.axis import SeasonAxis
from leafturn.season.foreseen import ForeseenNight, foreseen_nights, with_foreseen
from leafturn.season.garden_day import GardenDay
from leafturn.season.trend import Warming, warming_of
from leafturn.season.years import build_ensemble
from leafturn.tasks.season_model import SeasonModel
from leafturn.weather.hand_notes import with_noted_weather
from leafturn.weather.normals.normal_year import ONLY_LATITUDE, normal_year
from leafturn.weather.normals.normals import Normals
from leafturn.weather.record import DailyRecord

if TYPE_CHECKING:
    from leafturn.canopy.review import CanopyReview
    from leafturn.projection.model import ClimateProjection
    from leafturn.projection.review import Progress as ProjectionProgress


DAY = dt.timedelta(days=1)


class _Climate(Value, eq=False, kw_only=False):
    """Normals known before a season and by now, and the trend of the years before it."""

    before: Normals
    now: Normals
    warming: Warming


class Seasons:
    """The season that holds a day, and the one after.

    Parameters
    ----------
    sources : Sources
        Their weather record and priors are used.
    """

    def __init__(self, sources: Sources, day: GardenDay) -> None:
        self._sources, self._day = sources, day
        self.axis = day.axis

    @cached_property
    def record(self) -> DailyRecord | None:
        """The record up to the day of asking, with weather noted by hand."""
        return with_noted_weather(
            self._sources.record,
            self._day.entries,
            self._day.on,
            self._day.garden.place.frost_pocket_c,
        )

    @cached_property
    def foreseen(self) -> tuple[ForeseenNight, ...]:
        """The nights to come whose minimum is typed or stands in the garden's forecast file."""
        day = self._day
        pocket = day.garden.place.frost_pocket_c
        return foreseen_nights(self._sources.forecast, day.entries, day.on, pocket)

    def _climate(self, axis: SeasonAxis) -> _Climate:
        """What was known before a season began, so that what is usual stands still through it.

        Of a season still to come, what was known before this one.
        """
        return self._climate_before(axis if axis.first <= self._day.on else self.axis)

    @kept
    def _climate_before(self, axis: SeasonAxis) -> _Climate:
        garden = self._day.garden
        known = with_noted_weather(self.record, (), axis.first - DAY)
        before = normal_year(garden.place, garden.climate, known)
        own = before.basis == "own record"
        nothing_new = own or self.record is None
        now = before if nothing_new else normal_year(garden.place, garden.climate, self.record)
        # what a first year of record tells is nearer the truth than what was guessed before it
        before = now if now.basis == "own record" else before
        return _Climate(before=before, now=now, warming=warming_of(known, before))

    @property
    def normals(self) -> Normals:
        """Those known before the season; where there was too little of a record, what is known by now."""
        return self._climate(self.axis).now

    @property
    def warming(self) -> Warming:
        """The trend of the years before this season."""
        return self._climate(self.axis).warming

    @cached_property
    def now(self) -> SeasonModel:
        """The season that holds the day."""
        return self._one(self.axis)

    @cached_property
    def after(self) -> SeasonModel:
        """The season after it."""
        return self._one(self.axis.next)

    def before(self, plants: Collection[str]) -> SeasonModel:
        """The season before it, of some plants alone; what was picked since it ended is of its flowers."""
        garden, last = self._day.garden, self.axis.start - DAY
        of_these = replace(garden, plants=tuple(plant for plant in garden.plants if plant.id in plants))
        entries = tuple(
            replace(e, on=min(e.on, last)) if isinstance(e, HarvestNote) else e for e in self._day.entries
        )
        return replace(self._one(self.axis.before), day=replace(self._day, garden=of_these, entries=entries))

    @cached_property
    def canopy(self) -> CanopyReview:
        """Crowns and light by year; ``canopy.light_at(plant, year)`` is cheap once any year was asked for."""
        from leafturn.canopy.review import CanopyReview

        return CanopyReview(self._stand_today)

    @cached_property
    def _stand_today(self) -> StandToday:
        return StandToday(self._day, lambda: self.weather.usual_heat)

    def drift(self, progress: ProjectionProgress | None = None) -> ClimateProjection:
        """Bloom, frost, chill and heat in fifteen and thirty years under the warming that is stated."""
        from leafturn.projection.review import climate_projection

        before = min(self._day.on, self.axis.first - DAY)
        warming, lat = self.warming, self._day.garden.place.lat
        usual = build_ensemble(
            self.axis, self.record, self.normals, before, warming=warming.per_year, latitude=lat
        )
        weather = SeasonWeather(now=usual, usual=usual, record=self.record)
        return climate_projection(self._day, weather, warming, progress)

    @property
    def weather(self) -> SeasonWeather:
        """This season's weather."""
        return self.now.weather

    @property
    def remarks(self) -> tuple[str, ...]:
        """What is worth saying about the weather used, but for the days filled, which the heading tells."""
        alone = (ONLY_LATITUDE,) if self.weather.now.made_of.latitude_alone else ()
        name, on = self._day.garden.place.forecast, self._day.on
        stale = self._sources.forecast is not None and all(night.typed for night in self.foreseen)
        return (*alone, f"{name} has no night after {day_words.full_day(on)}.") if stale else alone

    @property
    def filled_words(self) -> tuple[str, ...]:
        """A sentence on the days of this season whose weather comes from normals; none if none does."""
        ensemble = self.weather.now
        if not ensemble.filled_words:
            return ()
        verb = "comes" if ensemble.filled == 1 else "come"
        return (f"{ensemble.filled_words} of this season's weather {verb} from the usual year.",)

    @property
    def weather_before(self) -> SeasonWeather:
        """The weather of the season before this one, as far as it is known by now."""
        return self._weather(self.axis.before)

    def _one(self, axis: SeasonAxis) -> SeasonModel:
        return SeasonModel(
            day=self._day,
            weather=self._weather(axis),
            light_now=lambda: self._stand_today.light,
            priors=self._sources.priors,
        )

    @kept
    def _weather(self, axis: SeasonAxis) -> SeasonWeather:
        before = min(self._day.on, axis.first - DAY)
        climate = self._climate(axis)
        lat = self._day.garden.place.lat
        usual = build_ensemble(axis, self.record, climate.before, before, latitude=lat)
        ahead = build_ensemble(
            axis, self.record, climate.now, self._day.on, warming=climate.warming.per_year, latitude=lat
        )
        now = with_foreseen(ahead, self.foreseen, self._day.on)
        return SeasonWeather(now=now, usual=usual, record=self.record)
