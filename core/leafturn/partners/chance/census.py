"""Who stands in the garden and over the fence: who wants pollen, who gives it, and when they flower."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from types import MappingProxyType
from typing import Any

import numpy as np
from numpy.typing import NDArray

from leafturn.base.arrays import FloatArray
from leafturn.bloom.model import BloomForecast
from leafturn.garden.model import Garden, Neighbour, Plant
from leafturn.garden.reading.planted import is_planted
from leafturn.kinds.library import Library
from leafturn.kinds.model import Kind
from leafturn.partners.bloom_overlap.flowering_age import (
    FloweringAge,
    flowering_age,
    flowering_chance,
    shade_delay,
)
from leafturn.partners.chance.pollen_plants import Bearer, Census, CrossGroup
from leafturn.partners.genetics.genotype import (
    Genotype,
    genotype_of,
    grafted_genotype,
    neighbour_genotype,
    raised_how,
)
from leafturn.partners.genetics.self_fertility import is_asked, needs_none
from leafturn.partners.settings import DEFAULT, Settings

NO_LIGHT: Mapping[str, float] = MappingProxyType({})
GONE = ("gone", "dead standing")
NEIGHBOUR_FLOWERS = (0.5, 0.9, 1.0)  # guess: a plant seen over the fence is mostly a grown one


def take_census(
    garden: Garden,
    library: Library,
    forecasts: Mapping[str, BloomForecast],
    years: NDArray[np.int64],
    *,
    first_bloom: Mapping[str, int],
    no_bloom: Mapping[str, Collection[int]],
    settings: Settings,
    light: Mapping[str, float] = NO_LIGHT,
    ahead: int | None = None,
) -> Census:
    """Sort the garden's living plants and the neighbours' into groups that can cross.

    Parameters
    ----------
    garden, library, forecasts
    years : (years,)
        This year and those to look ahead to, then past years if any.
    first_bloom : mapping of plant id to the first year with flowers noted
    no_bloom : mapping of plant id to years noted without flowers
    settings : Settings
    light : mapping of plant id to light from May to September [% of open light]
        Plants with less than their kind needs flower later; those not in it have enough.
    ahead : int or None
        How many of the years are this year and later; None means all.
    """
    counter = _Counter(garden, library, forecasts, years, first_bloom, no_bloom, settings, light)
    asked = [bearer for bearer in map(counter.plant, counter.alive) if is_asked(bearer.genotype)]
    for neighbour in garden.neighbours:
        counter.neighbour(neighbour)
    return Census(groups=counter.groups, asked=tuple(asked), years=years, ahead=ahead or len(years))


def chances_of_flowering(
    garden: Garden,
    library: Library,
    year: int,
    *,
    first_bloom: Mapping[str, int],
    no_bloom: Mapping[str, Collection[int]],
    settings: Settings = DEFAULT,
    light: Mapping[str, float] = NO_LIGHT,
) -> dict[str, float]:
    """Likely chance that each living plant is old enough to flower in `year`, by plant id.

    Those planted only later have none.

    Quicker than asking plant by plant: like plants of one planting year are worked out once.
    """
    years = np.array([year], dtype=np.int64)
    counter = _Counter(garden, library, {}, years, first_bloom, no_bloom, settings, light)
    chances = {plant.id: float(counter.flowering(plant)[1, 0]) for plant in counter.alive}
    return chances | {plant.id: 0.0 for plant in counter.to_come}


class _Counter:
    """Goes round the garden once; what many plants share is worked out once."""

    def __init__(
        self,
        garden: Garden,
        library: Library,
        forecasts: Mapping[str, BloomForecast],
        years: NDArray[np.int64],
        first_bloom: Mapping[str, int],
        no_bloom: Mapping[str, Collection[int]],
        settings: Settings,
        light: Mapping[str, float],
    ) -> None:
        self.light = light
        self.library, self.forecasts, self.years = library, forecasts, years
        self.first_bloom, self.no_bloom, self.settings = first_bloom, no_bloom, settings
        living = [plant for plant in garden.plants if plant.state not in GONE]
        this_year, southern = int(years[0]), garden.place.southern
        self.alive = [plant for plant in living if is_planted(plant, this_year, southern=southern)]
        self.to_come = [plant for plant in living if not is_planted(plant, this_year, southern=southern)]
        self.groups: dict[str, CrossGroup] = {}
        self._kinds: dict[str, Kind] = {}
        self._genotypes: dict[tuple[Any, ...], Genotype] = {}
        self._ages: dict[tuple[Any, ...], FloweringAge] = {}
        self._chances: dict[tuple[Any, ...], FloatArray] = {}

    def plant(self, plant: Plant) -> Bearer:
        """Enter a plant, its grafted branches and, where several stand together, its fellows."""
        kind = self.kind(plant.kind)
        genotype = self._genotype(plant, kind)
        age = self._age(plant, kind)
        main = Bearer(
            label=plant.id, plant=plant, genotype=genotype, point=plant.point, age=age,
            flowering=self._flowering(plant, age), bloom=self._bloom(plant.id),
        )  # fmt: skip
        group = self._group(genotype)
        if is_asked(genotype) and not needs_none(genotype, self.settings):
            group.takers.append(main)
        group.givers.append(main)
        group.givers.extend(self._branch(main, name) for name in plant.also_bears)
        if plant.count > 1 and genotype.likeness != "named":
            group.givers.append(
                Bearer(
                    label=plant.id, plant=plant, genotype=genotype, point=plant.point, age=age,
                    flowering=main.flowering, bloom=main.bloom, fellows=True,
                )
            )  # fmt: skip
        return main

    def neighbour(self, neighbour: Neighbour) -> None:
        """Enter a plant over the fence."""
        kind = self.kind(neighbour.kind)
        genotype = neighbour_genotype(neighbour, kind, self.library)
        age, flowering = None, np.repeat(np.array(NEIGHBOUR_FLOWERS)[:, None], len(self.years), axis=1)
        if neighbour.year is not None:
            stand_in = Plant(kind=neighbour.kind, cultivar=neighbour.cultivar, year=neighbour.year)
            age = self._age(stand_in, kind)
            flowering = self._flowering(stand_in, age)
        like = next((b for b in self._givers(genotype) if b.kind.name == kind.name and b.bloom), None)
        bearer = Bearer(
            label=f"the neighbour's {genotype.cultivar or kind.name}", plant=None, genotype=genotype,
            point=neighbour.point, age=age, flowering=flowering, metres=neighbour.how_far_m,
            bloom=_shifted(like, genotype) if like else None,
        )  # fmt: skip
        self._group(genotype).givers.append(bearer)

    def flowering(self, plant: Plant) -> FloatArray:
        """Low, likely and high chance of useful flowers in each year, (3, years)."""
        return self._flowering(plant, self._age(plant, self.kind(plant.kind)))

    def kind(self, name: str) -> Kind:
        """The kind meant by a name in the garden file."""
        if name not in self._kinds:
            self._kinds[name] = self.library.match(name).kind
        return self._kinds[name]

    def _branch(self, main: Bearer, name: str) -> Bearer:
        assert main.plant is not None
        genotype = grafted_genotype(main.plant, name, main.kind, self.library)
        return Bearer(
            label=main.label, plant=main.plant, genotype=genotype, point=main.point, age=main.age,
            flowering=main.flowering, bloom=_shifted(main, genotype), branch=True,
        )  # fmt: skip

    def _genotype(self, plant: Plant, kind: Kind) -> Genotype:
        key = (
            kind.name, plant.cultivar, plant.sex, plant.flower_order, plant.s_alleles,
            raised_how(plant, kind)[0] == "seedling",
        )  # fmt: skip
        if key not in self._genotypes:
            self._genotypes[key] = genotype_of(plant, kind, self.library)
        return self._genotypes[key]

    def _age(self, plant: Plant, kind: Kind) -> FloweringAge:
        shaded = shade_delay(kind, self.light.get(plant.id), self.settings)
        key = (kind.name, plant.cultivar is None, plant.rootstock, *raised_how(plant, kind), shaded)
        if key not in self._ages:
            self._ages[key] = flowering_age(plant, kind, self.library, shaded)
        return self._ages[key]

    def _flowering(self, plant: Plant, age: FloweringAge) -> FloatArray:
        first, barren = self.first_bloom.get(plant.id), frozenset(self.no_bloom.get(plant.id, ()))
        key = (age, plant.year, plant.age_when_planted, first, barren)
        if key not in self._chances:
            self._chances[key] = flowering_chance(
                plant, age, self.years, first_bloom=first, no_bloom=barren, settings=self.settings
            )
        return self._chances[key]

    def _bloom(self, plant_id: str) -> tuple[FloatArray, FloatArray] | None:
        forecast = self.forecasts.get(plant_id)
        return (forecast.first_open, forecast.end) if forecast else None

    def _group(self, genotype: Genotype) -> CrossGroup:
        return self.groups.setdefault(genotype.cross_group, CrossGroup(genotype.cross_group))

    def _givers(self, genotype: Genotype) -> Iterable[Bearer]:
        return self._group(genotype).givers


def _shifted(like: Bearer, genotype: Genotype) -> tuple[FloatArray, FloatArray] | None:
    """The bloom of another cultivar, as many days before or after as the library sets them apart."""
    if like.bloom is None:
        return None
    days = genotype.bloom_offset_days - like.genotype.bloom_offset_days
    return like.bloom[0] + days, like.bloom[1] + days
