"""The share still standing after so many years, from lives of which some are not over (Kaplan and Meier).

References
----------
.. [1] Kaplan, E. L. and Meier, P. (1958). Nonparametric estimation from incomplete observations.
   J. Am. Stat. Assoc. 53: 457-481.
.. [2] Kalbfleisch, J. D. and Prentice, R. L. (1980). The statistical analysis of failure time data. Wiley
   (range on the scale of the logarithm of minus the logarithm, with Greenwood's variance).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from statistics import NormalDist
from typing import NamedTuple

from leafturn.base.date_range import SHARES

WITHIN = SHARES[-1] - SHARES[0]  # of the ranges told, as everywhere in the program


class Life(NamedTuple):
    """A life of so many whole years; `over` tells whether it ended then, or was only watched so far."""

    years: int
    over: bool


class Share(NamedTuple):
    """Share still standing after `years`, its range of four in five, and how many were watched so far."""

    years: int
    share: float
    low: float
    high: float
    at_risk: int


def survival(lives: Sequence[Life]) -> tuple[Share, ...]:
    """The share standing after each year in which a life ended or was last watched, in order.

    Lives that ended in a year count before those last watched in it. Where none has ended yet, the low end is
    the share that would leave none lost once in ten times.

    Parameters
    ----------
    lives : sequence of Life
    """
    share, greenwood, found = 1.0, 0.0, []
    z = NormalDist().inv_cdf((1 + WITHIN) / 2)
    for years in sorted({life.years for life in lives}):
        at_risk = sum(life.years >= years for life in lives)
        ended = sum(life.years == years and life.over for life in lives)
        share *= 1 - ended / at_risk
        if ended and at_risk > ended:
            greenwood += ended / (at_risk * (at_risk - ended))
        found.append(Share(years, share, *_range(share, greenwood, z, at_risk), at_risk))
    return tuple(found)


def _range(share: float, greenwood: float, z: float, at_risk: int) -> tuple[float, float]:
    if share >= 1:
        return ((1 - WITHIN) / 2) ** (1 / at_risk), 1.0
    if share <= 0:
        return 0.0, 1 - ((1 - WITHIN) / 2) ** (1 / at_risk)
    apart = z * math.sqrt(greenwood) / abs(math.log(share))
    return share ** math.exp(apart), share ** math.exp(-apart)
