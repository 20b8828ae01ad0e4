"""What each site showed of a kind, and the kind as sites with like winters know it."""

from __future__ import annotations

import numpy as np

from leafturn.base.arrays import FloatArray, IndexArray, median
from leafturn.base.value import Value
from leafturn.bloom.priors.level_spreads import WithinPlace, eked_out
from leafturn.bloom.priors.prior import KindHere, LevelSpreads

LIKE_WINTERS = 2.0  # [degC] sites whose winters differ by this count 0.6; guess
ANY_WINTER = 0.003  # what the most unlike site still counts; guess
USUAL_SITES = 2.0  # the kind's general spreads count as much as two sites near in climate; guess
LEAST_LASTING = 0.1  # of the variance within a place
LEAST_SITE_SPREAD = 2.0  # [d]
STEP_C = 1.5  # climates are told at winters so far apart


class SiteTable(Value, eq=False):
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
    notes: IndexArray
    day: FloatArray
    day_spread: FloatArray

    def __len__(self) -> int:
        return len(self.level)

    @property
    def winters(self) -> tuple[float, float]:
        """Between which winters the sites lie [degC]."""
        return float(self.winter.min()), float(self.winter.max())

    def climates(self, usual: KindHere, within: WithinPlace) -> tuple[tuple[float, KindHere], ...]:
        """The kind at winters from the coldest site's to the mildest one's."""
        low, high = self.winters
        winters = np.linspace(low, high, max(round((high - low) / STEP_C), 1) + 1)
        return tuple((float(w), self.at(float(w), usual, within)) for w in winters)

    def at(self, winter: float, usual: KindHere, within: WithinPlace) -> KindHere:
        """The kind in a climate: sites with like winters count most.

        Parameters
        ----------
        winter : float [degC]
        usual : KindHere
            The kind in general.
        within : WithinPlace
            How its levels vary at one place.
        """
        weight = np.exp(-(((self.winter - winter) / LIKE_WINTERS) ** 2) / 2) + ANY_WINTER
        weight *= self.notes / (self.notes + 1)
        many = float(weight.sum() ** 2 / (weight**2).sum())
        varied = usual.levels.drifting + usual.levels.chance
        known = ~np.isnan(self.level_variance)
        if known.any():
            ratio = weighted_median(self.level_variance[known], weight[known]) / max(
                median(self.level_variance[known]), 1e-9
            )
            varied *= eked_out(ratio, float(weight[known].sum()), 1.0, 1.0)
        middle = weighted_median(self.level, weight)
        apart = (1.4826 * weighted_median(np.abs(self.level - middle), weight)) ** 2
        lasting = max(apart - varied * float(np.mean(1 / self.notes)), LEAST_LASTING * varied)
        day = weighted_median(self.day, weight)
        spans = ~np.isnan(self.day_spread)
        year_spread = weighted_median(self.day_spread[spans], weight[spans]) if spans.any() else np.nan
        return KindHere(
            levels=LevelSpreads(
                middle=middle, lasting=eked_out(lasting, many - 1, usual.levels.lasting, USUAL_SITES),
                drifting=within.drift_share * varied, chance=(1 - within.drift_share) * varied,
                drift_years=within.drift_years,
            ),
            day=day,
            site_spread=max(1.4826 * weighted_median(np.abs(self.day - day), weight), LEAST_SITE_SPREAD),
            year_spread=eked_out(year_spread, many, usual.year_spread, USUAL_SITES)
            if spans.any() else usual.year_spread,
        )  # fmt: skip


def weighted_median(values: FloatArray, weights: FloatArray) -> float:
    """The value with half of the weight below it; both (values,)."""
    order = np.argsort(values)
    below = np.cumsum(weights[order]) - weights[order] / 2
    return float(np.interp(weights.sum() / 2, below, values[order]))
