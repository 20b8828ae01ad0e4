"""How far levels of one kind lie apart: between plants for good, over the years, and in one spring.

Read from many sites by moments: products of departures from a site's own level, so many years apart, fall
from the drift's variance to nothing as the years grow; what is left at no distance is chance. Few sites or
notes are eked out with usual values.

References
----------
.. [1] Searle, S. R., Casella, G. and McCulloch, C. E. (1992). Variance components. Wiley (the moments).
.. [2] Robbins, H. (1956). An empirical Bayes approach to statistics. Proc. 3rd Berkeley Symp. 1: 157-163.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from leafturn.bloom.own_level import LevelSpreads
from leafturn.bloom.response_fit import site_medians, spread

FloatArray = NDArray[np.float64]

USUAL = LevelSpreads(middle=0.0)  # guesses: about what ten series of trees and shrubs give
USUAL_SITES = 4.0  # the usual values count as much as four sites; guess
USUAL_NOTES = 20.0  # and as twenty notes within sites; guess
DRIFT_YEARS = (1.0, 1.5, 2.0, 3.0, 4.5, 7.0, 10.0, 15.0)
MOST_APART = 15  # [years]
FAR = 3.0  # departures are held within so many spreads; common practice
FEWEST_NOTES = 5  # of a site whose notes tell of the spread within it
MOST_DRIFT = 0.8  # share of the variance within a site


@dataclass(frozen=True, eq=False)
class _Within:
    """Variance within sites, and the products of departures by years apart with their numbers."""

    variance: float
    products: FloatArray
    pairs: FloatArray


def level_spreads(site: NDArray[np.intp], year: NDArray[np.intp], level: FloatArray) -> LevelSpreads:
    """Spreads of the levels at noted days.

    Parameters
    ----------
    site, year : (notes,)
        Sites are numbered from 0.
    level : (notes,)
        Logarithms of warmth.

    Returns
    -------
    LevelSpreads
    """
    own, count = site_medians(site, level)
    seen = count > 0
    middle = float(np.median(own[seen]))
    within = _within(site, year, level - own[site], count)
    notes = float(count[count >= FEWEST_NOTES].sum())
    total = _eked_out(within.variance, notes, USUAL.drifting + USUAL.chance, USUAL_NOTES)
    drifting, drift_years = _drift(within)
    share = drifting / within.variance if within.variance > 0 else 0.0
    usual_share = USUAL.drifting / (USUAL.drifting + USUAL.chance)
    share = min(_eked_out(share, notes, usual_share, 10 * USUAL_NOTES), MOST_DRIFT)
    between = spread(own[seen]) ** 2 - total * float(np.mean(1 / count[seen]))
    lasting = _eked_out(max(between, 0.1 * total), float(seen.sum()) - 1, USUAL.lasting, USUAL_SITES)
    return LevelSpreads(
        middle=middle, lasting=lasting, drifting=share * total, chance=(1 - share) * total,
        drift_years=drift_years if notes > 10 * USUAL_NOTES else USUAL.drift_years,
    )  # fmt: skip


def _eked_out(seen: float, how_many: float, usual: float, as_many: float) -> float:
    return (how_many * seen + as_many * usual) / (how_many + as_many)


def _within(
    site: NDArray[np.intp], year: NDArray[np.intp], departure: FloatArray, count: NDArray[np.intp]
) -> _Within:
    enough = count >= FEWEST_NOTES
    products, pairs = np.zeros(MOST_APART + 1), np.zeros(MOST_APART + 1)
    held = FAR * spread(departure[enough[site]])
    order = np.argsort(site, kind="stable")
    for notes in np.split(order, np.cumsum(count)[:-1]):
        if len(notes) < FEWEST_NOTES:
            continue
        off = np.clip(departure[notes], -held, held)
        off = off - off.mean()
        apart = np.abs(year[notes][:, None] - year[notes][None, :])
        near = apart <= MOST_APART
        products += np.bincount(apart[near], (off[:, None] * off[None, :])[near], MOST_APART + 1)
        pairs += np.bincount(apart[near], minlength=MOST_APART + 1)
    mean = products / np.maximum(pairs, 1)
    # a site's mean takes a share of the variance along
    lost = 1 - float(np.mean(1 / count[enough])) if enough.any() else 1.0
    return _Within(variance=float(mean[0]) / lost, products=mean, pairs=pairs)


def _drift(within: _Within) -> tuple[float, float]:
    """Variance and length [years] of the drift that best fits products one to fifteen years apart."""
    apart = np.arange(1, MOST_APART + 1)
    weight = np.sqrt(within.pairs[1:])
    found = (np.inf, 0.0, USUAL.drift_years)
    for years in DRIFT_YEARS:
        # the constant is what the site's mean took along
        shape = np.stack([np.exp(-apart / years), -np.ones(MOST_APART)], axis=1)
        fitted, *_ = np.linalg.lstsq(shape * weight[:, None], within.products[1:] * weight, rcond=None)
        misfit = float((((within.products[1:] - shape @ fitted) * weight) ** 2).sum())
        found = min(found, (misfit, max(float(fitted[0]), 0.0), years))
    return found[1], found[2]
