"""Finding the five numbers of a kind's response from noted days at many sites.

Least squares in days: each site keeps its own level, the five numbers are shared. A day far off counts no
more than one moderately off (Geman and McClure), so that slips and sites with another kind of plant do not
bend the rest. A pull towards a usual response keeps numbers that the notes say nothing about where they make
sense: the prior of a posterior mode, so it weighs as much as the days' own chance. How large that chance is
shows only once a response is near, so the search is made twice. Steps are taken by the method of Levenberg
and Marquardt with differences for the derivatives.

References
----------
.. [1] Marquardt, D. W. (1963). An algorithm for least-squares estimation of nonlinear parameters.
   J. Soc. Ind. Appl. Math. 11: 431-441.
.. [2] Geman, S. and McClure, D. E. (1987). Statistical methods for tomographic image reconstruction.
   Bull. Int. Stat. Inst. 52(4): 5-21 (the loss r^2 / (1 + (r/c)^2); from memory).
"""

from __future__ import annotations

import itertools
import math

import numpy as np
from msgspec.structs import replace

from leafturn.base.arrays import FloatArray, IndexArray, median
from leafturn.base.value import Value
from leafturn.bloom.priors.response import FIRST_DAY, Response, day_reached, level_at

# Where the search starts, and how far a response may lie from it (one standard deviation). Guesses: ten
# series of fruit trees and shrubs in Japan and Korea lie about there.
USUAL = Response()
_FIELDS = ("warmth_rate", "cold_need", "cold_width", "cold_half", "cold_slope")
_LOGARITHMIC = (True, True, True, False, True)
_SPREAD = np.array([0.35, 0.5, 0.5, 3.0, 0.6])
_LEAST_DIFFERENCE = np.array([0.02, 0.02, 0.04, 0.1, 0.05])

FAR = 2.0  # in spreads of the days missed: beyond it a day hardly counts more; common practice
LEAST_CHANCE = 1.5  # [d] no watcher is surer than that; guess
SITE_PULL = 1.0  # a site's level is drawn to all sites' as if by one more note
MOST_NOTES = 1200
START_NOTES = 400
STARTS = ((25.0, 45.0, 65.0, 90.0), (3.0, 8.0), (0.08, 0.2))  # needs of cold, widths, slopes
AFTER_LAST = 30  # [d]
MOST_STEPS = 25
ROUNDS = 2  # the second with the chance seen after the first
ENOUGH_GAIN = 1e-4


class ObservedSeasons(Value, eq=False):
    """Noted days with the weather of their seasons.

    Parameters
    ----------
    site : (notes,)
        Number of the site, from 0.
    year : (notes,)
    day : (notes,) [day number]
    tmin, tmax : (notes, days) [degC]
        First column FIRST_DAY, without gaps.
    """

    site: IndexArray
    year: IndexArray
    day: FloatArray
    tmin: FloatArray
    tmax: FloatArray

    def __len__(self) -> int:
        return len(self.day)

    def some(self, most: int) -> ObservedSeasons:
        """At most so many notes, the same at every run, without the days long after the last of them."""
        kept = np.sort(np.random.default_rng(1963).permutation(len(self))[:most])
        days = slice(int(self.day.max()) + AFTER_LAST - FIRST_DAY)
        return ObservedSeasons(
            site=self.site[kept], year=self.year[kept], day=self.day[kept],
            tmin=self.tmin[kept, days], tmax=self.tmax[kept, days],
        )  # fmt: skip


def fit_response(noted: ObservedSeasons) -> Response:
    """The response under which noted days lie nearest to those that the weather explains.

    Parameters
    ----------
    noted : ObservedSeasons
        At least one note.

    Returns
    -------
    Response
    """
    place = _start(noted.some(START_NOTES))
    noted = noted.some(MOST_NOTES)
    for _ in range(ROUNDS):
        chance = max(spread(_missed(noted, place)), LEAST_CHANCE)
        place = _nearest(noted, place, chance)
    return _to_response(place)


