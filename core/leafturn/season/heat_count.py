"""How a sum of degree-days is counted: above which base, and from which day."""

from __future__ import annotations

from leafturn.base.arrays import FloatArray
from leafturn.base.value import Value
from leafturn.season.axis import SeasonAxis
from leafturn.season.heat import HeatSums

BASE_C = 5.0  # usual for the first growth of plants of cool places; recalled, no source


class HeatCount(Value, kw_only=False):
    """A way of counting heat.

    Parameters
    ----------
    base : float [degC]
    start : str
        "season" or a northern month and day.
    """

    base: float
    start: str = "season"

    def first_day(self, axis: SeasonAxis) -> int:
        """Day number from which heat may count: the season's start, or a northern month and day."""
        return axis.day(axis.start) if self.start == "season" else axis.month_day(self.start, winter=True)

    def day_reached(self, heat: HeatSums, need: float) -> FloatArray:
        """Day on which a sum is reached, (members,) [day number]; inf: never."""
        return heat.day_reached(self.base, self.first_day(heat.ensemble.axis), need)
