"""Lead times: days before what is to come, counted so that a window which has opened does not shut again.

A forecast moves from day to day: "4 d before first open" by the calendar would open in a warm spell and shut
in the cold one after it. So a lead is kept as the heat that the usual year has gathered that many days before
the event. Heat only grows, and once it is there the lead has come, whatever the forecast says next. Before
the first frost, which nothing foretells, a lead counts from the usual date.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from leafturn.base.arrays import FloatArray, median, medians
from leafturn.base.bloom_stages import FIRST_OPEN, FULL_BLOOM, PETAL_FALL, Stage
from leafturn.base.kept import kept
from leafturn.bloom.model import BloomForecast
from leafturn.bloom.priors.response import Timing
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.bloom.targets import FULL_AFTER_DAYS, LENGTH_DAYS
from leafturn.climbers.growth import LastCut, Shoots, day_grown, metres_grown
from leafturn.season.garden_day import GardenDay
from leafturn.season.heat_count import HeatCount

# Days from the first flower, as kinds that state none have them (leafturn.bloom.targets; guesses).
AFTER_FIRST_OPEN = {FIRST_OPEN: 0.0, FULL_BLOOM: FULL_AFTER_DAYS, PETAL_FALL: LENGTH_DAYS}
LEAST_LEVEL = 0.0  # of warmth: less than a day of 10 degC is a mild day of winter; guess
LEAST_HEAT = 5.0  # [degC d] guess: less is a mild January day, and a lead then keeps to the calendar


class LeadTimes:
    """Lead times of one season."""

    def __init__(self, day: GardenDay, weather: SeasonWeather) -> None:
        self._day, self._weather = day, weather

    def before_heat(self, counting: HeatCount, need: float, days: float) -> FloatArray | None:
        """So many days before a sum of heat, (draws,) [day number].

        Returns
        -------
        (draws,) or None
            None where the usual year never gathers that much heat.
        """
        usual = self._usual_day(counting, need)
        if not np.isfinite(usual):
            return None
        weather = self._weather
        early = usual - days
        threshold = self._usual_heat(counting, early)
        if threshold < LEAST_HEAT:
            return np.full(weather.now.draws, np.floor(early))
        return weather.now.spread(counting.day_reached(weather.now_heat, threshold))

    @kept
    def before_warmth(self, timing: Timing, level: float, days: float) -> FloatArray | None:
        """So many days before a level of warmth, (draws,) [day number]; None: the usual year lacks it."""
        weather = self._weather
        usual = weather.usual_warmth.median_day(timing, level)
        if not np.isfinite(usual):
            return None
        early = usual - days
        by_then = median(weather.usual_warmth.level_at(timing, early)[0])
        if by_then < LEAST_LEVEL:
            return np.full(weather.now.draws, np.floor(early))
        return weather.now.spread(weather.warmth.day_reached(timing, by_then))

    def before_stage(
        self, stage: Stage, at: FloatArray, forecasts: Sequence[BloomForecast], days: float
    ) -> FloatArray:
        """So many days before a stage of bloom or harvest of some plants, (plants, draws) [day number].

        Parameters
        ----------
        stage : Stage
        at : (plants, draws) [day number]
            Its days.
        forecasts : sequence of BloomForecast
        days : float

        Notes
        -----
        Full bloom and its end follow the first flower, and most fruit full bloom, by so many days; what
        is left of a lead before the first flower is kept as heat.
        """
        left = days - AFTER_FIRST_OPEN.get(stage, np.inf)
        early = at - days
        alike: dict[tuple[Timing, float], list[int]] = {}
        for n, forecast in enumerate(forecasts if left > 0 else ()):
            if forecast.need is not None and not forecast.observed:
                alike.setdefault((forecast.need.timing, forecast.need.used), []).append(n)
        for (timing, level), rows in alike.items():
            opens = np.stack([forecasts[n].first_open for n in rows])
            early[rows] = self._as_heat(timing, level, left, opens, at[rows], early[rows])
        return early

    def _as_heat(
        self,
        timing: Timing,
        level: float,
        left: float,
        opens: FloatArray,
        at: FloatArray,
        early: FloatArray,
    ) -> FloatArray:
        """The same of plants that want one level of warmth to open, with what is `left` before that [d] kept
        as heat; `early` is by the calendar, and serves where there is none."""
        weather = self._weather
        reached = self._day_reached(timing, level)
        apart = opens - weather.now.spread(np.where(np.isfinite(reached), reached, 0.0))
        later = medians(apart, axis=1) if np.isfinite(reached).any() else np.zeros(len(apart))
        kept_days = np.floor(later)  # parts of a day go up and down with the weather ahead
        for whole in set(kept_days[kept_days < left].tolist()):
            lead_time = self.before_warmth(timing, level, left - whole)
            if lead_time is not None:
                some = kept_days == whole
                # Once the heat is there, the lead has come in every draw, however far apart they lie.
                come = lead_time <= weather.axis.day(self._day.on)
                as_heat = np.where(come, lead_time, lead_time + apart[some] - later[some, None])
                early[some] = np.minimum(as_heat, at[some])
        return early

    @kept
    def grown(self, shoots: Shoots, cut: LastCut, metres: float) -> tuple[FloatArray, float]:
        """When shoots are so long since a cut, (draws,) [day number], and how long they are today [m]."""
        weather, today = self._weather, self._weather.axis.day(self._day.on)
        days = weather.now.spread(day_grown(shoots, cut, weather.now_heat, metres))
        return days, median(metres_grown(shoots, cut, weather.now_heat, today))

    @kept
    def before_grown(self, shoots: Shoots, cut: LastCut, metres: float, days: float) -> FloatArray | None:
        """So many days before shoots have grown so long, (draws,); None where they usually never do."""
        weather = self._weather
        usual = median(day_grown(shoots, cut, weather.usual_heat, metres))
        if not np.isfinite(usual):
            return None
        early = max(usual - days, self._weather.axis.day(cut.on))
        by_then = median(metres_grown(shoots, cut, weather.usual_heat, int(early)))
        return weather.now.spread(day_grown(shoots, cut, weather.now_heat, min(by_then, metres)))

    @kept
    def _day_reached(self, timing: Timing, level: float) -> FloatArray:
        """When each member reaches a level of warmth, (members,); plants of a kind without notes share it."""
        return self._weather.warmth.day_reached(timing, level)

    @kept
    def _usual_day(self, counting: HeatCount, need: float) -> float:
        return median(counting.day_reached(self._weather.usual_heat, need))

    def _usual_heat(self, counting: HeatCount, day: float) -> float:
        """Heat that the usual year has gathered by the end of a day, counted so [degC d]."""
        weather = self._weather
        sums = weather.usual_heat.cumulative(counting.base, 0)
        first = counting.first_day(weather.axis)
        at = int(np.clip(day, 0, sums.shape[1] - 1))
        before = sums[:, first - 1] if first > 0 else 0.0
        return median(np.maximum(sums[:, at] - before, 0.0))
