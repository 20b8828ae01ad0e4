"""Every plant that takes or gives pollen, in the garden and beside it, in groups that can cross."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from typing import Any

import numpy as np
from numpy.typing import NDArray

from leafturn.base.arrays import FloatArray
from leafturn.garden.model import DEAD, Neighbour, Plant
from leafturn.garden.reading.planted import is_planted
from leafturn.kinds.fact import value_of
from leafturn.kinds.wild import grows_wild
from leafturn.partners.bloom_overlap.flowering_age import (
    FloweringAge,
    flowering_age,
    flowering_chance,
    shade_delay,
)
from leafturn.partners.chance.pollen_plants import CrossGroup, CrossGroups, PollenPlant
from leafturn.partners.flowering_season import FloweringSeason
from leafturn.partners.genetics.genotype import (
    Genotype,
    genotype_of,
    grafted_genotype,
    neighbour_genotype,
    raised_how,
)
from leafturn.partners.genetics.self_fertility import is_asked, needs_none
from leafturn.season.garden_day import GardenDay

WILD_KIN = "wild kin everywhere"
KIN_OF_SEEDLINGS = "wild kin of seedlings"
NEIGHBOUR_FLOWERS = (0.5, 0.9, 1.0)  # guess: a plant seen over the fence is mostly a grown one


def cross_groups_of(
    day: GardenDay,
    season: FloweringSeason,
    years: NDArray[np.int64],
    ahead: int | None = None,
) -> CrossGroups:
    """Sort the garden's living plants and the neighbours' into groups that can cross.

    Parameters
    ----------
    day : GardenDay
    season : FloweringSeason
    years : (years,)
        This year and those to look ahead to, then past years if any.
    ahead : int or None
        How many of the years are this year and later; None means all.
    """
    counter = _Counter(day, season, years)
    reviewed = [
        pollen_plant for pollen_plant in map(counter.plant, counter.alive) if is_asked(pollen_plant.genotype)
    ]
    for plant in counter.to_come:
        counter.planned(plant)
    for neighbour in day.garden.neighbours:
        counter.neighbour(neighbour)
    counter.wild_kin()
    return CrossGroups(
        by_name=counter.groups, reviewed=tuple(reviewed), years=years, ahead=ahead or len(years)
    )


def chances_of_flowering(day: GardenDay, season: FloweringSeason) -> dict[str, float]:
    """Likely chance that each living plant is old enough to flower in a season, by plant id.

    Those planted only later have none.

    Quicker than asking plant by plant: like plants of one planting year are worked out once.
    """
    years = np.array([season.year], dtype=np.int64)
    counter = _Counter(day, season, years)
    chances = {plant.id: float(counter.flowering(plant)[1, 0]) for plant in counter.alive}
    return chances | {plant.id: 0.0 for plant in counter.to_come}


class _Counter:
    """Goes round the garden once; what many plants share is worked out once."""

    def __init__(self, day: GardenDay, season: FloweringSeason, years: NDArray[np.int64]) -> None:
        self.day, self.season, self.years = day, season, years
        garden = day.garden
        living = [plant for plant in garden.plants if plant.state not in DEAD]
        this_year, southern = int(years[0]), garden.place.southern
        self.alive = [plant for plant in living if is_planted(plant, this_year, southern=southern)]
        self.to_come = [plant for plant in living if not is_planted(plant, this_year, southern=southern)]
        self.groups: dict[str, CrossGroup] = {}
        self._genotypes: dict[tuple[Any, ...], Genotype] = {}
        self._ages: dict[tuple[Any, ...], FloweringAge] = {}
        self._chances: dict[tuple[Any, ...], FloatArray] = {}

    def plant(self, plant: Plant) -> PollenPlant:
        """Enter a plant, its grafted branches and, where several stand together, its fellows."""
        genotype, age = self._genotype(plant), self._age(plant)
        main = PollenPlant(
            label=plant.id, plant=plant, genotype=genotype, point=plant.point, age=age,
            flowering=self._flowering(plant, age), bloom=self._bloom(plant.id),
        )  # fmt: skip
        group = self._group(genotype)
        if is_asked(genotype) and not needs_none(genotype, self.day.numbers):
            group.recipients.append(main)
        group.donors.append(main)
        group.donors.extend(self._branch(main, name) for name in plant.also_bears)
        if plant.count > 1 and genotype.likeness != "named":
            group.donors.append(
                PollenPlant(
                    label=plant.id, plant=plant, genotype=genotype, point=plant.point, age=age,
                    flowering=main.flowering, bloom=main.bloom, fellows=True,
                )
            )  # fmt: skip
        return main

    def planned(self, plant: Plant) -> None:
        """Enter a plant of a later year, which gives pollen once it stands and has grown up."""
        genotype, age = self._genotype(plant), self._age(plant)
        first = (plant.year or 0) - self.day.garden.place.southern
        flowering = np.where(self.years >= first, self._flowering(plant, age), 0.0)
        self._group(genotype).donors.append(
            PollenPlant(
                label=plant.id, plant=plant, genotype=genotype, point=plant.point, age=age,
                flowering=flowering, bloom=self._bloom_by_another(genotype), to_come=True,
            )
        )  # fmt: skip

    def wild_kin(self) -> None:
        """Enter, for kinds that stand in every hedge here, a wild one as far off as hedges mostly are."""
        asked = (
            tree.kind for group in self.groups.values() for tree in group.recipients if _has_wild_kin(tree)
        )
        here = dict.fromkeys(kind.name for kind in asked if grows_wild(kind, self.day.garden.place))
        metres = self.day.numbers["partner_wild_kin_m"]
        for kind in here:
            self.neighbour(Neighbour(kind=kind, how_far_m=metres), wild=True)

    def neighbour(self, neighbour: Neighbour, *, wild: bool = False) -> None:
        """Enter a plant over the fence, which may be a wild one."""
        library = self.day.library
        kind = library.match(neighbour.kind).kind
        genotype = neighbour_genotype(neighbour, kind, library, wild=wild)
        age, flowering = None, np.repeat(np.array(NEIGHBOUR_FLOWERS)[:, None], len(self.years), axis=1)
        if neighbour.year is not None:
            stand_in = Plant(kind=neighbour.kind, cultivar=neighbour.cultivar, year=neighbour.year)
            age = self._age(stand_in)
            flowering = self._flowering(stand_in, age)
        whose = "a wild" if wild else "the neighbour's"
        pollen_plant = PollenPlant(
            label=f"{whose} {genotype.cultivar or kind.name}", plant=None, genotype=genotype,
            point=neighbour.point, age=age, flowering=flowering, metres=neighbour.how_far_m,
            bloom=self._bloom_by_another(genotype),
        )  # fmt: skip
        self._group(genotype).donors.append(pollen_plant)

    def flowering(self, plant: Plant) -> FloatArray:
        """Low, likely and high chance of useful flowers in each year, (3, years)."""
        return self._flowering(plant, self._age(plant))

    def _branch(self, main: PollenPlant, name: str) -> PollenPlant:
        assert main.plant is not None
        genotype = grafted_genotype(self.day.specimen(main.plant), name)
        return PollenPlant(
            label=main.label, plant=main.plant, genotype=genotype, point=main.point, age=main.age,
            flowering=main.flowering, bloom=_shifted(main, genotype), branch=True,
        )  # fmt: skip

    def _genotype(self, plant: Plant) -> Genotype:
        kind = self.day.kind(plant)
        key = (
            kind.name, plant.cultivar, plant.sex, plant.flower_order, plant.s_alleles,
            raised_how(plant, kind)[0] == "seedling",
        )  # fmt: skip
        if key not in self._genotypes:
            self._genotypes[key] = genotype_of(self.day.specimen(plant))
        return self._genotypes[key]

    def _age(self, plant: Plant) -> FloweringAge:
        kind = self.day.kind(plant)
        shaded = shade_delay(kind, self.season.light.get(plant.id), self.day.numbers)
        key = (kind.name, plant.cultivar is None, plant.rootstock, *raised_how(plant, kind), shaded)
        if key not in self._ages:
            self._ages[key] = flowering_age(self.day.specimen(plant), shaded)
        return self._ages[key]

    def _flowering(self, plant: Plant, age: FloweringAge) -> FloatArray:
        first, barren = (
            self.season.observed.first.get(plant.id),
            self.season.observed.none.get(plant.id, frozenset()),
        )
        key = (age, plant.year, plant.age_when_planted, first, barren)
        if key not in self._chances:
            self._chances[key] = flowering_chance(
                plant, age, self.years, first_bloom=first, no_bloom=barren, numbers=self.day.numbers
            )
        return self._chances[key]

    def _bloom(self, plant_id: str) -> tuple[FloatArray, FloatArray] | None:
        forecast = self.season.forecasts.get(plant_id)
        return (forecast.first_open, forecast.end) if forecast and forecast.told else None

    def _group(self, genotype: Genotype) -> CrossGroup:
        return self.groups.setdefault(genotype.cross_group, CrossGroup(genotype.cross_group))

    def _bloom_by_another(self, genotype: Genotype) -> tuple[FloatArray, FloatArray] | None:
        """When a plant without a forecast blooms, by the first of its kind here that has one."""
        donors = self._group(genotype).donors
        like = next((b for b in donors if b.kind.name == genotype.kind.name and b.bloom), None)
        return _shifted(like, genotype) if like else None


def _shifted(like: PollenPlant, genotype: Genotype) -> tuple[FloatArray, FloatArray] | None:
    """The bloom of another cultivar, as many days before or after as the library sets them apart."""
    if like.bloom is None:
        return None
    days = genotype.bloom_offset_days - like.genotype.bloom_offset_days
    return like.bloom[0] + days, like.bloom[1] + days


def crossing_plants(day: GardenDay, trees: Collection[str]) -> frozenset[str]:
    """Ids of some trees and of all plants that may give them pollen or take theirs."""
    groups = {plant.id: frozenset(_groups_of(day, plant)) for plant in day.garden.plants}
    theirs = frozenset(group for tree in trees for group in groups[tree])
    served = {group for pair in day.library.crosses if pair & theirs for group in pair}
    return frozenset(plant for plant, own in groups.items() if own & (theirs | served))


def _groups_of(day: GardenDay, plant: Plant) -> Iterator[str]:
    """The groups of a plant and of what is grafted on it."""
    specimen = day.specimen(plant)
    yield genotype_of(specimen).cross_group
    yield from (grafted_genotype(specimen, name).cross_group for name in plant.also_bears)


def _has_wild_kin(tree: PollenPlant) -> bool:
    """Whether wild kin stand about a tree where they grow.

    Of some kinds only about one raised from seed, or of a cultivar whose growers count on them.
    """
    named = tree.kind.cultivars.get(tree.genotype.cultivar or "")
    counted_on = named is not None and value_of(named.wild_kin_serve, False)
    of_seed = tree.genotype.likeness == "own" and tree.kind.has(KIN_OF_SEEDLINGS)
    return tree.kind.has(WILD_KIN) or of_seed or counted_on
