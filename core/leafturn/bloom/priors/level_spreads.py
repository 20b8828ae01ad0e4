"""How levels of one kind vary within a place: what drifts over the years, and what is chance in one spring.

Read from many sites by moments: products of departures from a site's own level, so many years apart, fall
from the drift's variance to nothing as the years grow; what is left at no distance is chance. Few notes are
eked out with usual values.

References
----------
.. [1] Searle, S. R., Casella, G. and McCulloch, C. E. (1992). Variance components. Wiley (the moments).
"""

from __future__ import annotations

import numpy as np

from leafturn.base.arrays import FloatArray, IndexArray
from leafturn.base.value import Value
from leafturn.bloom.priors.prior import LevelSpreads
from leafturn.bloom.priors.response_fit import site_medians, spread

USUAL = LevelSpreads(middle=0.0)  # guesses: about what ten series of trees and shrubs give
USUAL_NOTES = 20.0  # they count as much as so many notes for the variance, ten times so for its parts; guess
DRIFT_YEARS = (1.0, 1.5, 2.0, 3.0, 4.5, 7.0, 10.0, 15.0)
MOST_APART = 15  # [years]
FAR = 3.0  # departures are held within so many spreads; common practice
FEWEST_NOTES = 5  # of a site whose notes tell of the spread within it
MOST_DRIFT = 0.8  # share of the variance within a site


class WithinPlace(Value):
    """Variance of levels at one place, the share of it that drifts, and how long that keeps [years]."""

    variance: float
    drift_share: float
    drift_years: float


def within_place(site: IndexArray, year: IndexArray, level: FloatArray) -> WithinPlace:
    """How levels vary at one place, from those at noted days of many.

    Parameters
    ----------
    site, year : (notes,)
        Sites are numbered from 0.
    level : (notes,)
        Logarithms of warmth.
    """
    own, count = site_medians(site, level)
    mean, pairs = _products(site, year, level - own[site], count)
    enough = count >= FEWEST_NOTES
    # the site's own mean took its part of the variance along
    left = 1 - float(np.mean(1 / count[enough])) if enough.any() else 1.0
    variance = float(mean[0]) / left
    drifting, years = _drift(mean[1:], pairs[1:])
    notes = float(count[enough].sum())
    usual = USUAL.drifting + USUAL.chance
    share = drifting / variance if variance > 0 else 0.0
    share = eked_out(share, notes, USUAL.drifting / usual, 10 * USUAL_NOTES)
    return WithinPlace(
        variance=eked_out(variance, notes, usual, USUAL_NOTES),
        drift_share=min(share, MOST_DRIFT),
        drift_years=years if notes > 10 * USUAL_NOTES else USUAL.drift_years,
    )


def eked_out(seen: float, how_many: float, usual: float, as_many: float) -> float:
    """What was seen so many times, with a usual value that counts as so many."""
    return (how_many * seen + as_many * usual) / (how_many + as_many)


def _products(
    site: IndexArray, year: IndexArray, departure: FloatArray, count: IndexArray
) -> tuple[FloatArray, FloatArray]:
    """Mean product of two departures at one site, 0 to 15 years apart, and of how many pairs it is."""
    products, pairs = np.zeros(MOST_APART + 1), np.zeros(MOST_APART + 1)
    held = FAR * spread(departure[count[site] >= FEWEST_NOTES])
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
    return products / np.maximum(pairs, 1), pairs


def _drift(products: FloatArray, pairs: FloatArray) -> tuple[float, float]:
    """Variance and length [years] of the drift that best fits products one to fifteen years apart."""
    apart = np.arange(1, MOST_APART + 1)
    weight = np.sqrt(pairs)
    found = (np.inf, 0.0, USUAL.drift_years)
    for years in DRIFT_YEARS:
        # the constant is what the site's mean took along
        shape = np.stack([np.exp(-apart / years), -np.ones(MOST_APART)], axis=1)
        fitted, *_ = np.linalg.lstsq(shape * weight[:, None], products * weight, rcond=None)
        misfit = float((((products - shape @ fitted) * weight) ** 2).sum())
        found = min(found, (misfit, max(float(fitted[0]), 0.0), years))
    return found[1], found[2]
