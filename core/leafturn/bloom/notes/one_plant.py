"""One plant's noted springs read against its kind, and the date that follows."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from leafturn.bloom.day_spread import DaySpread
from leafturn.bloom.notes.dates_share import share_by_dates
from leafturn.bloom.notes.own_level import OwnLevel, own_level
from leafturn.bloom.priors.prior import BloomPrior, KindHere
from leafturn.bloom.priors.response import level_at
from leafturn.bloom.site_years import ENOUGH, SiteYears, stacked

FloatArray = NDArray[np.float64]

QUESTIONED = 0.5  # weight under which a note is named


@dataclass(frozen=True, eq=False, kw_only=True)
class NotesRead:
    """What a plant's notes say.

    Parameters
    ----------
    level : OwnLevel
        Its level in the spring asked for.
    by_dates : float
        Chance that its dates are better taken by themselves, 0 to 1.
    questioned : tuple of int
        Seasons whose notes lie far from the others.
    """

    level: OwnLevel
    by_dates: float
    questioned: tuple[int, ...]


def read_notes(
    prior: BloomPrior, here: KindHere, own: Mapping[int, float], site: SiteYears, season: int
) -> NotesRead:
    """Read notes whose seasons have known weather; without any the kind alone speaks.

    Parameters
    ----------
    prior : BloomPrior
    here : KindHere
        The same kind in the climate of the site.
    own : mapping of season to day number
    site : SiteYears
    season : int
        The one asked for.
    """
    years = [year for year, day in own.items() if site.known(year, day) >= ENOUGH]
    days = np.array([own[year] for year in years], dtype=float)
    levels, growth = np.empty(0), np.empty(0)
    if years:
        levels, growth = level_at(prior.response.sums(*stacked(site, years)), days)
    level = own_level(here.levels, levels, np.array(years, dtype=float), float(season))
    variance = here.levels.chance + here.levels.drifting / 2
    by_dates = share_by_dates(levels, growth, days, variance, here.year_spread, level.stranger)
    if own and not years:
        by_dates = 1.0
    slips = tuple(year for year, weight in zip(years, level.weights, strict=True) if weight < QUESTIONED)
    return NotesRead(level=level, by_dates=by_dates, questioned=slips)


def bloom_spread(
    prior: BloomPrior, here: KindHere, own: Mapping[int, float], read: NotesRead, sums: FloatArray
) -> DaySpread:
    """When the plant opens.

    Parameters
    ----------
    prior : BloomPrior
    here : KindHere
    own : mapping of season to day number
    read : NotesRead
        Of the same notes.
    sums : (members, days)
        Warmth of the season in its versions, from `Response.sums`.
    """
    by_level = by_warmth(prior, here, read, sums)
    return by_level.mixed(by_dates(here, own), read.by_dates)


def by_warmth(prior: BloomPrior, here: KindHere, read: NotesRead, sums: FloatArray) -> DaySpread:
    """When a plant opens by its level alone."""
    return DaySpread.by_weather(sums, read.level.mean, level_sd(prior, here, read), prior.widening_ahead)


def level_sd(prior: BloomPrior, here: KindHere, read: NotesRead) -> float:
    """Standard deviation of one spring's level after some notes, a logarithm of warmth."""
    return prior.widening * math.sqrt(read.level.variance + here.levels.chance)


def kind_alone(prior: BloomPrior, here: KindHere, sums: FloatArray) -> DaySpread:
    """When a plant of the kind opens of which nothing is noted."""
    variance = here.levels.lasting + here.levels.drifting + here.levels.chance
    sd = prior.widening * math.sqrt(variance)
    return DaySpread.by_weather(sums, here.levels.middle, sd, prior.widening_ahead)


def by_dates(here: KindHere, own: Mapping[int, float]) -> DaySpread:
    """When a plant opens by its dates alone, drawn to those of other sites of the climate."""
    drawn = (here.year_spread / here.site_spread) ** 2
    mean = (sum(own.values()) + drawn * here.day) / (len(own) + drawn)
    return DaySpread.by_dates(mean, here.year_spread * math.sqrt(1 + 1 / (len(own) + drawn)))
