"""Crown assessments from the journal, and branches that wind broke off."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from leafturn.canopy.decline.trend import CrownAssessment
from leafturn.journal.entries import CrownNote, DamageNote, Entry
from leafturn.journal.noted import of_kind


def crown_assessments(entries: Sequence[Entry]) -> dict[str, list[CrownAssessment]]:
    """Looks at crowns by plant, oldest first."""
    found: dict[str, list[CrownAssessment]] = {}
    for note in sorted(of_kind(entries, CrownNote), key=lambda note: note.on):
        assessment = CrownAssessment(on=note.on, live_percent=note.live_percent)
        found.setdefault(note.plant, []).append(assessment)
    return found


def storm_damage(entries: Sequence[Entry], on: dt.date) -> set[str]:
    """Plants off which wind broke something within the year past."""
    return {
        e.plant
        for e in of_kind(entries, DamageNote)
        if e.plant and 0 <= (on - e.on).days <= 366 and (e.wind or e.cause == "wind")
    }
