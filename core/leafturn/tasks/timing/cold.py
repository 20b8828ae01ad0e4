"""Days that depend on frost: last and first frost, end of growth, leaf fall; also where frost is rare."""

from __future__ import annotations

from functools import cached_property

import numpy as np

from leafturn.base.arrays import FloatArray, median
from leafturn.base.kept import kept
from leafturn.base.prose import HARDLY_EVER, RARE
from leafturn.bloom.beyond import without_winter
from leafturn.bloom.leafing import fall_after_frost
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.kinds.model import Kind
from leafturn.season.ensemble import Ensemble
from leafturn.season.frost import NEVER, FrostShares, first_frost, frost_shares, last_frost
from leafturn.season.garden_day import GardenDay
from leafturn.season.leaf_time import growth_end, leaf_fall, leaf_heat_start

MOST_YEARS = 0.8  # share of years in which a thing is told as usual here; guess


class Cold:
    """The cold of one season, draw by draw, as the moments of rules want it."""

    def __init__(self, day: GardenDay, weather: SeasonWeather) -> None:
        self._day, self._weather = day, weather
        self._pocket = day.garden.place.frost_pocket_c

    @kept
    def last(self, threshold: float) -> FloatArray:
        """Day of the last frost, (draws,); a draw without one counts from the eve of the season."""
        ensemble, axis = self._weather.now, self._weather.axis
        eve = axis.day(axis.start) - 1.0
        return ensemble.spread(np.maximum(last_frost(ensemble, threshold, self._pocket), eve))

    @cached_property
    def _first(self) -> FloatArray:
        ensemble = self._weather.now
        return ensemble.spread(first_frost(ensemble, 0.0, self._pocket))

    @cached_property
    def _usual_first(self) -> FloatArray:
        """Days of the first frost of the usual year, in order, (members,)."""
        return np.sort(first_frost(self._weather.usual, 0.0, self._pocket))

    @cached_property
    def of_spring_ahead(self) -> bool:
        """Whether a frost of spring may still come: in 1 draw of 20 or more."""
        today = self._weather.axis.day(self._day.on)
        return bool(np.mean(self.last(0.0) >= today) >= HARDLY_EVER)

    @kept
    def shares(self, threshold: float) -> FrostShares:
        """In how many of the usual years there is a night under a threshold [degC]."""
        return frost_shares(self._weather.usual, threshold, self._pocket)

    @property
    def rare(self) -> bool:
        """Whether it freezes in less than half of the years."""
        return self.shares(0.0).first < RARE

    @cached_property
    def first(self) -> FloatArray:
        """Day of the first frost, (draws,); inf where frost hardly ever comes.

        Where it is rare, draws without one have the middle day of the years that do freeze, or the season's
        last day where that comes after it: for such a day things are made ready.
        """
        if not self.rare:
            return self._first
        return np.asarray(np.where(np.isfinite(self._first), self._first, self._rare_day))

    @cached_property
    def _rare_day(self) -> float:
        if self.shares(0.0).first < HARDLY_EVER:
            return NEVER
        axis = self._weather.axis
        middle = median(self._usual_first[np.isfinite(self._usual_first)])
        return min(middle, axis.day(axis.next.start) - 1.0)

    @cached_property
    def growth_end(self) -> FloatArray:
        """Day that growth ends, (draws,): the first frost, or by short days."""
        return self._weather.now.spread(growth_end(self._weather.now, self._pocket, self._day.numbers))

    @cached_property
    def _usual_growth_end(self) -> FloatArray:
        """The same of the usual year, in order, (members,)."""
        return np.sort(growth_end(self._weather.usual, self._pocket, self._day.numbers))

    def leaf_fall(self, kind: Kind | None, *, winter: bool) -> FloatArray:
        """Day that leaves of a kind are down, (draws,).

        With `winter` the leaves are those that fell before this season: the usual day a year earlier.
        """
        return self._leaf_fall(fall_after_frost(kind, self._day.numbers), winter)

    @kept
    def _leaf_fall(self, after_frost: float, winter: bool) -> FloatArray:
        days = self._weather.now.spread(self._leaves_down(self._weather.now, after_frost))
        return np.full_like(days, median(days) - 365.0) if winter else days

    def _leaves_down(self, ensemble: Ensemble, after_frost: float) -> FloatArray:
        winterless = without_winter(self._weather)
        return leaf_fall(ensemble, self._pocket, self._day.numbers, after_frost, winterless=winterless)

    def before_first(self, days: float) -> FloatArray:
        """So many days before the first frost, (draws,): before its usual day, unless it has come already."""
        usual = self._usual_first
        if self.rare:
            usual = np.where(np.isfinite(usual), usual, self._rare_day)
        return self._before(np.sort(usual), days, self.first)

    def before_growth_end(self, days: float) -> FloatArray:
        """So many days before the end of growth, (draws,), counted likewise from its usual day."""
        return self._before(self._usual_growth_end, days, self.growth_end)

    def before_leaf_fall(self, kind: Kind | None, days: float) -> FloatArray:
        """So many days before leaf fall, (draws,), counted likewise."""
        usual = self._leaves_down(self._weather.usual, fall_after_frost(kind, self._day.numbers))
        return self._before(np.sort(usual), days, self.leaf_fall(kind, winter=False))

    def _before(self, usual: FloatArray, days: float, now: FloatArray) -> FloatArray:
        # The usual year may have another number of members than this one.
        shares, today = np.linspace(0.0, 1.0, len(now)), self._weather.axis.day(self._day.on)
        usual = usual[np.round(shares * (len(usual) - 1)).astype(int)]
        return np.asarray(np.minimum(usual - days, np.where(now <= today, now, np.inf)))

    @cached_property
    def short_days(self) -> bool:
        """Whether short days end growth here before frost does, in most usual years."""
        usual = self._weather.usual
        frost = first_frost(usual, 0.0, self._pocket)
        return bool(np.mean(growth_end(usual, self._pocket, self._day.numbers) < frost) >= MOST_YEARS)

    @cached_property
    def leaf_heat_start(self) -> str:
        """From when heat counts towards leaf-out: "season", or a northern month and day."""
        return leaf_heat_start(self._weather.usual, self._pocket, self._day.numbers)
