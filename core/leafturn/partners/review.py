"""Which trees get enough pollen this year, which do not, why, and what would help.

Notes
-----
A partner's chance is the product of five shares: how far its pollen suits, how good the pollen is, the
chance that it flowers, the share of the receptive days it covers, and what its distance leaves. A tree
is served unless its own pollen and every partner fail: one less the product of the failures; and only in
a year in which it is itself old enough to flower. The
partners are taken as independent, which is a simplification: one cold week spoils bee flight for all.
"""

from __future__ import annotations

import msgspec

from leafturn.partners.advice.planting_room import PlantingRoom
from leafturn.partners.advice.remedies import RemedyFinder
from leafturn.partners.bloom_overlap.flowering_age import OLD_ENOUGH
from leafturn.partners.chance.crop_chance import matching
from leafturn.partners.chance.pollen_plants import PollenPlant
from leafturn.partners.chance.shares import FULL
from leafturn.partners.flowering_season import FloweringSeason
from leafturn.partners.garden_chances import GardenChances
from leafturn.partners.genetics.self_fertility import self_share, sets_without_pollen
from leafturn.partners.group_review import GroupReview
from leafturn.partners.model import GardenReview, RedundantDonor, TreeReview
from leafturn.partners.sentences import first_flowers_ahead, too_young_words
from leafturn.season.axis import SeasonAxis
from leafturn.season.garden_day import GardenDay


def review_garden(
    day: GardenDay, season: FloweringSeason, chances: GardenChances | None = None
) -> GardenReview:
    """Every tree's chance of enough pollen, and the plants kept for pollen that could go.

    Parameters
    ----------
    day : GardenDay
        Of its numbers those that begin with "partner_" count. Helps whose days are past are put off to the
        next season.
    season : FloweringSeason
    chances : GardenChances, optional
        Those of the same day and season, where they were asked for already.
    """
    chances = chances or GardenChances(day, season)
    remedy_finder = RemedyFinder(
        library=day.library,
        numbers=day.numbers,
        axis=SeasonAxis(season.year, day.axis.southern),
        on=day.on,
        planting_room=PlantingRoom(day),
        too_tall=season.too_tall,
    )
    reviews: dict[int, TreeReview] = {}
    redundant_donors: list[RedundantDonor] = []
    for group_chances in chances.groups():
        group_review = GroupReview(group_chances, remedy_finder)
        reviews.update(group_review.reviews(season.frost_loss, season.crop_lost))
        redundant_donors.extend(group_chances.redundant_donors())
    trees = tuple(
        reviews[id(tree.plant)] if id(tree.plant) in reviews else _needs_none(tree, season)
        for tree in chances.cross_groups.reviewed
    )
    if season.weather is not None and season.weather.sureness == "guess":  # and so are all days of bloom
        trees = tuple(msgspec.structs.replace(tree, guessed=True) for tree in trees)
    return GardenReview(trees=trees, redundant_donors=tuple(redundant_donors))


def _needs_none(tree: PollenPlant, season: FloweringSeason) -> TreeReview:
    flowers = tree.flowering[:, 0].tolist()
    share = self_share(tree.genotype)
    self_set = FULL if sets_without_pollen(tree.genotype) else share
    why = (
        f"{tree.kind.name} sets fruit without pollen"
        if sets_without_pollen(tree.genotype)
        else f"{tree.genotype.cultivar or tree.kind.name} sets fruit with its own pollen"
    )
    draws = len(tree.bloom[0]) if tree.bloom else 0
    lost = matching(season.crop_lost, tree.label, draws)
    return TreeReview(
        plant=tree.label,
        kind=tree.kind.name,
        cultivar=tree.genotype.cultivar,
        needs="none",
        adequacy=self_set.likely * flowers[1],
        low=self_set.low * flowers[0],
        high=self_set.high * flowers[2],
        standing="needs none",
        weakest="",
        reasons=(f"{why}.", *(f"{said}." for said in too_young_words(tree, season.year))),
        frost_loss_chance=season.frost_loss.get(tree.label),
        guessed=tree.kind.guessed,
        computed=self_set.likely * flowers[1],
        crop=None if lost is None else self_set.likely * flowers[1] * (1.0 - float(lost.mean())),
        flowers=flowers[1],
        first_flowers=first_flowers_ahead(tree),
        too_young=flowers[1] < OLD_ENOUGH,
    )
