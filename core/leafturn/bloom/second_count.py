"""A second opinion on bloom: plain degree-days, by two ways of counting a day, beside the forecast."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from functools import cache, partial

import numpy as np

from leafturn.base import day_words, prose, quantities
from leafturn.base.arrays import median
from leafturn.base.bloom_stages import FIRST_OPEN
from leafturn.bloom.model import BloomForecast, Requirement, SecondCount
from leafturn.bloom.priors.response import Response
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.season.heat import HeatSums
from leafturn.season.heat_count import BASE_C

FEW_DAYS = 4  # up to which two counts agree; more is said. Rule of thumb
LEAST_SUM = 20.0  # [degC d] a smaller one by the usual day tells nothing; rule of thumb


def second_counts(
    forecasts: Mapping[str, BloomForecast], weather: SeasonWeather, on: dt.date, told_as: Mapping[str, str]
) -> dict[str, SecondCount]:
    """The second opinion on every first flower still to come that warmth of spring brings.

    Parameters
    ----------
    forecasts : mapping of plant id to BloomForecast
    weather : SeasonWeather
    on : date
    told_as : mapping of plant id to plant id
        The first plant that is told alike, of which each is counted.
    """
    counts = (
        (weather.now_heat, weather.usual_heat),
        (weather.now_four_cases, weather.usual_four_cases),
    )

    @cache
    def counted(opens: int) -> tuple[dt.date | None, ...]:
        return tuple(_day(opens, weather, *count) for count in counts)

    @cache
    def days_of(plant: str) -> tuple[dt.date, dt.date, dt.date] | None:
        """The likely day, and those of the two counts; None where there is nothing to tell."""
        forecast = forecasts[plant]
        need, likely = forecast.need, weather.now.likely(forecast.first_open).likely
        if FIRST_OPEN.name in forecast.observed or need is None or likely is None or likely < on:
            return None
        opens = _usual_day(need, weather) if isinstance(need.timing, Response) else None
        by_sine, by_four_cases = (None, None) if opens is None else counted(opens)
        return None if by_sine is None or by_four_cases is None else (likely, by_sine, by_four_cases)

    found = ((plant, days_of(told_as.get(plant, plant))) for plant in forecasts)
    return {plant: _second_count(plant, *days, on) for plant, days in found if days is not None}


def _usual_day(need: Requirement, weather: SeasonWeather) -> int | None:
    """Day number of a usual spring on which it opens; None before the season's start, or never."""
    axis, opens = weather.axis, need.usual_day(need.before_spring, weather.usual_warmth)
    return int(opens) if axis.day(axis.start) <= opens < weather.usual.tmin.shape[1] else None


def _day(opens: int, weather: SeasonWeather, now: HeatSums, usual: HeatSums) -> dt.date | None:
    """The day on which the usual sum is reached; None where too little is counted to tell, or never."""
    axis = weather.axis
    start = axis.day(axis.start)
    wanted = median(usual.cumulative(BASE_C, start)[:, opens])
    if wanted < LEAST_SUM:
        return None
    reached = median(now.day_reached(BASE_C, start, wanted))
    return axis.date(reached) if np.isfinite(reached) else None


def _second_count(
    plant: str, likely: dt.date, by_sine: dt.date, by_four_cases: dt.date, on: dt.date
) -> SecondCount:
    days = max(((day - likely).days for day in (by_sine, by_four_cases)), key=abs)
    tell = partial(day_words.near_day, on=on)
    when = f"about {tell(by_sine)}"
    if by_sine != by_four_cases:
        when += f", or {tell(by_four_cases)} by the four cases of met services"
    far = f"{prose.count(abs(days), 'day')} {'later' if days > 0 else 'earlier'}"
    above = quantities.celsius(BASE_C, 0)
    says = f"By plain degree-days above {above} {plant} would open {when}: {far} than foretold."
    return SecondCount(
        by_sine=by_sine, by_four_cases=by_four_cases, days=days, says=says if abs(days) > FEW_DAYS else ""
    )
