"""The level of warmth at which one plant opens, from its kind and its own noted springs.

A plant's level is its kind's, plus what is lasting about the plant or its place, plus what drifts over the
years (another branch watched, another watcher, the plant growing old), plus what is chance in one spring. All
are normal with spreads learnt from other sites, so the level after some notes follows from the rules of the
multivariate normal distribution: recent notes count more, each further note less. A note far from what the
others say loses weight, as under a Student distribution.

References
----------
.. [1] Rasmussen, C. E. and Williams, C. K. I. (2006). Gaussian processes for machine learning. MIT Press,
   ch. 2 (the formulas).
.. [2] Lange, K. L., Little, R. J. A. and Taylor, J. M. G. (1989). Robust statistical modeling using the t
   distribution. J. Am. Stat. Assoc. 84: 881-896 (weights).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]

FREEDOM = 5.0  # of the Student distribution of one spring's chance; common practice
ROUNDS = 4
STRANGER = 0.02  # share of plants that are another kind, or stand where theirs was never seen; guess
STRANGER_SPREADS = 30.0  # how far off their levels lie, in spreads of the kind; guess


@dataclass(frozen=True, kw_only=True)
class LevelSpreads:
    """Where levels of a kind lie, as logarithms of warmth.

    Parameters
    ----------
    middle : float
        The kind's level.
    lasting, drifting, chance : float
        Variances: between plants or places for good, within one over the years, and of one spring.
    drift_years : float [years]
        Time in which a drift loses all but a third of itself.
    """

    middle: float
    lasting: float = 0.005
    drifting: float = 0.004
    chance: float = 0.006
    drift_years: float = 4.0


@dataclass(frozen=True, eq=False, kw_only=True)
class OwnLevel:
    """What notes say about one spring's level.

    Parameters
    ----------
    mean, variance : float
        Of the level in the spring asked for, chance of that spring left out.
    weights : (notes,)
        1 for a note that fits the others, towards 0 for one far off.
    misses : (notes,)
        Distance of each note from what kind and other notes say, in standard deviations.
    stranger : float
        Chance that the notes are not of this kind, or of a place beyond what is known of it.
    """

    mean: float
    variance: float
    weights: FloatArray
    misses: FloatArray
    stranger: float


def own_level(spreads: LevelSpreads, levels: FloatArray, years: FloatArray, year: float) -> OwnLevel:
    """The level to expect in a year.

    Parameters
    ----------
    spreads : LevelSpreads
    levels : (notes,)
        Logarithm of warmth on the days noted.
    years : (notes,) [years]
        Their years; may lie before and after the year asked for.
    year : float
    """
    off = np.asarray(levels, dtype=float) - spreads.middle
    everything = spreads.lasting + spreads.drifting
    if not len(off):
        return OwnLevel(mean=spreads.middle, variance=everything, weights=off, misses=off, stranger=0.0)
    stranger = _stranger(spreads, off)
    lasting = spreads.lasting + stranger * float(np.median(off)) ** 2

    def together(first: FloatArray, second: FloatArray) -> FloatArray:
        apart = np.abs(first - second) / spreads.drift_years
        return np.asarray(lasting + spreads.drifting * np.exp(-apart))

    between = together(years[:, None], years[None, :])
    to_year = together(years, np.asarray(year, dtype=float))
    weights, misses = np.ones(len(off)), np.zeros(len(off))
    for _ in range(ROUNDS):
        inverse = np.linalg.inv(between + np.diag(spreads.chance / weights))
        pull = inverse @ off
        if len(off) == 1:
            break  # one note has no others that could call it a slip
        alone = 1 / np.diag(inverse)
        misses = pull * alone / np.sqrt(alone + spreads.chance * (1 - 1 / weights))
        weights = np.minimum((FREEDOM + 1) / (FREEDOM + misses**2), 1.0)
    variance = lasting + spreads.drifting - float(to_year @ inverse @ to_year)
    return OwnLevel(
        mean=spreads.middle + float(to_year @ pull), variance=max(variance, 0.0), weights=weights,
        misses=misses, stranger=stranger,
    )  # fmt: skip


def _stranger(spreads: LevelSpreads, off: FloatArray) -> float:
    """Chance that a plant's median level comes from far outside its kind."""
    variance = spreads.lasting + spreads.drifting + spreads.chance / len(off)
    square = float(np.median(off)) ** 2 / variance
    wide = STRANGER_SPREADS**2
    kind = math.log1p(-STRANGER) - square / 2
    other = math.log(STRANGER / STRANGER_SPREADS) - square / (2 * wide)
    return 1 / (1 + math.exp(min(kind - other, 700.0)))
