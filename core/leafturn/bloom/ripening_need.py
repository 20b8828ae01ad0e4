"""What fruit takes to ripen: days of time and of warmth, in the climate for which books state days.

A day counts ``(1 - a) + a w / w_ref``: a part of it is time alone, a part the warmth of the day, as
degree-days above 5 degC of a day held at 22 degC, over their mean in the same weeks at the climate of the
books. What is `a` differs: stone fruit go by warmth whole, soft fruit mostly, apples, nuts and grapes
little. Where flowers come long before leaves, as on hazel, the count begins at leaf-out.
"""

from __future__ import annotations

from functools import lru_cache

import msgspec
import numpy as np

from leafturn.base.arrays import FloatArray
from leafturn.base.value import Value
from leafturn.bloom.priors.prior import BloomPrior
from leafturn.bloom.priors.stated import Climate, Reference, made_up_climate
from leafturn.bloom.warmth import BEFORE_AXIS
from leafturn.kinds.harvest import Winters
from leafturn.kinds.model import Kind
from leafturn.season.axis import LEAD_DAYS
from leafturn.season.degree_days import single_sine
from leafturn.toml.packaged import packaged

BASE_C, HOTTEST_C = 5.0, 22.0


class RipeningFacts(msgspec.Struct, frozen=True):
    """ripening.toml: how much of ripening is warmth, and the climates that the books' days belong to."""

    by_stages: dict[str, float]
    by_part: dict[str, float]
    by_kind: dict[str, float]
    kind_spread: float
    cultivar_spread: float
    own_spread: float
    books: dict[Winters, Reference]


facts = packaged("leafturn.bloom", "ripening.toml", RipeningFacts)


def warmth_share(kind: Kind) -> float:
    """How much of a kind's ripening goes by warmth, 0 to 1."""
    known = facts()
    if kind.name in known.by_kind:
        return known.by_kind[kind.name]
    part = kind.harvest.part.value if kind.harvest.part else ""
    if part in known.by_part:
        return known.by_part[part]
    return known.by_stages.get(kind.stages.value if kind.stages else "", 0.5)


class Need(Value):
    """What a plant's fruit takes to ripen.

    Parameters
    ----------
    days : float [d]
        Of time and warmth together, in days as they count at the climate of the books.
    share : float
        How much of it goes by warmth.
    warmth_a_day : float [degC d]
        What a day brings at the climate of the books while it ripens.
    """

    days: float
    share: float
    warmth_a_day: float

    def counted(self, warmth: FloatArray) -> FloatArray:
        """Days as they count, from warmth summed to the end of each day, (..., days)."""
        time = (1 - self.share) * np.arange(1.0, warmth.shape[-1] + 1)
        return np.asarray(time + self.share / self.warmth_a_day * warmth)


def need_of(
    kind: Kind, prior: BloomPrior, leaf: BloomPrior | None, full_after: float, later: float
) -> Need | None:
    """What ripening takes, read off the climate of the books.

    Parameters
    ----------
    kind : Kind
    prior, leaf : BloomPrior
        Of its first flower and of its leaf-out.
    full_after : float [d]
        From first flower to full bloom.
    later : float [d]
        How much later than its kind the cultivar ripens there.

    Returns
    -------
    Need or None
        None for kinds whose fruit takes more than a year, or whose days are not known.
    """
    days = kind.harvest.after_full_bloom_days
    if days is None or days.value > 366:
        return None
    where = kind.harvest.counted_where.value if kind.harvest.counted_where else "cold winters"
    climate, warmth = _climate(where), _warmth_of_the_books(where)
    full = climate.usual_day(prior) + full_after
    begins = full if leaf is None else max(full, climate.usual_day(leaf))
    place = [
        round(day) + BEFORE_AXIS + LEAD_DAYS - 1
        for day in (begins, full + days.value, full + days.value + later)
    ]
    start, ripe, own = (min(max(p, 1), len(warmth) - 1) for p in place)
    share = warmth_share(kind)
    a_day = max((warmth[ripe] - warmth[start]) / max(ripe - start, 1), 1.0)
    need = Need(days=0.0, share=share, warmth_a_day=float(a_day))
    counted = need.counted(warmth)
    return Need(days=max(float(counted[own] - counted[start]), 5.0), share=share, warmth_a_day=float(a_day))


def _climate(where: Winters) -> Climate:
    known = facts().books[where]
    return made_up_climate(known.latitude, known.tmax_c, known.tmin_c)


@lru_cache(maxsize=2)
def _warmth_of_the_books(where: Winters) -> FloatArray:
    """Mean warmth summed from 1 October on, through the second autumn too, (days,) [degC d]."""
    climate = _climate(where)
    year = daily_warmth(climate.tmin, climate.tmax).mean(axis=0)[:365]
    return np.asarray(np.tile(year, 2).cumsum())


def daily_warmth(tmin: FloatArray, tmax: FloatArray) -> FloatArray:
    """Degree-days above 5 degC of days held at 22 degC, by extremes [degC] and in their shape."""
    return single_sine(tmin, tmax, BASE_C, HOTTEST_C)
