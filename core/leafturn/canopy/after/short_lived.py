"""Plants near the end of their kind's life, and when to raise new ones."""

from __future__ import annotations

from collections.abc import Collection

from leafturn.canopy.stand.stand import Stand
from leafturn.kinds.model import Kind

_YEARS_LEFT = 10  # guess: for so long one plans ahead for what replaces it
# A patch of these goes on by offsets and seed when its first plants are gone; common knowledge, no source.
_PATCHES = ("bulb", "fern")
_USUAL_YEARS = 2.0  # from raising a plant to its crop where the library tells nothing; a guess


def short_lived(stand: Stand, old_trees: Collection[int]) -> list[str]:
    """A sentence for every plant, old trees apart, likely to be lost of age within ten years, soonest first.

    Of kinds that the library knows not, nothing is told: how long they live is not known.

    Parameters
    ----------
    stand : Stand
    old_trees : collection of int
        Numbers of the old trees, of which more is told elsewhere.
    """
    soon = []
    for n, plant in enumerate(stand.plants):
        kind, age = stand.kinds[n], plant.age(stand.year)
        life = kind.size.life_years
        if n in old_trees or life is None or age is None:
            continue
        if kind.habit in _PATCHES or kind.name not in stand.library.kinds:
            continue
        left = life.value - age
        if left <= _YEARS_LEFT:
            start = stand.year + int(left) - _years_to_crop(kind)
            when = "now" if start <= stand.year else f"by {start}"
            said = f"{plant.id}: {age:.0f} years old, its kind lives about {life.value:.0f}"
            soon.append((left, f"{said}; raise new ones {when}"))
    return [words for _, words in sorted(soon)]


def _years_to_crop(kind: Kind) -> int:
    """Years from raising a new one to its first crop, by the quickest way the library knows."""
    ways = [kind.age.cutting_years, kind.age.grafted_years, kind.age.seedling_years]
    return round(min((fact.value for fact in ways if fact is not None), default=_USUAL_YEARS))
