"""Plants of which just the same is known: what is foretold of one is foretold of all."""

from __future__ import annotations

from collections.abc import Hashable, Iterable

from leafturn.bloom.notes.observations import LEAF
from leafturn.bloom.notes.season_notes import SeasonNotes
from leafturn.bloom.ripening import Harvests
from leafturn.bloom.targets import Targets
from leafturn.garden.model import Plant


def first_alike(
    plants: Iterable[Plant], targets: Targets, notes: SeasonNotes, harvests: Harvests
) -> dict[str, str]:
    """By the id of each plant that of the first of them of which just the same is known."""
    firsts: dict[Hashable, str] = {}
    return {
        plant.id: firsts.setdefault(_known_of(plant, targets, notes, harvests), plant.id) for plant in plants
    }


def _known_of(plant: Plant, targets: Targets, notes: SeasonNotes, harvests: Harvests) -> Hashable:
    """What forecasts of a plant follow from: its kind, cultivar and sex, or by itself what is told of it."""
    is_told_of = (
        plant.opens is not None
        or notes.observed(plant.id)
        or any(notes.of(target) for target in (plant.id, plant.id + LEAF))
        or harvests.taught(plant)
    )
    if is_told_of:
        return plant.id
    return targets.day.specimen(plant).sort
