"""Days of the year as day numbers of seasons, and back."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping

import numpy as np

from leafturn.base.arrays import FloatArray, median
from leafturn.bloom.priors.response import FIRST_DAY

HALF_YEAR = 183
YEAR = 365.25


def season_start(year: int, southern: bool) -> dt.date:
    """The date of day number 1: 1 January, in the south 1 July."""
    return dt.date(year, 7 if southern else 1, 1)


def season_days(dates: Mapping[int, float], typical_day: float, southern: bool) -> dict[int, float]:
    """Days of the year of calendar years as day numbers of seasons.

    A kind that opens about New Year has days late in December: they belong to the season that follows, with
    numbers of 0 and below.

    Parameters
    ----------
    dates : mapping of year to day of the year
    typical_day : float [day number]
    southern : bool

    Returns
    -------
    dict of season to day number
        Within half a year of the typical day.
    """
    found: dict[int, float] = {}
    for year, day_of_year in dates.items():
        for season in (year - 1, year, year + 1):
            day = day_of_year + day_before_new_year(season, year, southern)
            if -HALF_YEAR < day - typical_day <= HALF_YEAR:
                found.setdefault(season, day)
    return found


def day_before_new_year(season: int, year: int, southern: bool) -> int:
    """Day number, in a season, of the day before 1 January of a year: what to take off to have its days."""
    return (dt.date(year, 1, 1) - season_start(season, southern)).days


def season_of(year: int, typical_day: float, southern: bool) -> int:
    """The season in which a kind opens in a calendar year."""
    return year - 1 if southern and typical_day > day_before_new_year(year, year + 1, southern) else year


def typical_day(dates: Mapping[str, Mapping[int, float]], southern: Mapping[str, bool]) -> float:
    """Median over sites of each site's mean day, taken round the circle of the year [day number]."""
    means = []
    for site, days in dates.items():
        if days:
            shifted = [d + day_before_new_year(y, y, southern[site]) for y, d in days.items()]
            means.append(_round_mean(np.array(shifted)))
    apart = np.array(means)
    middle = _round_mean(apart)
    day = median(middle + (apart - middle + YEAR / 2) % YEAR - YEAR / 2)
    return day if day >= FIRST_DAY else day + YEAR


def _round_mean(days: FloatArray) -> float:
    """Mean of days on the circle of the year, between half a year before and after day 0."""
    return float(np.angle(np.exp(2j * np.pi * days / YEAR).mean()) * YEAR / (2 * np.pi))
