"""Two letters by which a plant is known on a plan."""

from __future__ import annotations

from collections.abc import Sequence


def codes(plants: Sequence[str]) -> dict[str, str]:
    """Two letters for each plant, each pair once: the first letters of its words if they can be had."""
    taken: dict[str, str] = {}
    for plant in plants:
        letters = [c for c in plant.lower() if c.isascii() and c.isalnum()] or ["p"]
        words = [w for w in plant.lower().split("-") if w and w[0].isascii() and w[0].isalnum()]
        wished = [words[0][0] + words[1][0]] if len(words) > 1 else []
        wished += [letters[0] + later for later in letters[1:]]
        wished += [letters[0] + c for c in "123456789abcdefghijklmnopqrstuvwxyz"]
        taken[plant] = next((w for w in wished if w not in taken.values()), "??")
    return taken
