"""When leaf-shedding crowns carry leaves: from the heat and the frost of this garden's usual year."""

from __future__ import annotations

import numpy as np

from leafturn.base.arrays import median
from leafturn.base.tunables import Numbers
from leafturn.bloom.leafing import fall_after_frost, leaf_need, leaf_out_days
from leafturn.kinds.model import Kind
from leafturn.season.axis import LEAD_DAYS, YEAR_DAYS
from leafturn.season.heat import HeatSums
from leafturn.season.leaf_time import leaf_fall


def leaf_months(kind: Kind, usual: HeatSums, numbers: Numbers, pocket_c: float = 0.0) -> tuple[float, ...]:
    """Share of each month, January first, in which a kind's crown is in leaf in a usual year.

    Parameters
    ----------
    kind : Kind
        Its leaf-out by heat and leaf fall by the first frost or short days; where it states none, the
        garden's numbers.
    usual : HeatSums
        Of a season of which nothing is known yet.
    numbers : Numbers
        `leaf_out_heat`, `leaf_fall_after_frost_days`, `leaf_fall_latest_days`, `leaf_rest_days`.
    pocket_c : float [degC]
        How much warmer the garden is than the station on still nights.

    Notes
    -----
    Leaves are counted as all there or all gone, on the middle dates of the years: in truth each takes two
    weeks or more.
    """
    if kind.evergreen:
        return (1.0,) * 12
    out = median(leaf_out_days(usual.ensemble, leaf_need(kind, numbers)))
    fall = median(leaf_fall(usual.ensemble, pocket_c, numbers, fall_after_frost(kind, numbers)))
    day = np.arange(LEAD_DAYS, LEAD_DAYS + YEAR_DAYS)
    dates = np.datetime64(usual.ensemble.axis.first) + day
    month = dates.astype("datetime64[M]").astype(int) % 12 + 1
    in_leaf = (day >= out) & (day < fall)
    return tuple(round(float(in_leaf[month == m].mean()), 2) for m in range(1, 13))
