"""When plants were first picked in past seasons, by the notes of harvests."""

from __future__ import annotations

import math
from collections.abc import Iterable

from leafturn.journal.entries import Entry, HarvestNote
from leafturn.journal.noted import of_kind
from leafturn.season.axis import SeasonAxis


def first_harvests(entries: Iterable[Entry], axis: SeasonAxis) -> dict[str, dict[int, float]]:
    """Day of the first harvest of each plant in each season before this one [day number of that axis]."""
    found: dict[str, dict[int, float]] = {}
    for entry in of_kind(entries, HarvestNote):
        if entry.plant is None:
            continue
        held = SeasonAxis.holding(entry.on, axis.southern)
        if held.year < axis.year:
            seasons = found.setdefault(entry.plant, {})
            day = float(held.day(entry.on))
            seasons[held.year] = min(day, seasons.get(held.year, math.inf))
    return found
