"""Pollen donors and recipients: a value for each genotype that flowers, and the groups that can cross."""

from __future__ import annotations

import numpy as np
from msgspec import field
from numpy.typing import NDArray

from leafturn.base.arrays import FloatArray
from leafturn.base.value import Value
from leafturn.garden.model import Plant, Point
from leafturn.kinds.model import Kind
from leafturn.partners.bloom_overlap.flowering_age import FloweringAge
from leafturn.partners.genetics.compatibility import Crosses
from leafturn.partners.genetics.genotype import Genotype


class PollenPlant(Value, eq=False):
    """One genotype that flowers: a plant, a branch grafted on it, or a neighbour's plant.

    Parameters
    ----------
    label : str
        The plant's id, or words for what has none.
    plant : Plant or None
        None over the fence.
    flowering : (3, years) array
        Low, likely and high chance of useful flowers, this year first.
    bloom : (first open, end) or None
        Each (draws,) day numbers; None where no forecast is to be had.
    metres : float or None
        Distance of a neighbour's plant as guessed; its `point` counts where it is given.
    branch : bool
        Whether it is a grafted branch.
    fellows : bool
        Whether it stands for the rest of the plants that are entered together.
    to_come : bool
        Whether it is only to be planted in a later year.
    """

    label: str
    plant: Plant | None
    genotype: Genotype
    point: Point | None
    flowering: FloatArray
    bloom: tuple[FloatArray, FloatArray] | None
    age: FloweringAge | None = None
    metres: float | None = None
    branch: bool = False
    fellows: bool = False
    to_come: bool = False

    @property
    def kind(self) -> Kind:
        """The plant's kind."""
        return self.genotype.kind

    @property
    def count(self) -> int:
        """How many plants it stands for."""
        return self.plant.count if self.plant else 1


class CrossGroup(Value, eq=False, kw_only=False):
    """The plants that can fertilise one another."""

    name: str
    recipients: list[PollenPlant] = field(default_factory=list)
    donors: list[PollenPlant] = field(default_factory=list)


class CrossGroups(Value, eq=False):
    """All groups, and the plants in garden order that the review must answer for.

    Of `years` the first `ahead` are this year and those to come, the rest past years with notes.
    """

    by_name: dict[str, CrossGroup]
    reviewed: tuple[PollenPlant, ...]
    years: NDArray[np.int64]
    ahead: int

    def with_crosses(self, group: CrossGroup, crosses: Crosses) -> CrossGroup:
        """A group joined by the donors of other groups whose pollen serves it in part."""
        others = [
            donor
            for name, other in self.by_name.items()
            if name != group.name and frozenset((name, group.name)) in crosses
            for donor in other.donors
            if not donor.fellows
        ]
        return CrossGroup(group.name, group.recipients, [*group.donors, *others]) if others else group
