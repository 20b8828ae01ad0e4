"""Learning a kind from notes of many sites."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from leafturn.base.arrays import FloatArray, median
from leafturn.bloom.priors.level_spreads import FEWEST_NOTES, eked_out, within_place
from leafturn.bloom.priors.level_spreads import USUAL as USUAL_LEVELS
from leafturn.bloom.priors.prior import BloomPrior, KindHere, LevelSpreads
from leafturn.bloom.priors.response import level_at
from leafturn.bloom.priors.response_fit import ObservedSeasons, fit_response, site_medians, spread
from leafturn.bloom.priors.site_table import LEAST_LASTING, LEAST_SITE_SPREAD, SiteTable
from leafturn.bloom.site_years import ENOUGH, SiteYears

Days = Mapping[int, float]  # day number by season

USUAL_YEAR_SPREAD = 6.0  # [d] between springs at one place; guess, ten series give 5 to 14
USUAL_SITES = 4.0  # usual values count as much as four sites; guess


def learnt(days: Mapping[str, Days], sites: Mapping[str, SiteYears], typical_day: float) -> BloomPrior:
    """The prior from notes of many sites, its `widening` still 1.

    Parameters
    ----------
    days : mapping of site to mapping of season to day number
    sites : mapping of site to SiteYears
    typical_day : float [day number]

    Raises
    ------
    ValueError
        If no note falls in a season whose weather is known.
    """
    noted, names = observed_seasons(days, sites)
    response = fit_response(noted)
    level, _ = level_at(response.sums(noted.tmin, noted.tmax), noted.day)
    within = within_place(noted.site, noted.year, level)
    table = _table(noted, level, np.array([sites[name].winter for name in names]))
    between = spread(table.level) ** 2 - within.variance * float(np.mean(1 / table.notes))
    lasting = max(between, LEAST_LASTING * within.variance)
    spans = table.day_spread[~np.isnan(table.day_spread)]
    usual = KindHere(
        levels=LevelSpreads(
            middle=median(table.level),
            lasting=eked_out(lasting, len(table) - 1, USUAL_LEVELS.lasting, USUAL_SITES),
            drifting=within.drift_share * within.variance,
            chance=(1 - within.drift_share) * within.variance,
            drift_years=within.drift_years,
        ),
        day=typical_day,
        site_spread=max(spread(table.day), LEAST_SITE_SPREAD),
        year_spread=eked_out(median(spans) if len(spans) else 0.0, len(spans), USUAL_YEAR_SPREAD,
                             USUAL_SITES),
    )  # fmt: skip
    climates = table.climates(usual, within)
    return BloomPrior(response=response, usual=usual, climates=climates, winters=table.winters)


def observed_seasons(
    days: Mapping[str, Days], sites: Mapping[str, SiteYears]
) -> tuple[ObservedSeasons, list[str]]:
    """All notes whose seasons the weather knows well enough, with that weather, and the sites they are of."""
    names: list[str] = []
    rows: list[tuple[int, int, float]] = []
    weather: list[FloatArray] = []
    for name, own in days.items():
        usable = [year for year, day in own.items() if sites[name].known(year, day) >= ENOUGH]
        rows += [(len(names), year, own[year]) for year in usable]
        weather += [sites[name].season(year) for year in usable]
        names += [name] if usable else []
    if not rows:
        raise ValueError("no note falls in a season whose weather is known, so nothing can be learnt")
    site, year, day = zip(*rows, strict=True)
    together = np.stack(weather, axis=1)
    noted = ObservedSeasons(
        site=np.array(site), year=np.array(year), day=np.array(day, dtype=float), tmin=together[0],
        tmax=together[1],
    )  # fmt: skip
    return noted, names


def _table(noted: ObservedSeasons, level: FloatArray, winter: FloatArray) -> SiteTable:
    own_level, count = site_medians(noted.site, level)
    own_day, _ = site_medians(noted.site, noted.day)
    level_variance, day_spread = np.full(len(count), np.nan), np.full(len(count), np.nan)
    for site in np.flatnonzero(count >= FEWEST_NOTES):
        notes = noted.site == site
        level_variance[site] = spread(level[notes]) ** 2
        day_spread[site] = np.std(noted.day[notes], ddof=1)
    return SiteTable(
        winter=winter, level=own_level, level_variance=level_variance, notes=count, day=own_day,
        day_spread=day_spread,
    )  # fmt: skip
