"""One plant together with what the library knows of it: kind, cultivar and rootstock."""

from __future__ import annotations

from functools import cached_property

from leafturn.base.value import Value
from leafturn.garden.model import Plant
from leafturn.kinds.library import Library
from leafturn.kinds.model import Cultivar, Kind, Rootstock


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

    @cached_property
    def rootstock(self) -> Rootstock | None:
        """What it is grafted on; None where unknown or unnamed."""
        return self.library.rootstock(self.plant.rootstock, self.kind) if self.plant.rootstock else None


def specimen_of(plant: Plant, library: Library) -> Specimen:
    """A plant with its kind as the library has it; a kind nobody knows is one of guesses."""
    return Specimen(plant, library.match(plant.kind).kind, library)
