"""Whether a heap is ripe: it no longer warms itself."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from leafturn.base import day_words

# A heap within this of the air no longer heats itself (Cornell and NRAES-54 self-heating test: a rise of
# less than 10 degC is finished compost; recalled).
WITHIN_C = 10.0
LOOKS = 2  # rule of thumb: one cool reading may be a cold corner


@dataclass(frozen=True, kw_only=True)
class Maturity:
    """How many of the latest readings in a row were within 10 degC of the air, and what that means."""

    looks: int
    mature: bool
    says: str


def maturity(readings: Sequence[tuple[dt.date, float]], air_c: Callable[[dt.date], float]) -> Maturity:
    """Judge a heap by its latest readings.

    Parameters
    ----------
    readings : sequence of (date, degC)
        Oldest first.
    air_c : callable
        Mean temperature of the air on a day [degC]; NaN where not known.
    """
    gaps = [(day, celsius - air_c(day)) for day, celsius in readings]
    looks = 0
    for _, gap in reversed(gaps):
        if not gap < WITHIN_C:
            break
        looks += 1
    mature = looks >= LOOKS
    if not gaps:
        return Maturity(looks=0, mature=False, says="No temperature is noted, so its ripeness is not known.")
    day, gap = gaps[-1]
    if gap != gap:
        return Maturity(looks=0, mature=False, says=f"The air on {day_words.day(day)} is not known.")
    side = f"{abs(gap):.0f} C {'above' if gap >= 0 else 'below'} the air on {day_words.day(day)}"
    if mature:
        return Maturity(looks=looks, mature=True, says=f"Ripe by its warmth: {side}, {looks} looks running.")
    wanted = f"ripe is less than {WITHIN_C:.0f} C above it, {LOOKS} looks running"
    return Maturity(looks=looks, mature=False, says=f"Not shown to be ripe: {side}; {wanted}.")
