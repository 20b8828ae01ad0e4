"""What stands in a garden by name, apart from the groups that jobs are done to."""

from __future__ import annotations

from leafturn.garden.model import Garden


def things_of(garden: Garden) -> frozenset[str]:
    """Ids of all plants and heaps."""
    return frozenset(plant.id for plant in garden.plants) | frozenset(heap.id for heap in garden.heaps)
