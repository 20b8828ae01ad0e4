"""When growth ends, leaves turn and fall, and rest is over: by frost, or by short and cool days before it.

The first frost ends growth, and leaves follow it by some weeks. Where it comes late, days that shorten and
cool have turned the leaves before: by the sea, and wherever autumn is long. Where hardly any day is cool they
hang on longest and are down in December. How long after each, and how long such a rest is, are guesses that a
steward may change.
"""

from __future__ import annotations

import datetime as dt
import math

import numpy as np

from leafturn.base.arrays import FloatArray, median
from leafturn.base.kept import kept
from leafturn.base.tunables import Numbers
from leafturn.season.axis import SeasonAxis
from leafturn.season.ensemble import Ensemble
from leafturn.season.frost import first_frost
from leafturn.season.sun import day_length, days_of_year

MIDSUMMER, EQUINOX = "06-22", "09-22"  # the equinox of autumn; the south counts half a year on
TURN_WITHIN = 200  # days from midsummer in which leaves turn, if they do
TROPIC = 23.4  # [deg] nearer the equator days hardly shorten
FROM_START = "season"  # heat for leaf-out counts from the season's start


def latest_leaf_fall(axis: SeasonAxis, numbers: Numbers) -> float:
    """Day number by which short days have brought leaves down, whatever the frost."""
    return axis.month_day(EQUINOX) + numbers["leaf_fall_latest_days"]


def latest_growth_end(axis: SeasonAxis, numbers: Numbers) -> float:
    """Day number by which short days have ended growth: as long before leaf fall as a frost would come."""
    return latest_leaf_fall(axis, numbers) - numbers["leaf_fall_after_frost_days"]


def leaf_turn(ensemble: Ensemble, numbers: Numbers) -> FloatArray:
    """Day number on which short and cool days have turned the leaves, (members,); inf where they do not.

    Parameters
    ----------
    ensemble : Ensemble
    numbers : Numbers
        `leaf_turn_day_h`, `leaf_turn_warmest_c`, `leaf_turn_sum`.

    Notes
    -----
    From midsummer on, each day shorter than so many hours counts by the square of what its mean lacks of a
    temperature, and by the square of its length in parts of those hours; leaves have turned when the sum is
    reached [1]_.

    References
    ----------
    .. [1] Delpierre, N. et al. (2009). Modelling interannual and spatial variability of leaf senescence for
       three deciduous tree species in France. Agric. For. Meteorol. 149: 938-948 (the form as published; the
       numbers as forest models use them, recalled, and held against published dates of leaf fall).
    """
    if abs(ensemble.latitude) < TROPIC:
        return np.full(ensemble.members, math.inf)
    names = ("leaf_turn_day_h", "leaf_turn_warmest_c", "leaf_turn_sum")
    return _turned(ensemble, *(numbers[name] for name in names))


@kept  # every kind asks it
def _turned(ensemble: Ensemble, longest: float, warmest: float, wanted: float) -> FloatArray:
    axis = ensemble.axis
    first = axis.month_day(MIDSUMMER)
    mean = ensemble.tmean[:, first : first + TURN_WITHIN]
    length = day_length(ensemble.latitude, days_of_year(axis.date(first), mean.shape[1]))
    rate = np.maximum(warmest - mean, 0.0) ** 2 * np.where(length < longest, length / longest, 0.0) ** 2
    reached = np.cumsum(rate, axis=1) >= wanted
    return np.where(reached.any(axis=1), first + np.argmax(reached, axis=1), math.inf)


def growth_end(ensemble: Ensemble, pocket_c: float, numbers: Numbers) -> FloatArray:
    """Day number on which growth ends, (members,): the first frost, or by short days. Parameters as below."""
    by_days = np.minimum(leaf_turn(ensemble, numbers), latest_growth_end(ensemble.axis, numbers))
    return np.asarray(np.minimum(first_frost(ensemble, 0.0, pocket_c), by_days))


def leaf_fall(
    ensemble: Ensemble, pocket_c: float, numbers: Numbers, after_frost: float, *, winterless: bool = False
) -> FloatArray:
    """Day number by which leaves are down, (members,): so long after the first frost, or by short days.

    Parameters
    ----------
    ensemble : Ensemble
    pocket_c : float [degC]
        How much warmer the garden is than the station on still nights.
    numbers : Numbers
        Those of `leaf_turn`, `leaf_fall_turned_share` and `leaf_fall_latest_days`.
    after_frost : float [d]
        Of the kind; `leaf_fall_turned_share` of it after leaves have turned.
    winterless : bool
        Whether only frost brings leaves down.
    """
    by_frost = first_frost(ensemble, 0.0, pocket_c) + after_frost
    if winterless:
        return by_frost
    turned = leaf_turn(ensemble, numbers) + numbers["leaf_fall_turned_share"] * after_frost
    return np.minimum(by_frost, np.minimum(turned, latest_leaf_fall(ensemble.axis, numbers)))


def leaf_heat_start(usual: Ensemble, pocket_c: float, numbers: Numbers) -> str:
    """From when heat counts towards leaf-out: "season", or a northern month and day.

    Where the usual first frost comes too late to bring the leaves down, plants come to rest by short days,
    and heat counts once `leaf_rest_days` have passed. Elsewhere winter itself keeps them at rest.

    Parameters
    ----------
    usual : Ensemble
        The year as it usually is.
    pocket_c : float [degC]
    numbers : Numbers
        `leaf_fall_latest_days`, `leaf_fall_after_frost_days`, `leaf_rest_days`.
    """
    frost = median(first_frost(usual, 0.0, pocket_c))
    if frost <= latest_growth_end(usual.axis, numbers):
        return FROM_START
    north = SeasonAxis(2001)
    over = north.date(latest_leaf_fall(north, numbers) + numbers["leaf_rest_days"] - 365)
    return f"{max(over, dt.date(2001, 1, 1)):%m-%d}"
