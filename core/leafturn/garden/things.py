"""What stands in a garden by name, apart from the groups that jobs are done to, and who helps there."""

from __future__ import annotations

from leafturn.garden.model import Garden, Helper


def things_of(garden: Garden) -> frozenset[str]:
    """Ids of all plants and heaps."""
    return frozenset(plant.id for plant in garden.plants) | frozenset(heap.id for heap in garden.heaps)


def helper_named(garden: Garden, name: str) -> Helper | None:
    """The helper written down under a name, in whatever capitals, or None."""
    return next((one for one in garden.helpers if one.name.casefold() == name.casefold()), None)
