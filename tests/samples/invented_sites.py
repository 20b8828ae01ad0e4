"""Invented sites of one kind whose response, levels and chances are known, with invented weather."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping

import numpy as np
from msgspec.structs import replace

from leafturn.bloom.priors.response import Response, day_reached
from leafturn.bloom.site_years import site_years, stacked
from leafturn.weather.record import DailyRecord

FIRST_YEAR, YEARS = 1990, 22
LAST_YEAR = FIRST_YEAR + YEARS - 1
ASKED = 2008
TRUE = Response(warmth_rate=0.13, cold_need=55.0, cold_width=8.0, cold_half=12.0, cold_slope=0.2)
LEVEL = 3.6  # logarithm of warmth; opens in April where the year's mean is 10 degC
CHANCE = 0.05  # of one spring's level, about 1 d


def invented_weather(seed: int, mean: float = 10.0, warming: float = 0.0) -> DailyRecord:
    """Days round a sine of the year with the coldest day in January; each keeps part of the day before."""
    first = dt.date(FIRST_YEAR - 1, 7, 1)
    days = (dt.date(LAST_YEAR, 12, 31) - first).days + 1
    chance = np.random.default_rng(seed)
    departure, shocks = np.zeros(days), chance.normal(0, 2.2, days)
    for day in range(1, days):
        departure[day] = 0.75 * departure[day - 1] + shocks[day]
    # each winter and spring is mild or cold as a whole
    when = np.arange(days) + (first - dt.date(FIRST_YEAR, 1, 1)).days
    season = np.clip(((when + 92) // 365.25).astype(int), 0, YEARS)
    level = mean + 11 * np.sin(2 * np.pi * (when - 105) / 365.25) + chance.normal(0, 1.0, YEARS + 1)[season]
    level += departure + warming * when / 365.25
    half = 5 + chance.normal(0, 1, days)
    return DailyRecord(first=first, tmin=level - half, tmax=level + half, rain=np.full(days, np.nan))


def true_days(
    record: DailyRecord, level: float = LEVEL, chance: float = 0.0, seed: int = 0, response: Response = TRUE
) -> dict[int, float]:
    """Days of the year on which a plant of a level opens; `chance` is added to each spring's level."""
    years = list(range(FIRST_YEAR, LAST_YEAR + 1))
    sums = response.sums(*stacked(site_years(record), years))
    levels = level + np.random.default_rng(seed).normal(0, chance, len(years)) if chance else level
    days = day_reached(sums, np.broadcast_to(levels, len(years)))
    return {year: round(float(day)) for year, day in zip(years, days, strict=True)}


def invented_sites(how_many: int, chance: float = CHANCE) -> tuple[dict[str, dict], dict[str, DailyRecord]]:
    """Notes and weather of some sites, colder and milder ones."""
    draw = np.random.default_rng(7)
    records, weather = {}, {}
    for number in range(how_many):
        name = f"site-{number:02d}"
        weather[name] = invented_weather(number, mean=9.0 + 2.0 * number / how_many)
        records[name] = true_days(weather[name], LEVEL + draw.normal(0, 0.07), chance, seed=number)
    return records, weather


def moved(record: DailyRecord, degrees: float, first: dt.date, last: dt.date = dt.date.max) -> DailyRecord:
    """The record warmer by some degrees from a day to a day."""
    day = np.arange(len(record)) + record.first.toordinal()
    more = np.where((day >= first.toordinal()) & (day <= last.toordinal()), degrees, 0.0)
    return replace(record, tmin=record.tmin + more, tmax=record.tmax + more)


def some(days: Mapping[int, float], *years: int) -> dict[int, float]:
    """The notes of some years."""
    return {year: days[year] for year in years}
