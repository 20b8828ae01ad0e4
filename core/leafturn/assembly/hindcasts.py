"""Forecasts of past seasons, made again as they stood on a day, knowing nothing later."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Iterable, Iterator, Mapping

import numpy as np
from msgspec import structs

from leafturn.answers.forecast_events import Event, Hindcast, ObservedEvent
from leafturn.answers.learnt import published_days
from leafturn.assembly.seasons import Seasons
from leafturn.assembly.sources import Sources
from leafturn.base.arrays import FloatArray
from leafturn.base.kept import kept
from leafturn.bloom.forecast import Forecaster
from leafturn.bloom.model import Outlook
from leafturn.garden.model import Garden
from leafturn.journal.entries import BloomNote, HarvestNote, WeatherNote
from leafturn.journal.noted import Notes, of_kind
from leafturn.season.axis import SeasonAxis
from leafturn.season.frost import first_frost, freezes_by_year, last_frost
from leafturn.season.garden_day import GardenDay
from leafturn.tasks.season_model import SeasonModel
from leafturn.weather.record import DailyRecord


class Hindcasts:
    """What was foretold, on a day, of the season that holds it or of the next.

    Only of plants with notes of their bloom, leaves or picking, or with a stated usual date. The others tell
    nothing of these, so the forecasts are the same as with all plants, and sooner made.

    Parameters
    ----------
    sources : Sources
    day : GardenDay
        Of its notes those after an earlier day are left out for that day.
    """

    def __init__(self, sources: Sources, day: GardenDay) -> None:
        self._sources, self._day = structs.replace(sources, forecast=None), day  # of another evening
        noted = {e.plant for e in day.entries if isinstance(e, BloomNote | HarvestNote)}
        plants = (p for p in sources.garden.plants if p.id in noted or p.opens is not None)
        self._garden = structs.replace(sources.garden, plants=tuple(plants))

    def __call__(self, on: dt.date, axis: SeasonAxis, plants: Collection[str]) -> Mapping[Event, Hindcast]:
        """Every event of some plants, and the frosts, of a season as they were foretold on a day."""
        season = self._season(self._garden, self._noted_by(on), on, axis)
        outlook = Forecaster.of(season.day, season.weather, season.priors, plants).outlook()
        published = self._usual(axis) | {
            Event("first open", plant): day
            for plant, day in published_days(season.weather, outlook.blooms).items()
        }
        told = likely_days(season, outlook)
        return {event: Hindcast(day, published.get(event)) for event, day in told.items()}

    @kept
    def season_of(self, plant: str, on: dt.date) -> SeasonModel:
        """The season that held a day, of one plant alone, as it was foretold on that day."""
        garden = self._sources.garden
        alone = structs.replace(garden, plants=tuple(p for p in garden.plants if p.id == plant))
        axis = SeasonAxis.holding(on, garden.place.southern)
        return self._season(alone, self._noted_by(on), on, axis)

    def _noted_by(self, on: dt.date) -> Notes:
        return Notes(e for e in self._day.entries if e.on <= on)

    @kept
    def _usual(self, axis: SeasonAxis) -> dict[Event, dt.date | None]:
        """What was to be expected before a season began by the book and the years before, without notes."""
        plants = tuple(structs.replace(p, opens=None, ripe=None) for p in self._garden.plants)
        eve = axis.first - dt.timedelta(days=1)
        weather = Notes(e for e in of_kind(self._day.entries, WeatherNote) if e.on <= eve)
        garden = structs.replace(self._garden, plants=plants)
        season = self._season(garden, weather, eve, axis)
        return likely_days(season, season.outlook)

    def _season(self, garden: Garden, entries: Notes, on: dt.date, axis: SeasonAxis) -> SeasonModel:
        day = self._day
        seasons = Seasons(self._sources, GardenDay(garden, day.library, entries, on, day.verbs))
        return seasons.now if seasons.axis == axis else seasons.after


def likely_days(season: SeasonModel, outlook: Outlook) -> dict[Event, dt.date | None]:
    """The likely day of every event of a season that can be noted, of the plants of an outlook on it."""
    now = season.weather.now
    days = {event: now.likely(draws).likely for event, draws in _draws(season, outlook)}
    pocket = season.pocket_c
    days[Event("last frost")] = now.likely(last_frost(now, 0.0, pocket)).likely
    days[Event("first frost")] = now.likely(first_frost(now, 0.0, pocket)).likely
    return days


def _draws(season: SeasonModel, outlook: Outlook) -> Iterator[tuple[Event, FloatArray]]:
    kinds = {plant.id: season.kind(plant) for plant in season.day.garden.plants}
    for plant, forecast in outlook.blooms.items():
        yield Event("first open", plant), forecast.first_open
        if forecast.ripe is not None:
            yield Event("picking", plant), forecast.ripe
    for plant, draws in outlook.leaves.items():
        yield Event("leaf-out", plant), draws
        yield Event("leaf fall", plant), season.cold.leaf_fall(kinds[plant], winter=False)


def frosts_of(record: DailyRecord | None, pocket_c: float, *, southern: bool) -> Iterable[ObservedEvent]:
    """The last and the first frost of each season of a record, in the garden.

    Parameters
    ----------
    record : DailyRecord or None
    pocket_c : float [degC]
    southern : bool
    """
    if record is None or not len(record):
        return
    days = record.days
    found = freezes_by_year(days, record.tmin + pocket_c, southern=southern)
    for year, last, first in zip(found.years.tolist(), found.last, found.first, strict=True):
        axis, eve = SeasonAxis(year, southern), dt.date(year, 1, 1) - dt.timedelta(days=1)
        if np.isfinite(last):
            yield ObservedEvent(Event("last frost"), axis, eve + dt.timedelta(days=int(last)))
        if np.isfinite(first):
            yield ObservedEvent(Event("first frost"), axis, eve + dt.timedelta(days=int(first)))
