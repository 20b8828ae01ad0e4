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

from leafturn.base.arrays import FloatArray
from leafturn.bloom.model import BloomForecast
from leafturn.garden.model import Garden
from leafturn.kinds.library import Library
from leafturn.partners.advice.around import Around
from leafturn.partners.advice.planting_room import Ground
from leafturn.partners.advice.remedies import Helper
from leafturn.partners.chance.census import take_census
from leafturn.partners.chance.crop_chance import matching
from leafturn.partners.chance.figures import GroupFigures
from leafturn.partners.chance.fruit_set_evidence import SetNotes
from leafturn.partners.chance.pollen_plants import Bearer
from leafturn.partners.chance.shares import FULL
from leafturn.partners.genetics.self_fertility import self_share
from leafturn.partners.group_review import GroupReview
from leafturn.partners.model import GardenReview, SpareGiver, TreeReview
from leafturn.partners.settings import read_settings
from leafturn.season.axis import SeasonAxis
from leafturn.season.ensemble import Ensemble

LOOK_AHEAD = 16  # years, this one included
LOOK_BACK = 15  # years of noted sets that are counted; an older garden was another one
NOTHING: Mapping[str, int] = MappingProxyType({})
NO_YEARS: Mapping[str, Collection[int]] = MappingProxyType({})
NO_LOSS: Mapping[str, float] = MappingProxyType({})
NO_CROP_LOST: Mapping[str, FloatArray] = MappingProxyType({})
NO_SETS: Mapping[str, SetNotes] = MappingProxyType({})
NO_RULES: Mapping[str, float | str | bool] = MappingProxyType({})


def review_garden(
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
    weather: Ensemble | None = None,
    crop_lost: Mapping[str, FloatArray] = NO_CROP_LOST,
    sets: Mapping[str, SetNotes] = NO_SETS,
    light: Mapping[str, float] = NO_LOSS,
) -> GardenReview:
    """Every tree's chance of enough pollen, and the plants kept for pollen that could go.

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
    weather : Ensemble or None
        What the forecasts were made with: days then count by the warmth and rain that carriers meet.
    crop_lost : mapping of plant id to (draws,) array
        Share of a full crop that frost takes in every version of the year.
    sets : mapping of plant id to the set noted ("none", "poor", "fair", "good") by year
    light : mapping of plant id to light from May to September [% of open light]
        Plants with less than their kind needs flower later.
    """
    settings, _ = read_settings(rules)
    past = sorted({y for notes in sets.values() for y in notes if year - LOOK_BACK <= y < year})
    years = np.array([*range(year, year + LOOK_AHEAD), *past], dtype=np.int64)
    census = take_census(
        garden, library, forecasts, years, first_bloom=first_bloom, no_bloom=no_bloom, settings=settings,
        light=light, ahead=LOOK_AHEAD,
    )  # fmt: skip
    around = Around.of(garden, weather, crop_lost, sets, settings)
    axis = SeasonAxis(year, garden.place.southern)
    helper = Helper(
        library=library, settings=settings, axis=axis, today=today, ground=Ground(garden, library)
    )
    reviews: dict[int, TreeReview] = {}
    spare: list[SpareGiver] = []
    for group in census.groups.values():
        if group.takers:
            figures = GroupFigures(group, census, around, settings, library.crosses)
            reviews.update(GroupReview(figures, helper).reviews(frost_loss))
            spare.extend(figures.spare())
    trees = tuple(
        reviews[id(tree.plant)] if id(tree.plant) in reviews else _fruits_alone(tree, frost_loss, around)
        for tree in census.asked
    )
    return GardenReview(trees=trees, spare=tuple(spare))


def _fruits_alone(tree: Bearer, frost_loss: Mapping[str, float], around: Around) -> TreeReview:
    share = self_share(tree.genotype)
    alone = FULL if tree.genotype.system == "sets without pollen" else share
    why = (
        f"{tree.kind.name} sets fruit without pollen"
        if tree.genotype.system == "sets without pollen"
        else f"{tree.genotype.cultivar or tree.kind.name} sets fruit with its own pollen"
    )
    draws = len(tree.bloom[0]) if tree.bloom else 0
    lost = matching(around.crop_lost, tree.label, draws)
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
        computed=alone.likely,
        crop=None if lost is None else alone.likely * (1.0 - float(lost.mean())),
    )
