"""Whether a plant's dates go with the weather as its kind's do, or are better taken by themselves.

A plant may be another species under the same name, or stand where the kind's response does not hold. Its own
notes then tell: their levels of warmth lie far from the kind's, and scatter more than their dates do. Both
ways of reading the notes are weighed by how likely they make them (Bayesian model averaging), each note
within limits: a single slip must not turn the answer.

References
----------
.. [1] Hoeting, J. A. et al. (1999). Bayesian model averaging: a tutorial. Statist. Sci. 14: 382-417.
"""

from __future__ import annotations

import math

import numpy as np

from leafturn.base.arrays import FloatArray, median

RARELY, OFTEN = 0.02, 0.5  # chance beforehand: of a plant of the kind, and of a stranger to it; guesses
BY_DEGREE, MOST_BEFOREHAND = 0.15, 0.95  # more for each degree that winters lie outside; guesses
FREEDOM = 4.0  # of the Student distribution of departures; common practice
MOST_SAY = 1.5  # of one note, which may be a slip, on the logarithm of the odds; guess


def share_by_dates(
    levels: FloatArray, growth: FloatArray, days: FloatArray, level_variance: float, year_spread: float,
    stranger: float, degrees_outside: float = 0.0,
) -> float:  # fmt: skip
    """Chance that the dates are better taken by themselves.

    Parameters
    ----------
    levels : (notes,)
        Logarithm of warmth on the days noted.
    growth : (notes,) [1/day]
        How much a level grows on such a day; it turns a density over levels into one over days.
    days : (notes,) [day number]
    level_variance : float
        Of one spring's level about a plant's own.
    year_spread : float [d]
        Standard deviation of dates between springs at one place.
    stranger : float
        Chance that the plant is not of its kind.
    degrees_outside : float [degC]
        How far the winters here lie outside those the kind was learnt in.
    """
    notes = len(days)
    if not notes:
        return 0.0
    beforehand = RARELY + (OFTEN - RARELY) * stranger
    beforehand = min(beforehand + BY_DEGREE * degrees_outside, MOST_BEFOREHAND)
    odds = math.log(beforehand / (1 - beforehand))
    # each note tells of the spread as far as it is not used up by their middle
    telling = (notes - 1) / notes
    by_level = _log_likelihood(levels - median(levels), level_variance) + np.log(growth)
    by_date = _log_likelihood(days - median(days), year_spread**2)
    odds += telling * float(np.clip(by_date - by_level, -MOST_SAY, MOST_SAY).sum())
    return 1 / (1 + math.exp(-min(max(odds, -700.0), 700.0)))


def _log_likelihood(departure: FloatArray, variance: float) -> FloatArray:
    """Of a Student distribution, up to a constant."""
    return np.asarray(
        -(FREEDOM + 1) / 2 * np.log1p(departure**2 / (FREEDOM * variance)) - math.log(variance) / 2
    )
