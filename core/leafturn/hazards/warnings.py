"""Plants of the garden that are poisonous, hurt the skin, or bear nuts, which some people must not touch."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from leafturn.base.value import Value
from leafturn.garden.model import Plant
from leafturn.kinds.model import Kind
from leafturn.kinds.specimen import named
from leafturn.kinds.word_lists import traits
from leafturn.season.garden_day import GardenDay

Matter = Literal["poisonous", "irritant", "nut allergy"]
NUTS = "Nut allergy is common and can kill: label what you share, and say so to who picks."
_NO_TREE_NUT = "Ginkgoaceae"  # its kernels are poisonous first of all


class Warned(Value):
    """What is to be warned of, the kind (empty for nuts of several kinds), its plants, and the warning.

    `words` are the warning without the names of the plants.
    """

    matter: Matter
    kind: str
    plants: tuple[str, ...]
    words: str
    says: str


def warnings_of(day: GardenDay) -> Iterator[Warned]:
    """Poisonous kinds, then those that hurt the skin, each in the order of the garden file; nuts last."""
    standing = [(plant, day.kind(plant)) for plant in day.garden.plants if plant.state != "gone"]
    kinds = {kind.name: kind for _, kind in standing}
    for matter in ("poisonous", "irritant"):
        for name, kind in kinds.items():
            if kind.has(matter) and not (matter == "irritant" and kind.has("poisonous")):
                yield _of_kind(matter, kind, [plant for plant, other in standing if other.name == name])
    nuts = [plant.id for plant, kind in standing if _bears_nuts(kind)]
    if nuts:
        yield Warned(
            matter="nut allergy", kind="", plants=tuple(nuts), words=NUTS, says=f"{', '.join(nuts)}: {NUTS}"
        )


def _of_kind(matter: Literal["poisonous", "irritant"], kind: Kind, plants: list[Plant]) -> Warned:
    names = tuple(plant.id for plant in plants)
    cautions = " ".join(caution.value for caution in kind.cautions)
    said = cautions or f"{traits()[matter].capitalize()}."
    return Warned(
        matter=matter,
        kind=kind.name,
        plants=names,
        words=said,
        says=f"{named(', '.join(names), kind.name)}: {said}",
    )


def _bears_nuts(kind: Kind) -> bool:
    part = kind.harvest.part
    return part is not None and part.value == "nut" and kind.family != _NO_TREE_NUT
