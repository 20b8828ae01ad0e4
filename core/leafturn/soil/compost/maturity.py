"""Whether a heap is ripe: it was hot, was turned, and no longer warms itself."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Callable, Sequence

from leafturn.base import day_words, quantities
from leafturn.base.arrays import medians
from leafturn.base.value import Value
from leafturn.season.ensemble import Ensemble

# A heap within this of the air no longer heats itself (Cornell and NRAES-54 self-heating test: a rise of
# less than 10 degC is finished compost; recalled).
WITHIN_C = 10.0
LOOKS = 2  # rule of thumb: one cool reading may be a cold corner
# A heap that never reached the range of heat-loving bacteria, 45 degC and more (extension advice, read), has
# not worked and cooled: being as cool as the air shows nothing of it.
WORKED_C = 45.0


class Maturity(Value):
    """Whether a heap is ripe by its latest readings beside the air, and why."""

    mature: bool
    says: str


def air_of(ensemble: Ensemble) -> Callable[[dt.date], float]:
    """The air's mean temperature on a day of a season [degC], the median of its members; NaN outside it."""
    means = medians(ensemble.tmean, axis=0)

    def air_c(date: dt.date) -> float:
        number = ensemble.axis.day(date)
        return float(means[number]) if 0 <= number < len(means) else float("nan")

    return air_c


def maturity(
    readings: Sequence[tuple[dt.date, float]], air_c: Callable[[dt.date], float], since: dt.date | None
) -> Maturity:
    """Judge a heap by its latest readings.

    Parameters
    ----------
    readings : sequence of (date, degC)
        Oldest first.
    air_c : callable
        Mean temperature of the air on a day [degC]; NaN where not known.
    since : date or None
        Cool looks count after it: when a working heap was last turned, for one that lacks air cools too, and
        only one that stays cool when turned is ripe. None: none counts yet, as it was never turned.
    """
    if not readings:
        return Maturity(mature=False, says="No temperature is noted, so its ripeness is not known.")
    day, celsius = readings[-1]
    gap = celsius - air_c(day)
    if math.isnan(gap):
        return Maturity(mature=False, says=f"The air on {day_words.day(day)} is not known.")
    looks = 0
    for date, warmth in reversed(readings):
        if not warmth - air_c(date) < WITHIN_C or since is None or date <= since:
            break
        looks += 1
    off = quantities.degrees(abs(gap), 0)
    side = f"{off} {'above' if gap >= 0 else 'below'} the air on {day_words.day(day)}"
    if max(warmth for _, warmth in readings) < WORKED_C:
        never = (
            f"no reading of {quantities.celsius(WORKED_C, 0)} or more is noted, so its coolness shows nothing"
        )
        return Maturity(mature=False, says=f"Not shown to be ripe: {side}; {never}.")
    if looks >= LOOKS:
        return Maturity(mature=True, says=f"Ripe by its warmth: {side}, {looks} looks running.")
    turn = "" if since == dt.date.min else " after a turn"
    wanted = f"ripe is less than {quantities.degrees(WITHIN_C, 0)} above it, {LOOKS} looks running{turn}"
    return Maturity(mature=False, says=f"Not shown to be ripe: {side}; {wanted}.")
