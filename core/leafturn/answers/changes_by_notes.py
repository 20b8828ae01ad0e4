"""What the garden file could say of a plant, so that it agrees with what was noted."""

from __future__ import annotations

from typing import Any

from leafturn.garden.model import Plant

KEYS = ("year", "age_when_planted", "height_m", "crown_m", "trunk_cm", "lean", "guard", "plan", "state")
_DEFAULTS = {"state": "well", "age_when_planted": 0.0}  # what is not written


def changes_by_notes(in_file: Plant, noted: Plant) -> dict[str, Any]:
    """The keys of the file's plant that notes have overtaken, with their new values; None takes a key away.

    Parameters
    ----------
    in_file : Plant
        As the file has it.
    noted : Plant
        As notes leave it (`leafturn.season.garden_with_notes`).
    """
    changed = {key: getattr(noted, key) for key in KEYS if getattr(noted, key) != getattr(in_file, key)}
    return {key: None if value == _DEFAULTS.get(key) else value for key, value in changed.items()}
