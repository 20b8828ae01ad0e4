"""What the journal tells of crowns: looks at them, and what wind broke off."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from leafturn.canopy.decline.trend import CrownLook
from leafturn.journal.entries import Entry


def crown_looks(entries: Sequence[Entry]) -> dict[str, list[CrownLook]]:
    """Looks at crowns by plant, oldest first."""
    found: dict[str, list[CrownLook]] = {}
    for entry in sorted(entries, key=lambda e: e.on):
        if entry.what == "crown" and entry.plant and entry.live_percent is not None:
            look = CrownLook(on=entry.on, live_percent=entry.live_percent)
            found.setdefault(entry.plant, []).append(look)
    return found


def storm_damage(entries: Sequence[Entry], on: dt.date) -> set[str]:
    """Plants off which wind broke something within the year past."""
    return {
        e.plant
        for e in entries
        if e.what == "damage" and e.plant and 0 <= (on - e.on).days <= 366 and (e.wind or e.cause == "wind")
    }
