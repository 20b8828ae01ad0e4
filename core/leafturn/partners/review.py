"""Which trees get enough pollen this year, which do not, why, and what would help.

Notes
-----
A partner's chance is the product of five shares: how far its pollen suits, how good the pollen is, the
chance that it flowers, the share of the receptive days it covers, and what its distance leaves. A tree
is served unless its own pollen and every partner fail: one less the product of the failures. The
partners are taken as independent, which is a simplification: one cold week spoils bee flight for all.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Mapping
from types import MappingProxyType

import numpy as np

from leafturn.bloom.model import BloomForecast
from leafturn.garden.model import Garden
from leafturn.kinds.library import Library
from leafturn.partners.census import Bearer, self_share, take_census
from leafturn.partners.fixes import Helper
from leafturn.partners.group_review import GroupReview
from leafturn.partners.model import TreeReview
from leafturn.partners.settings import read_settings
from leafturn.partners.shares import FULL
from leafturn.season.axis import SeasonAxis

LOOK_AHEAD = 16  # years, this one included
NOTHING: Mapping[str, int] = MappingProxyType({})
NO_YEARS: Mapping[str, Collection[int]] = MappingProxyType({})
NO_LOSS: Mapping[str, float] = MappingProxyType({})
NO_RULES: Mapping[str, float | str | bool] = MappingProxyType({})


def review_partners(
    garden: Garden,
    library: Library,
    forecasts: Mapping[str, BloomForecast],
    year: int,
    *,
    first_bloom: Mapping[str, int] = NOTHING,
    no_bloom: Mapping[str, Collection[int]] = NO_YEARS,
    rules: Mapping[str, float | str | bool] = NO_RULES,
    frost_loss: Mapping[str, float] = NO_LOSS,
    today: dt.date | None = None,
) -> tuple[TreeReview, ...]:
    """Review every living plant from which fruit is wanted; males and fruitless kinds are left out.

    Parameters
    ----------
    garden : Garden
    library : Library
    forecasts : mapping of plant id to BloomForecast
        This season's flowering, all with the same draws. A plant without one gets a wide range.
    year : int
        The season's year.
    first_bloom : mapping of plant id to the first year in which flowers were noted
    no_bloom : mapping of plant id to the years noted as without flowers
    rules : mapping
        The garden's own `[rule]` values; keys that begin with "partner_" count (see settings).
    frost_loss : mapping of plant id to the chance that frost spoils the bloom
        Passed on as it is.
    today : date or None
        Helps whose days are past are put off to the next season.

    Returns
    -------
    tuple of TreeReview
        In garden order.
    """
    settings, _ = read_settings(rules)
    years = np.arange(year, year + LOOK_AHEAD, dtype=np.int64)
    census = take_census(
        garden, library, forecasts, years, first_bloom=first_bloom, no_bloom=no_bloom, settings=settings
    )
    helper = Helper(
        library=library, settings=settings, axis=SeasonAxis(year, garden.place.southern), today=today
    )
    reviews: dict[int, TreeReview] = {}
    for group in census.groups.values():
        if group.takers:
            reviews.update(GroupReview(group, census, helper).reviews(frost_loss))
    return tuple(
        reviews[id(tree.plant)] if id(tree.plant) in reviews else _fruits_alone(tree, frost_loss)
        for tree in census.asked
    )


def _fruits_alone(tree: Bearer, frost_loss: Mapping[str, float]) -> TreeReview:
    share = self_share(tree.genotype)
    alone = FULL if tree.genotype.system == "sets without pollen" else share
    why = (
        f"{tree.kind.name} sets fruit without pollen"
        if tree.genotype.system == "sets without pollen"
        else f"{tree.genotype.cultivar or tree.kind.name} sets fruit with its own pollen"
    )
    return TreeReview(
        plant=tree.label,
        kind=tree.kind.name,
        cultivar=tree.genotype.cultivar,
        needs="none",
        adequacy=alone.likely,
        low=alone.low,
        high=alone.high,
        standing="needs none",
        weakest="",
        reasons=(f"{why}.",),
        frost_loss_chance=frost_loss.get(tree.label),
        guessed=tree.kind.guessed,
    )
