"""When growth ends, leaves fall and rest is over: by frost, or by short days where frost rarely comes.

In temperate gardens the first frost ends growth, and leaves follow it by some weeks. Where winters hardly
freeze, leaf-shedding plants still come to rest as days shorten and cool: leaves hang on longest there and are
down in December. How long after, and how long such a rest is, are guesses that a steward may change.
"""

from __future__ import annotations

import datetime as dt

import numpy as np

from leafturn.base.arrays import FloatArray, median
from leafturn.base.tunables import Numbers
from leafturn.season.axis import SeasonAxis
from leafturn.season.ensemble import Ensemble
from leafturn.season.frost import first_frost

EQUINOX = "09-22"  # of autumn; the south counts half a year on
FROM_START = "season"  # heat for leaf-out counts from the season's start


def latest_leaf_fall(axis: SeasonAxis, numbers: Numbers) -> float:
    """Day number by which short days have brought leaves down, whatever the frost."""
    return axis.month_day(EQUINOX) + numbers["leaf_fall_latest_days"]


def latest_growth_end(axis: SeasonAxis, numbers: Numbers) -> float:
    """Day number by which short days have ended growth: as long before leaf fall as a frost would come."""
    return latest_leaf_fall(axis, numbers) - numbers["leaf_fall_after_frost_days"]


def leaf_fall(ensemble: Ensemble, pocket_c: float, numbers: Numbers, after_frost: float) -> FloatArray:
    """Day number of leaf fall, (members,): so many days after the first frost, or by short days.

    Parameters
    ----------
    ensemble : Ensemble
    pocket_c : float [degC]
        How much warmer the garden is than the station on still nights.
    numbers : Numbers
        `leaf_fall_latest_days`.
    after_frost : float [d]
        Of the kind.
    """
    by_frost = first_frost(ensemble, 0.0, pocket_c) + after_frost
    return np.minimum(by_frost, latest_leaf_fall(ensemble.axis, numbers))


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
