"""How long a heap was hot, counted as the rule for composted sewage sludge counts it.

Notes
-----
40 CFR 503 Appendix B (B)(1), from memory of the text: in a vessel or a still aerated pile 55 degC or
higher for three days; in windrows 55 degC or higher for 15 days or longer, turned at least five times in
that time. The rule is written for works that measure daily; a garden heap is measured now and then, at
one spot, so what is told here is a count and never a promise about what is in the heap.
"""

from __future__ import annotations

import datetime as dt
import itertools
from collections.abc import Iterable, Sequence

from leafturn.base.value import Value

HOT_C = 55.0
WINDROW_DAYS, WINDROW_TURNS = 15, 5
VESSEL_DAYS = 3
BRIDGED_DAYS = 4  # guess: between two hot readings no further apart than this the heap stayed hot

Reading = tuple[dt.date, float]


class HotDays(Value):
    """Days at 55 degC or more, and turnings within them.

    `days` are all hot days, `longest` the longest unbroken run of them, `turns` the turnings between the
    first and the last.
    """

    days: int
    longest: int
    turns: int


def hot_days(readings: Sequence[Reading], turns: Iterable[dt.date]) -> HotDays:
    """Count hot days and the turnings among them.

    Parameters
    ----------
    readings : sequence of (date, degC)
        In any order; of one day the warmest counts. Days between two hot readings count as hot where
        the two are no more than four days apart.
    turns : iterable of date
    """
    warmest: dict[dt.date, float] = {}
    for day, celsius in readings:
        warmest[day] = max(celsius, warmest.get(day, celsius))
    measured = sorted(warmest)
    hot = {day for day in measured if warmest[day] >= HOT_C}
    for one, other in itertools.pairwise(measured):
        if one in hot and other in hot and (other - one).days <= BRIDGED_DAYS:
            hot |= {one + dt.timedelta(days=i) for i in range(1, (other - one).days)}
    ordered = sorted(hot)
    within = {t for t in turns if ordered and ordered[0] <= t <= ordered[-1]}
    return HotDays(days=len(ordered), longest=_longest_run(ordered), turns=len(within))


def _longest_run(days: Sequence[dt.date]) -> int:
    longest = run = 0
    before: dt.date | None = None
    for day in days:
        run = run + 1 if before is not None and (day - before).days == 1 else 1
        longest = max(longest, run)
        before = day
    return longest
