"""The Theil-Sen estimator: a slope that a few outliers hardly change."""

from __future__ import annotations

import math
from statistics import NormalDist

import numpy as np
from numpy.typing import ArrayLike

from leafturn.base.arrays import median
from leafturn.base.value import Value


class Slope(Value, kw_only=False):
    """A slope [y per x] and the range it lies in with the confidence asked for."""

    slope: float
    low: float
    high: float


def theil_sen(x: ArrayLike, y: ArrayLike, confidence: float = 0.8) -> Slope:
    """The Theil-Sen slope: the median of the slopes between all pairs of points.

    Parameters
    ----------
    x, y : (points,)
        Finite; at least two different values of `x`.
    confidence : float
        Of the range, by the normal approximation to Kendall's score with ties taken off.

    Raises
    ------
    ValueError
        If no two points differ in `x`.

    References
    ----------
    .. [1] Theil, H. (1950). A rank-invariant method of linear and polynomial regression analysis.
       Indagationes Mathematicae 12: 85-91, 173.
    .. [2] Sen, P. K. (1968). Estimates of the regression coefficient based on Kendall's tau. J. Amer.
       Statist. Assoc. 63: 1379-1389.
    """
    across, up = np.asarray(x, dtype=float), np.asarray(y, dtype=float)
    first, second = np.triu_indices(across.size, 1)
    apart = across[second] - across[first]
    slopes = np.sort(((up[second] - up[first])[apart != 0]) / apart[apart != 0])
    if not slopes.size:
        raise ValueError("a slope needs two points that lie apart")
    score = math.sqrt(max(_score(across.size) - _tied(across) - _tied(up), 0.0) / 18)
    within = NormalDist().inv_cdf((1 + confidence) / 2) * score
    below = max(round((slopes.size - within) / 2) - 1, 0)
    above = min(round((slopes.size + within) / 2), slopes.size - 1)
    return Slope(median(slopes), float(slopes[below]), float(slopes[above]))


def _score(number: int) -> float:
    """Eighteen times the variance of Kendall's score among so many points."""
    return float(number * (number - 1) * (2 * number + 5))


def _tied(values: np.ndarray) -> float:
    """What equal values take off that variance."""
    _, counts = np.unique(values, return_counts=True)
    return sum(_score(int(count)) for count in counts)
