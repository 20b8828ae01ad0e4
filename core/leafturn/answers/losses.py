"""What was lost, when, and to what."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Iterable

from leafturn.base.name_order import name_order
from leafturn.base.value import Value
from leafturn.garden.model import Garden, Plant
from leafturn.journal.entries import Entry, LossNote, PlantedNote
from leafturn.journal.noted import of_kind

NOT_SAID = "cause not noted"


class Lost(Value):
    """A plant that is no more.

    Parameters
    ----------
    plant : str
        As the note or the garden file names it.
    kind : str
        Empty where the garden file no longer holds it.
    planted : int or None
        Year it was planted.
    on : date or None
        The day its loss was noted; None where only the garden file says it is gone.
    cause, text : str
        What took it, and the words of the note; may be empty.
    """

    plant: str
    kind: str = ""
    planted: int | None = None
    on: dt.date | None = None
    cause: str = ""
    text: str = ""

    @property
    def years(self) -> str:
        """From when to when it stood: "1928 to 2031", "until 2024"; empty if neither is known."""
        if self.planted and self.on:
            return f"{self.planted} to {self.on.year}"
        if self.on:
            return f"until {self.on.year}"
        return f"from {self.planted}" if self.planted else ""


def losses(garden: Garden, entries: Iterable[Entry]) -> tuple[Lost, ...]:
    """Every loss noted, the oldest first, then plants the garden file calls gone without a note.

    Parameters
    ----------
    garden : Garden
    entries : iterable of Entry
        Notes not taken back.
    """
    notes = list(entries)
    planted = {e.plant: e.on.year for e in of_kind(notes, PlantedNote) if e.plant}
    noted = [
        _lost(e, garden.plant(e.plant), planted.get(e.plant)) for e in of_kind(notes, LossNote) if e.plant
    ]
    named = {lost.plant for lost in noted}
    silent = [
        Lost(plant=p.id, kind=p.kind, planted=p.year)
        for p in garden.plants
        if p.state == "gone" and p.id not in named
    ]
    return (*sorted(noted, key=lambda lost: (lost.on or dt.date.min, name_order(lost.plant))), *silent)


def _lost(note: LossNote, plant: Plant | None, planted: int | None) -> Lost:
    year = plant.year if plant and plant.year else planted
    return Lost(
        plant=note.plant or "",
        kind=plant.kind if plant else "",
        planted=None if year is not None and year > note.on.year else year,  # later: of one planted since
        on=note.on,
        cause=note.cause or "",
        text=note.text or "",
    )


def by_cause(causes: Iterable[str]) -> tuple[tuple[str, int], ...]:
    """Causes of losses, empty where none was noted, with how many each took, the commonest first."""
    counted = Counter(cause.strip().lower() or NOT_SAID for cause in causes)
    return tuple(sorted(counted.items(), key=lambda pair: (-pair[1], pair[0])))
