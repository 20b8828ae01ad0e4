"""Cultivars that want less chill than their kind: where winters are mild they open sooner."""

from __future__ import annotations

import math
from functools import lru_cache

from msgspec.structs import replace

from leafturn.base.arrays import median
from leafturn.bloom.priors.prior import BloomPrior, KindHere
from leafturn.bloom.priors.response import Response, as_cold, level_at
from leafturn.bloom.priors.stated import reference
from leafturn.kinds.specimen import Specimen

# Share of its kind's cold that a cultivar takes which wants next to none; a guess, with which Flordaprince at
# Orlando and Riverside ripens, and at Mesa opens, as published, and Brooks at Ovalle within days.
LEAST_COLD = 0.2


def prior_of_cultivar(prior: BloomPrior, specimen: Specimen) -> BloomPrior:
    """A kind's prior, or that of a cultivar that wants less chill than the middle of what its kind wants.

    Its need of cold follows the portions that both want; its level is the one with which it opens on the
    kind's day at the climate of the books, where cold is never short.
    """
    usual, own = specimen.kind.chill.middle_portions, specimen.own.chill_portions
    if usual is None or own is None or not isinstance(prior.response, Response):
        return prior
    share = LEAST_COLD + (1 - LEAST_COLD) * own.value / usual
    return prior if share >= 1 else _sooner_rested(prior, round(share, 2))


@lru_cache(maxsize=256)
def _sooner_rested(prior: BloomPrior, share: float) -> BloomPrior:
    """A prior whose buds a share of the cold sets free."""
    assert isinstance(prior.response, Response)
    response = replace(prior.response, cold_need=prior.response.cold_need * share)
    climate = reference()
    day = climate.usual_day(prior)
    before, after = (
        median(level_at(sums, [day] * len(sums))[0])
        for sums in (climate.sums(prior.response), climate.sums(response))
    )

    def moved(here: KindHere) -> KindHere:
        levels = replace(here.levels, middle=here.levels.middle + after - before)
        return replace(here, levels=levels)

    coldest, mildest = prior.winters
    return replace(
        prior,
        response=response,
        winters=(coldest, as_cold(prior.response, mildest, share) if math.isfinite(mildest) else mildest),
        usual=moved(prior.usual),
        climates=tuple((winter, moved(here)) for winter, here in prior.climates),
    )
