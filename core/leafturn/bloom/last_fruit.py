"""When a season is over for fruit: the leaves that fed it are down, or frost takes it as it hangs."""

from __future__ import annotations

from leafturn.base.arrays import FloatArray, median
from leafturn.bloom.leafing import fall_after_frost
from leafturn.kinds.model import Kind
from leafturn.season.ensemble import Ensemble
from leafturn.season.frost import first_frost
from leafturn.season.garden_day import GardenDay
from leafturn.season.leaf_time import leaf_fall

# [d] after its leaves fall that fruit on a leafless tree still ripens, of what it has stored; a guess
RIPENS_ON = 14.0


def frozen_days(kind: Kind, day: GardenDay, now: Ensemble) -> FloatArray | None:
    """Day number on which frost takes the fruit of a kind, (draws,); None for all but canes.

    Late raspberries are picked until it freezes and give no more (La Voz del Interior on Cordoba, and El
    Diario de la Republica on San Luis, 2022; both read). That the frost which kills open flowers does it is
    a guess.
    """
    if kind.habit != "cane":
        return None
    return now.spread(first_frost(now, day.numbers["hard_frost_c"], day.garden.place.frost_pocket_c))


def last_fruit(kind: Kind, day: GardenDay, now: Ensemble) -> float:
    """Usual day number after which no fruit of a kind ripens that sheds its leaves."""
    after = fall_after_frost(kind, day.numbers)
    fed = median(leaf_fall(now, day.garden.place.frost_pocket_c, day.numbers, after)) + RIPENS_ON
    frozen = frozen_days(kind, day, now)
    return fed if frozen is None else min(fed, median(frozen))