def _nearest(noted: ObservedSeasons, place: FloatArray, chance: float) -> FloatArray:
    """The numbers of least cost from some to start with; `chance` is how far single days lie off [d]."""
    damping = 0.1
    residuals = _residuals(noted, place, chance)
    cost = float(residuals @ residuals)
    for _ in range(MOST_STEPS):
        slopes = _slopes(noted, place, chance, residuals)
        squares, downhill = slopes.T @ slopes, slopes.T @ residuals
        gained = 0.0
        while damping < 1e4:
            step = np.linalg.solve(squares + damping * np.diag(np.diag(squares)), -downhill)
            tried = place + np.clip(step, -_SPREAD, _SPREAD)
            there = _residuals(noted, tried, chance)
            if (gained := cost - float(there @ there)) > 0:
                place, residuals, cost, damping = tried, there, cost - gained, damping / 5
                break
            damping *= 4
        if gained <= ENOUGH_GAIN * cost:
            break
    return place


def site_medians(site: IndexArray, values: FloatArray) -> tuple[FloatArray, IndexArray]:
    """Median of each site's values, (sites,) with NaN where there are none, and how many there are."""
    order = np.lexsort((values, site))
    count = np.bincount(site, minlength=int(site.max()) + 1)
    start = np.cumsum(count) - count
    ordered = np.append(values[order], np.nan)
    low, high = start + np.maximum(count - 1, 0) // 2, start + count // 2
    middle = (ordered[np.minimum(low, len(values))] + ordered[np.minimum(high, len(values))]) / 2
    return np.where(count > 0, middle, np.nan), count


def spread(values: FloatArray) -> float:
    """Standard deviation of (values,), judged by the median distance from the median; 0 for no values."""
    return float(1.4826 * median(np.abs(values - median(values)))) if len(values) else 0.0


def _start(noted: ObservedSeasons) -> FloatArray:
    """The best of some responses spread over what kinds do, to begin the search from."""
    tried = [_to_numbers(USUAL)]
    for need, width, slope in itertools.product(*STARTS):
        tried.append(_to_numbers(replace(USUAL, cold_need=need, cold_width=width, cold_slope=slope)))
    far = FAR * max(spread(_missed(noted, tried[0])), LEAST_CHANCE)
    costs = [float(np.minimum(np.abs(_missed(noted, place)), far).sum()) for place in tried]
    return tried[int(np.argmin(costs))]


def _missed(noted: ObservedSeasons, place: FloatArray) -> FloatArray:
    """Days from the day that each site's level gives to the one noted."""
    sums = _to_response(place).sums(noted.tmin, noted.tmax)
    level, _ = level_at(sums, noted.day)
    own, count = site_medians(noted.site, level)
    all_sites = np.nanmedian(own)
    weight = count / (count + SITE_PULL)
    site_level = np.where(count > 0, all_sites + weight * (own - all_sites), all_sites)
    return np.asarray(noted.day - day_reached(sums, site_level[noted.site]))


def _residuals(noted: ObservedSeasons, place: FloatArray, chance: float) -> FloatArray:
    """Days missed, softened, then the pulls towards the usual response, each worth one day's chance."""
    missed = _missed(noted, place)
    softened = missed / np.sqrt(1 + (missed / (FAR * chance)) ** 2)
    return np.concatenate([softened, chance * (place - _to_numbers(USUAL)) / _SPREAD])


def _slopes(noted: ObservedSeasons, place: FloatArray, chance: float, residuals: FloatArray) -> FloatArray:
    """Derivatives of the residuals by the five numbers, (residuals, 5)."""
    columns = []
    for number, width in enumerate(_LEAST_DIFFERENCE):
        moved = place.copy()
        moved[number] += width
        columns.append((_residuals(noted, moved, chance) - residuals) / width)
    return np.stack(columns, axis=1)


def _to_numbers(response: Response) -> FloatArray:
    values = [getattr(response, field) for field in _FIELDS]
    return np.array([math.log(v) if log else v for v, log in zip(values, _LOGARITHMIC, strict=True)])


def _to_response(place: FloatArray) -> Response:
    values = [math.exp(v) if log else float(v) for v, log in zip(place, _LOGARITHMIC, strict=True)]
    return Response(**dict(zip(_FIELDS, values, strict=True)))
