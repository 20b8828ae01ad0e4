"""Within which a date, a distance or a temperature that someone wrote is believed. Beyond it is a slip."""

from __future__ import annotations

import datetime as dt

# Daily records of most places begin after 1850; nobody notes for a day after 2200. Both are guesses.
# What lies outside would lay out centuries of empty days.
FIRST_YEAR, LAST_YEAR = 1850, 2200
# The lowest and highest ever measured are -89.2 and 56.7 degC (WMO Archive of Weather and Climate Extremes,
# from memory).
COLDEST_AIR_C, HOTTEST_AIR_C = -90.0, 60.0
FARTHEST_M = 10_000  # east or north of the gate: nobody paces farther; a guess


def is_believed(day: dt.date) -> bool:
    """Whether a day may stand in a note or a weather file."""
    return FIRST_YEAR <= day.year <= LAST_YEAR
