"""One plant together with what the library knows of it: kind, cultivar and rootstock."""

from __future__ import annotations

from functools import cached_property

from leafturn.base.closed_words import Sex
from leafturn.base.value import Value
from leafturn.garden.model import Plant
from leafturn.kinds.fact import value_of
from leafturn.kinds.library import Library, Match
from leafturn.kinds.model import Cultivar, Juglone, Kind, Rootstock

# From here on what grows is a tree and no shrub: taller than 6 m (usual in botany, recalled), or with a stem
# that no shrub has, a guess.
_TREE_M = 6.0
_TREE_TRUNK_CM = 20.0

NOTHING_OF_ITS_OWN = Cultivar()

Sort = tuple[str, str | None, Sex | None]
"""What plants share that flower and ripen alike by all that is known: kind, cultivar and sex."""


class Specimen(Value, eq=False, kw_only=False):
    """A plant with its kind; its cultivar and its rootstock are looked up when first asked for.

    Parameters
    ----------
    library : Library
        Knows cultivars and rootstocks by the names in the garden file.
    """

    plant: Plant
    kind: Kind
    library: Library

    @cached_property
    def cultivar(self) -> tuple[str, Cultivar] | None:
        """The cultivar by its name in the library, with its facts; None where unknown or unnamed."""
        return self.library.cultivar(self.kind, self.plant.cultivar)

    @property
    def sex(self) -> Sex | None:
        """What the garden file says of it, else the cultivar's; None where neither does."""
        return sex_of(self.plant.sex, self.own)

    @property
    def sort(self) -> Sort:
        """Its kind, its cultivar as the library or else the garden file names it, and its sex."""
        named = self.cultivar[0] if self.cultivar else self.plant.cultivar
        return self.kind.name, named, self.sex

    @property
    def own(self) -> Cultivar:
        """What its cultivar does otherwise than its kind: nothing where that is unknown or unnamed."""
        return self.cultivar[1] if self.cultivar else NOTHING_OF_ITS_OWN

    @cached_property
    def rootstock(self) -> Rootstock | None:
        """What it is grafted on; None where unknown or unnamed."""
        return self.library.rootstock(self.plant.rootstock, self.kind) if self.plant.rootstock else None

    @property
    def juglone(self) -> Juglone | None:
        """Whether its roots give off juglone, its own or those of its stock, or how it bears that of others.

        None where nobody tells.
        """
        stock = self.rootstock
        if stock is not None and stock.juglone is not None:
            return stock.juglone.value
        return value_of(self.kind.soil.juglone, None)


def sex_of(own: Sex | None, cultivar: Cultivar | None) -> Sex | None:
    """The sex that a garden file states, else that of the cultivar; None where neither is told."""
    fact = cultivar.sex if cultivar else None
    return own or (fact.value if fact else None)


def specimen_of(plant: Plant, library: Library) -> Specimen:
    """A plant with its kind as the library has it; a kind nobody knows is one of guesses."""
    return Specimen(plant, match_of(plant, library).kind, library)


def named(who: str, kind: str) -> str:
    """A plant's id, or several, with the kind behind it where that tells more: "aronia-1 (chokeberry)"."""
    return who if kind in (who, who.replace("-", " ")) else f"{who} ({kind})"


def match_of(plant: Plant, library: Library) -> Match:
    """What the library knows of a plant's kind; of one nobody knows, what its own figures tell it to be.

    What climbs a host is a climber, and what has grown as a tree does falls and shades as one, whatever its
    name.
    """
    match = library.match(plant.kind)
    if match.kind.name in library.kinds:
        return match
    if match.kind.habit != "climber":
        tall = plant.height_m is not None and plant.height_m > _TREE_M
        if tall or (plant.trunk_cm is not None and plant.trunk_cm >= _TREE_TRUNK_CM):
            return match if match.kind.habit == "tree" else library.match(plant.kind, "tree")
        if plant.host is not None and match.kind.habit == "shrub":
            return library.match(plant.kind, "climber")
    return match
