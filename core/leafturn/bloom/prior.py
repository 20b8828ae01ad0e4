"""What other sites teach about a kind, before anything is noted here."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from leafturn.bloom.level_spreads import WithinPlace, eked_out
from leafturn.bloom.own_level import LevelSpreads
from leafturn.bloom.response import Response

FloatArray = NDArray[np.float64]

LIKE_WINTERS = 2.0  # [degC] sites whose winters differ by this count 0.6; guess
ANY_WINTER = 0.003  # what the most unlike site still counts; guess
USUAL_SITES = 2.0  # the kind's general spreads count as much as two sites near in climate; guess
LEAST_LASTING = 0.1  # of the variance within a place
LEAST_SITE_SPREAD = 2.0  # [d]


@dataclass(frozen=True, kw_only=True)
class KindHere:
    """A kind as it is in one climate.

    Parameters
    ----------
    levels : LevelSpreads
        How much warmth its plants take, and how far they differ.
    day : float [day number]
        When it usually opens.
    site_spread, year_spread : float [d]
        Standard deviation of days between places of this climate, and between springs at one place.
    """

    levels: LevelSpreads
    day: float
    site_spread: float = 10.0
    year_spread: float = 6.0


@dataclass(frozen=True, eq=False, kw_only=True)
class SiteTable:
    """What each site showed, one value a site.

    Parameters
    ----------
    winter : (sites,) [degC]
        Mean temperature of December to February (south: June to August).
    level, level_variance : (sites,)
        Median of its levels and their variance; the variance is NaN where notes are few.
    notes : (sites,)
    day, day_spread : (sites,) [day number], [d]
        Median and standard deviation of its days; the latter NaN where notes are few.
    """

    winter: FloatArray
    level: FloatArray
    level_variance: FloatArray
    notes: NDArray[np.intp]
    day: FloatArray
    day_spread: FloatArray

    def __len__(self) -> int:
        return len(self.level)


@dataclass(frozen=True, kw_only=True)
class BloomPrior:
    """A kind as other sites, or a book, know it.

    Parameters
    ----------
    response : Response
        What its buds make of cold and warmth.
    usual : KindHere
        The kind in general.
    within : WithinPlace
        How its levels vary at one place.
    sites : SiteTable or None
        The sites it was learnt from; None for a prior that is only stated.
    widening : float
        What spreads of the level are multiplied by, so that four in five of the sites' own days fall in the
        80 % range.
    widening_ahead : float
        The same for what the weather to come adds.
    """

    response: Response
    usual: KindHere
    within: WithinPlace
    sites: SiteTable | None = None
    widening: float = 1.0
    widening_ahead: float = 1.0

    @property
    def typical_day(self) -> float:
        """When the kind opens in general [day number]."""
        return self.usual.day

    def at(self, winter: float | None) -> KindHere:
        """The kind in a climate: sites with like winters count most.

        Parameters
        ----------
        winter : float or None [degC]
            Mean temperature of December to February (south: June to August); None where it is not known.
        """
        table = self.sites
        if table is None or winter is None or math.isnan(winter):
            return self.usual
        weight = np.exp(-(((table.winter - winter) / LIKE_WINTERS) ** 2) / 2) + ANY_WINTER
        weight *= table.notes / (table.notes + 1)
        many = float(weight.sum() ** 2 / (weight**2).sum())
        general = self.usual.levels
        within = general.drifting + general.chance
        told = ~np.isnan(table.level_variance)
        if told.any():
            ratio = weighted_median(table.level_variance[told], weight[told]) / max(
                float(np.median(table.level_variance[told])), 1e-9
            )
            within *= eked_out(ratio, float(weight[told].sum()), 1.0, 1.0)
        middle = weighted_median(table.level, weight)
        apart = (1.4826 * weighted_median(np.abs(table.level - middle), weight)) ** 2
        lasting = max(apart - within * float(np.mean(1 / table.notes)), LEAST_LASTING * within)
        day = weighted_median(table.day, weight)
        spans = ~np.isnan(table.day_spread)
        year_spread = weighted_median(table.day_spread[spans], weight[spans]) if spans.any() else np.nan
        return KindHere(
            levels=LevelSpreads(
                middle=middle, lasting=eked_out(lasting, many - 1, general.lasting, USUAL_SITES),
                drifting=self.within.drift_share * within, chance=(1 - self.within.drift_share) * within,
                drift_years=self.within.drift_years,
            ),
            day=day,
            site_spread=max(1.4826 * weighted_median(np.abs(table.day - day), weight), LEAST_SITE_SPREAD),
            year_spread=eked_out(year_spread, many, self.usual.year_spread, USUAL_SITES)
            if spans.any() else self.usual.year_spread,
        )  # fmt: skip


def weighted_median(values: FloatArray, weights: FloatArray) -> float:
    """The value with half of the weight below it."""
    order = np.argsort(values)
    below = np.cumsum(weights[order]) - weights[order] / 2
    return float(np.interp(weights.sum() / 2, below, values[order]))
