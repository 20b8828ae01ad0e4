"""How a plant counts heat: above which base, from which day, and after how much chill."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from leafturn.garden.model import Plant
from leafturn.kinds.library import Library
from leafturn.kinds.model import Kind
from leafturn.season.axis import SeasonAxis
from leafturn.season.heat import HeatSums
from leafturn.season.winter_chill import WinterChill

FloatArray = NDArray[np.float64]

BASE_C = 5.0  # where a kind states none


class HeatClock(NamedTuple):
    """A plant's way of counting heat.

    Parameters
    ----------
    base : float [degC]
    start : str
        "season" or a northern month and day.
    portions : float or None
        Chill portions to be gathered before heat counts; None for kinds that state none.
    """

    base: float
    start: str
    portions: float | None

    def first_day(self, axis: SeasonAxis) -> int:
        """Day number from which heat may count: the season's start, or a northern month and day."""
        return axis.day(axis.start) if self.start == "season" else axis.month_day(self.start, winter=True)

    def day_reached(self, heat: HeatSums, chill: WinterChill | None, need: float) -> FloatArray:
        """Day on which the need is met by heat alone, (members,) [day number]; inf: never.

        `chill` is needed where the clock waits for portions.
        """
        first = self.first_day(heat.ensemble.axis)
        if chill is None or self.portions is None:
            return heat.day_reached(self.base, first, need)
        return heat.day_reached_from(self.base, np.maximum(chill.rest_over(self.portions), first), need)


def kind_clock(kind: Kind) -> HeatClock:
    """The clock of a kind; one that gives a range of portions is taken at its middle."""
    base = BASE_C if kind.bloom.base_c is None else kind.bloom.base_c.value
    start = "season" if kind.bloom.start is None else kind.bloom.start.value
    portions = kind.chill.portions
    return HeatClock(base, start, None if portions is None else sum(portions.value) / 2)


def clock_of(library: Library, kind: Kind, plant: Plant) -> HeatClock:
    """The clock of a plant: its kind's, with its cultivar's own chill where that is known."""
    clock = kind_clock(kind)
    found = library.cultivar(kind, plant.cultivar) if plant.cultivar else None
    chill = found[1].chill_portions if found else None
    return clock if chill is None else clock._replace(portions=chill.value)
