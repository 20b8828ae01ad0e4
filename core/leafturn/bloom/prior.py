"""What other sites teach about a kind, before anything is noted here."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from leafturn.bloom.level_spreads import level_spreads
from leafturn.bloom.own_level import LevelSpreads
from leafturn.bloom.response import Response, level_at
from leafturn.bloom.response_fit import NotedSeasons, fit_response, site_medians, spread
from leafturn.bloom.site_years import ENOUGH, SiteYears, season_start

FloatArray = NDArray[np.float64]
Days = Mapping[int, float]  # day number by season

USUAL_YEAR_SPREAD = 6.0  # [d] between springs at one place; guess, ten series give 5 to 14
USUAL_SITES = 4.0  # it counts as much as four sites; guess
HALF_YEAR = 183


@dataclass(frozen=True, kw_only=True)
class BloomPrior:
    """A kind as other sites know it.

    Parameters
    ----------
    response : Response
        What its buds make of cold and warmth.
    spreads : LevelSpreads
        How much warmth its plants take, and how far they differ.
    typical_day : float [day number]
        Median over sites; day 1 is 1 January, in the south 1 July.
    site_spread_days, year_spread_days : float [d]
        Standard deviation of dates between sites, and between years at one site.
    widening : float
        What the computed spread is multiplied by, so that four in five of the prior's own sites' days fall in
        the 80 % range.
    sites, notes : int
        How much it was learnt from.
    """

    response: Response
    spreads: LevelSpreads
    typical_day: float
    site_spread_days: float = 10.0
    year_spread_days: float = USUAL_YEAR_SPREAD
    widening: float = 1.0
    sites: int = 0
    notes: int = 0


def season_days(dates: Mapping[int, float], typical_day: float, southern: bool) -> dict[int, float]:
    """Days of the year of calendar years as day numbers of seasons.

    A kind that opens about New Year has days late in December: they belong to the season that follows, with
    numbers of 0 and below.

    Parameters
    ----------
    dates : mapping of year to day of the year
    typical_day : float [day number]
    southern : bool
    """
    found: dict[int, float] = {}
    for year, day_of_year in dates.items():
        for season in (year - 1, year, year + 1):
            day = day_of_year + _days_from(season, year, southern)
            if -HALF_YEAR < day - typical_day <= HALF_YEAR:
                found.setdefault(season, day)
    return found


def day_of_year(season: int, year: int, day: float, southern: bool) -> float:
    """A day number of a season as a day of a calendar year; may be under 1 or over 366."""
    return day - _days_from(season, year, southern)


def _days_from(season: int, year: int, southern: bool) -> int:
    """Day number, in a season, of the day before 1 January of a year."""
    return (dt.date(year, 1, 1) - season_start(season, southern)).days


def typical_day(dates: Mapping[str, Mapping[int, float]], southern: Mapping[str, bool]) -> float:
    """Median over sites of each site's mean day, taken round the circle of the year [day number]."""
    means = []
    for site, days in dates.items():
        if days:
            shifted = np.array([d + _days_from(y, y, southern[site]) for y, d in days.items()])
            means.append(np.angle(np.exp(2j * np.pi * shifted / 365.25).mean()) * 365.25 / (2 * np.pi))
    apart = np.array(means)
    middle = float(np.angle(np.exp(2j * np.pi * apart / 365.25).mean()) * 365.25 / (2 * np.pi))
    unwrapped = middle + (apart - middle + HALF_YEAR) % 365.25 - HALF_YEAR
    day = float(np.median(unwrapped))
    return day if day > -91 else day + 365.25


def noted_seasons(days: Mapping[str, Days], sites: Mapping[str, SiteYears]) -> NotedSeasons:
    """All notes whose seasons the weather knows well enough, with that weather."""
    numbers, years, noted, weather = [], [], [], []
    for number, (name, own) in enumerate(days.items()):
        for year, day in own.items():
            if name in sites and sites[name].known(year, day) >= ENOUGH:
                numbers.append(number)
                years.append(year)
                noted.append(day)
                weather.append(sites[name].season(year))
    if not weather:
        raise ValueError("no note falls in a season whose weather is known, so nothing can be learnt")
    together = np.stack(weather, axis=1)
    return NotedSeasons(
        site=np.array(numbers), year=np.array(years), day=np.array(noted, dtype=float), tmin=together[0],
        tmax=together[1],
    )  # fmt: skip


def learnt(days: Mapping[str, Days], sites: Mapping[str, SiteYears], typical: float) -> BloomPrior:
    """The prior from notes of many sites, its `widening` still 1.

    Raises
    ------
    ValueError
        If no note falls in a season whose weather is known.
    """
    noted = noted_seasons(days, sites)
    response = fit_response(noted)
    level, _ = level_at(response.sums(noted.tmin, noted.tmax), noted.day)
    return BloomPrior(
        response=response,
        spreads=level_spreads(noted.site, noted.year, level),
        typical_day=typical,
        site_spread_days=_between_sites(noted),
        year_spread_days=_between_years(noted),
        sites=len(np.unique(noted.site)),
        notes=len(noted),
    )


def _between_sites(noted: NotedSeasons) -> float:
    own, count = site_medians(noted.site, noted.day)
    return max(spread(own[count > 0]), 5.0)


def _between_years(noted: NotedSeasons) -> float:
    """Median over sites of the standard deviation between years [d], eked out with a usual value."""
    own = [np.std(noted.day[noted.site == site], ddof=1) for site in np.unique(noted.site)
           if np.count_nonzero(noted.site == site) >= 5]  # fmt: skip
    if not own:
        return USUAL_YEAR_SPREAD
    seen = float(np.median(own))
    return (len(own) * seen + USUAL_SITES * USUAL_YEAR_SPREAD) / (len(own) + USUAL_SITES)
