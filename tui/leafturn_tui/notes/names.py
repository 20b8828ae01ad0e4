"""Plants and heaps as people name them in a note."""

from __future__ import annotations

from leafturn.base.faults import clipped, did_you_mean, nearest_word
from leafturn.garden.model import Garden
from leafturn_tui.notes import NotUnderstood


def plant_id(word: str, garden: Garden) -> str:
    """The id of the plant that a word names.

    Raises
    ------
    NotUnderstood
        If it names none, with the nearest there is.
    """
    return _known(word, {p.id: p.name for p in garden.plants}, "plant")


def heap_id(word: str, garden: Garden) -> str:
    """The id of the heap that a word names; raises as `plant_id` does."""
    return _known(word, {h.id: h.name for h in garden.heaps}, "heap")


def _known(word: str, names: dict[str, str | None], what: str) -> str:
    for known, name in names.items():
        if word.lower() in (known.lower(), (name or "").lower()):
            return known
    raise NotUnderstood(" ".join(f"no {what} {clipped(word)!r} here. {did_you_mean(word, names)}".split()))


def likely_plant(word: str, garden: Garden) -> bool:
    """Whether a word is the name of a plant, or was most likely meant for one."""
    return nearest_word(word, [x for p in garden.plants for x in (p.id, p.name) if x]) is not None


def is_name(word: str, garden: Garden) -> bool:
    """Whether a word is the name of a plant or heap."""
    plants = [x for p in garden.plants for x in (p.id, p.name)]
    heaps = [x for h in garden.heaps for x in (h.id, h.name)]
    return word.lower() in {(known or "").lower() for known in (*plants, *heaps)}
