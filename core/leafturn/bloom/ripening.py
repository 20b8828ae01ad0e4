"""When fruit ripens by warmth from full bloom, and when leaves and roots are in season."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from functools import cached_property

import numpy as np

from leafturn.base.arrays import FloatArray, medians
from leafturn.base.kept import kept
from leafturn.base.value import Value
from leafturn.bloom.beyond import without_winter
from leafturn.bloom.draws import draws_of
from leafturn.bloom.first_harvests import first_harvests
from leafturn.bloom.last_fruit import frozen_days, last_fruit
from leafturn.bloom.model import Picking
from leafturn.bloom.notes.observations import LEAF
from leafturn.bloom.priors.leaf_seasons import season_length, season_level
from leafturn.bloom.priors.prior import BloomPrior
from leafturn.bloom.ripening_need import (
    CountedDays,
    FruitWeather,
    Need,
    cultivars_apart,
    facts,
    least_days,
    need_of,
)
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.bloom.site_years import ENOUGH
from leafturn.bloom.stages import Lengths
from leafturn.bloom.warmth import BEFORE_AXIS
from leafturn.garden.model import Plant
from leafturn.kinds.fact import value_of
from leafturn.kinds.model import Kind
from leafturn.kinds.specimen import Sort
from leafturn.season.axis import date_in
from leafturn.season.climate import cools_below
from leafturn.season.garden_day import GardenDay

PICK_DAYS = 14.0  # guess, where a kind states none
RIPE_SPREAD_DAYS = 6.0  # guess
MOST_OF_NEED = 0.25  # of its days to ripen, the most that a kind's cultivars may lie apart; guess


class Flowering(Value, eq=False, kw_only=False):
    """A plant with its full bloom and leaf-out, (draws,) [day number], and how long its flowers last."""

    plant: Plant
    full: FloatArray
    leaf: FloatArray | None
    lengths: Lengths

    @property
    def begins(self) -> FloatArray:
        """When its fruit begins to grow: with full bloom, or with a leaf-out that is told and comes later."""
        if self.leaf is None:
            return self.full
        return np.where(np.isfinite(self.leaf), np.maximum(self.full, self.leaf), self.full)


class Harvests:
    """Picking of all plants of a season.

    Parameters
    ----------
    day : GardenDay
        First harvests of past seasons among its notes teach.
    priors : mapping of target to BloomPrior
    levels : mapping of target to float
        Logarithm of warmth that each plant takes to open, or to come into leaf.
    """

    def __init__(
        self,
        day: GardenDay,
        weather: SeasonWeather,
        priors: Mapping[str, BloomPrior],
        levels: Mapping[str, float],
    ) -> None:
        self._day, self._weather = day, weather
        self._priors, self._levels = priors, levels
        self._first = first_harvests(day.entries, weather.axis)

    def of(self, flowering: Iterable[Flowering]) -> dict[str, Picking]:
        """First ripe and end of picking by plant id; none for kinds of which nothing is picked."""
        alike: dict[Sort, list[Flowering]] = {}
        for one in flowering:
            if self.picks(one.plant):
                alike.setdefault(self._day.specimen(one.plant).sort, []).append(one)
        return {
            one.plant.id: (first, last)
            for some in alike.values()
            for one, first, last in zip(some, *self._of_alike(some), strict=True)
        }

    def picks(self, plant: Plant) -> bool:
        """Whether anything is picked of a plant."""
        specimen = self._day.specimen(plant)
        harvest = specimen.kind.harvest
        fruits = harvest.after_full_bloom_days is not None and specimen.sex != "male"
        return harvest.season is not None or fruits

    def _of_alike(self, some: Sequence[Flowering]) -> tuple[FloatArray, FloatArray]:
        """The same of plants of one kind, cultivar and sex, each (plants, draws)."""
        plant, lengths = some[0].plant, some[0].lengths
        kind, length = self._day.kind(plant), self._picking_days(plant)
        full = np.stack([one.full for one in some])
        if kind.harvest.season is not None:
            season = [np.broadcast_to(days, full.shape) for days in self._in_season(plant)]
            if kind.harvest.ripens:  # where it never flowers there is no fruit
                season = [np.where(np.isfinite(full), days, np.inf) for days in season]
            return season[0], season[1]
        later, apart = self._cultivar_days(plant)
        need = need_of(kind, self._priors[plant.id], self._priors.get(plant.id + LEAF), lengths.full, later)
        if need is None:
            assert kind.harvest.after_full_bloom_days is not None
            ripe = full + kind.harvest.after_full_bloom_days.value + later
            return ripe, ripe + length
        begins = np.stack([one.begins for one in some])
        apart = min(apart, MOST_OF_NEED * need.days)
        learnt = np.array([self._learnt(one.plant, need, lengths, apart) for one in some])
        ripe = self._counted.reached(need, begins, need.days + learnt[:, :1])
        spread = _ripe_spread(kind)
        stray = np.stack([draws_of(full.shape[1], f"ripe {one.plant.id}") for one in some])
        ripe = np.maximum(ripe + np.hypot(spread, learnt[:, 1:]) * stray, full + least_days(kind))
        ripe = np.maximum(ripe, self._not_before(some, later) + spread * stray)
        if not kind.evergreen and not without_winter(self._weather):  # most seasons may be too short
            ripe[medians(ripe, axis=1) > last_fruit(kind, self._day, self._weather.now)] = np.inf
        frozen = frozen_days(kind, self._day, self._weather.now)
        over = ripe + length if frozen is None else np.minimum(ripe + length, frozen)
        return ripe, np.maximum(over, ripe)

    def _not_before(self, some: Sequence[Flowering], later: float) -> FloatArray:
        """The day before which some of a cultivar are ripe nowhere, (plants, 1); none where notes tell."""
        specimen = self._day.specimen(some[0].plant)
        fact = specimen.kind.harvest.not_before
        if fact is None:
            return np.full((len(some), 1), -np.inf)
        taught = [self.taught(one.plant) for one in some]
        day = self._weather.axis.month_day(fact.value) + later + value_of(specimen.own.bloom_offset_days, 0.0)
        return np.where(taught, -np.inf, day)[:, None]

    def taught(self, plant: Plant) -> bool:
        """Whether the garden tells when a plant ripens."""
        return plant.ripe is not None or plant.id in self._first

    def _picking_days(self, plant: Plant) -> float:
        """How long a plant is picked [d], of the cultivar where its own is known."""
        specimen = self._day.specimen(plant)
        fact = specimen.own.harvest_length_days or specimen.kind.harvest.length_days
        return value_of(fact, PICK_DAYS)

    def _cultivar_days(self, plant: Plant) -> tuple[float, float]:
        """How much later than its kind a cultivar ripens, and how unsure that is [d].

        Where no cultivar is named, or nothing is known of when it ripens, it may be any of its kind.
        """
        specimen = self._day.specimen(plant)
        if (fact := specimen.own.harvest_offset_days) is not None:
            return fact.value, 0.0
        return 0.0, cultivars_apart(specimen.kind)

    def by_kind_alone(self, plant: Plant) -> bool:
        """Whether a plant ripens by its kind's days alone, though cultivars of the kind lie apart."""
        fruits = self.picks(plant) and self._day.kind(plant).harvest.ripens
        return fruits and not self.taught(plant) and self._cultivar_days(plant)[1] > 0

    def _learnt(self, plant: Plant, need: Need, lengths: Lengths, apart: float) -> tuple[float, float]:
        """How far first pickings lie off [counted days], drawn to nothing; and the uncertainty left.

        `apart` is how far the cultivars of its kind lie apart, where it may be any of them [d].
        """
        book = facts().cultivar_spread ** 2 + apart**2
        off = [
            day
            for season, on_axis in self._first.get(plant.id, {}).items()
            if (day := self._off(plant, need, lengths, season, on_axis)) is not None
        ]
        scatter = facts().own_spread ** 2
        if plant.ripe is not None:
            axis = self._weather.axis
            on = date_in(axis.year, plant.ripe)
            if axis.southern and on.month < 7:
                on = date_in(axis.year + 1, plant.ripe)
            if (stated := self._off(plant, need, lengths, None, axis.day(on))) is not None:
                return stated, 3.0
        if not off:
            return 0.0, apart
        if len(off) >= 3:
            scatter = (2 * scatter + float(np.sum((np.array(off) - np.mean(off)) ** 2))) / (len(off) + 1)
            book *= 6.0  # three own seasons outweigh the book
        share = book / (book + scatter / len(off))
        return share * float(np.mean(off)), math.sqrt((1 - share) * book / (6.0 if len(off) >= 3 else 1.0))

    def _off(
        self, plant: Plant, need: Need, lengths: Lengths, season: int | None, on_axis: float
    ) -> float | None:
        """Counted days of a first picking beyond what is needed; None if its start cannot be told."""
        weather = self._weather
        if season is not None and weather.past is not None and weather.past.known(season, on_axis) >= ENOUGH:
            fruit_weather = self._past_fruit_weather(season)

            def opened(target: str) -> float:
                sums = weather.past_sums(self._priors[target].response, season)
                return float(np.searchsorted(sums, math.exp(self._levels[target])))
        else:
            fruit_weather = self._usual_fruit_weather

            def opened(target: str) -> float:
                timing, level = self._priors[target].response, self._levels[target]
                return weather.usual_warmth.median_day(timing, level) + BEFORE_AXIS

        begins = opened(plant.id) + lengths.late + lengths.full
        if plant.id + LEAF in self._priors:
            begins = max(begins, opened(plant.id + LEAF))
        picked = round(on_axis) + BEFORE_AXIS
        if not np.isfinite(begins) or not 0 <= begins < picked < len(fruit_weather.warmth):
            return None
        return need.between(fruit_weather, round(begins), picked) - need.days

    @cached_property
    def _counted(self) -> CountedDays:
        """The days of this season as they count."""
        return CountedDays(self._weather.now)

    @kept
    def _past_fruit_weather(self, season: int) -> FruitWeather:
        """What the days of a past season brought, (days,)."""
        assert self._weather.past is not None
        return FruitWeather.summed(*self._weather.past.season(season))

    @cached_property
    def _usual_fruit_weather(self) -> FruitWeather:
        """The same of the usual season, its mean, (days,)."""
        return FruitWeather.summed(*self._weather.usual.from_autumn(BEFORE_AXIS)).mean()

    def _in_season(self, plant: Plant) -> tuple[FloatArray, FloatArray]:
        """Leaves, shoots and roots: from one date to another as at the climate of the books.

        Cultivars keep their days from the kind. What is over by early summer is picked no longer than books
        say: however slowly it warms, the plant then wants its leaves. Never where no winter parts one year of
        growth from the next.
        """
        specimen, weather, axis = self._day.specimen(plant), self._weather, self._weather.axis
        kind, season = specimen.kind, specimen.kind.harvest.season
        assert season is not None
        if without_winter(weather):
            never = np.full(weather.now.draws, np.inf)
            return never, never
        spread = _ripe_spread(kind)
        ends = []
        for text in season.value:
            if (level := season_level(text)) is None:
                day = np.full(weather.now.draws, float(axis.month_day(text)))
            else:
                day = weather.now.spread(weather.warmth.day_reached(*level))
            ends.append(day + spread * draws_of(weather.now.draws, f"season {kind.name}"))
        begins, over = (day + self._cultivar_days(plant)[0] for day in ends)
        if kind.harvest.stops_below_c is not None:
            stops = cools_below(weather.usual, kind.harvest.stops_below_c.value)
            begins = begins - max(float(np.median(begins)) - stops, 0.0)
        own = specimen.own.harvest_length_days
        stated = season_length(season.value)
        if own is not None:
            over = begins + own.value
        elif stated is not None:
            over = np.minimum(over, begins + stated)
        return begins, np.where(over <= begins, over + 365.0, over)


def _ripe_spread(kind: Kind) -> float:
    """How far plants of a kind lie about its day of ripening [d]."""
    return value_of(kind.harvest.spread_days, RIPE_SPREAD_DAYS)
