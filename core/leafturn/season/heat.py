"""Heat over a season: sums of degree days, and the day on which a need is met."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import ArrayLike

from leafturn.base.arrays import FloatArray, median
from leafturn.base.kept import kept
from leafturn.season.degree_days import single_sine
from leafturn.season.ensemble import Ensemble

Daily = Callable[[FloatArray, FloatArray, float], FloatArray]  # degree days of minima and maxima above a base


def cumulative_heat(
    ensemble: Ensemble, base: float, start_day: int, daily: Daily = single_sine
) -> FloatArray:
    """Degree days summed from a day to the end of each day, (members, days) [degC d].

    Without an upper threshold, by the single sine unless another count is given. 0 before `start_day`; a
    start before the axis begins counts from its first day.
    """
    start = min(max(start_day, 0), ensemble.tmin.shape[1])
    each = daily(ensemble.tmin[:, start:], ensemble.tmax[:, start:], base)
    heat = np.zeros(ensemble.tmin.shape)
    np.cumsum(each, axis=1, out=heat[:, start:])
    return heat


def day_reached(cumulative: FloatArray, need: ArrayLike) -> FloatArray:
    """First day on which a sum reaches a need.

    Parameters
    ----------
    cumulative : (members, days)
        Sums that never fall, such as those of `cumulative_heat`.
    need : float or array_like
        One need, or many: any shape, each asked of every member.

    Returns
    -------
    array, shape of `need` + (members,)
        Day numbers; inf where it is never reached. A need of 0 or less is met on the first day.
    """
    wanted = np.asarray(need, dtype=float)
    days = cumulative.shape[1]
    if wanted.ndim == 0:
        found = np.count_nonzero(~(cumulative >= wanted), axis=1)
    else:
        found = np.stack([np.searchsorted(row, wanted, side="left") for row in cumulative], axis=-1)
    return np.where(found < days, found, np.inf)


class HeatSums:
    """The heat of one ensemble, each base and start summed once.

    Parameters
    ----------
    ensemble : Ensemble
        The season.
    daily : callable
        How the degree days of a day are counted.
    """

    def __init__(self, ensemble: Ensemble, daily: Daily = single_sine) -> None:
        self.ensemble, self._daily = ensemble, daily

    @kept
    def cumulative(self, base: float, start: int) -> FloatArray:
        """Degree days from day `start` to the end of each day, (members, days) [degC d]."""
        return cumulative_heat(self.ensemble, base, start, self._daily)

    def day_reached(self, base: float, start: int, need: ArrayLike) -> FloatArray:
        """First day on which `need` degree days are reached, (members,) or needs by members; inf: never.

        The day is never before `start`.
        """
        reached = day_reached(self.cumulative(base, start), need)
        return np.maximum(reached, max(start, 0))

    def day_reached_from(self, base: float, starts: FloatArray, need: float) -> FloatArray:
        """First day on which `need` degree days are reached, counted from each member's own day.

        Parameters
        ----------
        base : float [degC]
        starts : (members,) [day number]
        need : float [degC d]

        Returns
        -------
        (members,) [day number]
            inf: never.
        """
        sums = self.cumulative(base, 0)
        first = np.clip(starts, 0, sums.shape[1] - 1).astype(int)
        before = np.where(first > 0, sums[np.arange(len(sums)), np.maximum(first - 1, 0)], 0.0)
        reached = (sums < (need + before)[:, None]).sum(axis=1).astype(float)
        return np.where(reached < sums.shape[1], np.maximum(reached, first), np.inf)

    def to_date(self, base: float, start: int) -> float:
        """Degree days from day `start` to the end of today [degC d], median over members."""
        today = min(self.ensemble.observed_to, self.ensemble.tmin.shape[1] - 1)
        return median(self.cumulative(base, start)[:, today]) if today >= start else 0.0
