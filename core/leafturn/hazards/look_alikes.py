"""Plants that are picked and mistaken for poisonous ones, and what to mind while picking."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from leafturn.base.value import Value
from leafturn.garden.model import Plant
from leafturn.kinds.specimen import named
from leafturn.season.garden_day import GardenDay


class LookAlike(Value):
    """A plant that is picked and mistaken for poisonous ones; `here` are poisonous plants of the garden."""

    plant: str
    kind: str
    cautions: tuple[str, ...]
    here: tuple[str, ...]
    says: str


def poisonous(day: GardenDay) -> list[Plant]:
    """Plants of the garden that are poisonous, or have parts that are."""
    return [p for p in day.garden.plants if p.state != "gone" and day.kind(p).has("poisonous")]


def look_alikes_of(day: GardenDay) -> Iterator[LookAlike]:
    """Every plant that is mistaken for poisonous ones, in the order of the garden file."""
    herbs = poisonous_herbs(day)
    for plant in day.garden.plants:
        kind = day.kind(plant)
        if plant.state == "gone" or not kind.has("poisonous look-alikes"):
            continue
        here = tuple(other for other in herbs if other != plant.id)
        grow = f" {_grow_here(here)}" if here else ""
        says = f"{named(plant.id, kind.name)} can be mistaken for poisonous plants.{grow}"
        yield LookAlike(
            plant=plant.id,
            kind=kind.name,
            cautions=tuple(c.value for c in kind.cautions),
            here=here,
            says=says,
        )


def picking_cautions(plants: Iterable[Plant], day: GardenDay, herbs: Sequence[str]) -> Iterator[str]:
    """What the library says to mind of plants picked, each once, and what poisonous grows beside them.

    Parameters
    ----------
    plants : iterable of Plant
        Those picked in one job.
    herbs : sequence of str
        The garden's `poisonous_herbs`.
    """
    picked = list(plants)
    yield from dict.fromkeys(caution.value for plant in picked for caution in day.kind(plant).cautions)
    mistaken = [plant for plant in picked if day.kind(plant).has("poisonous look-alikes")]
    alone = mistaken[0].id if len(mistaken) == 1 else None
    here = tuple(other for other in herbs if mistaken and other != alone)
    if here:
        yield _grow_here(here)


def poisonous_herbs(day: GardenDay) -> tuple[str, ...]:
    """Poisonous plants of the garden in its lower layers, by id."""
    return tuple(p.id for p in poisonous(day) if day.kind(p).layer in ("herb", "ground"))


def _grow_here(plants: tuple[str, ...]) -> str:
    return f"Poisonous plants that grow here: {', '.join(plants)}."
