"""Warmth over a season by a kind's response, and the days on which levels of it are reached."""

from __future__ import annotations

import numpy as np

from leafturn.base.arrays import FloatArray, RisingRows, median
from leafturn.base.kept import kept
from leafturn.bloom.priors.response import FIRST_DAY, LEAST_SUM, Timing, level_at
from leafturn.season.axis import LEAD_DAYS
from leafturn.season.ensemble import REPEATS, Ensemble
from leafturn.season.sun import day_length, days_of_year

BEFORE_AXIS = 1 - FIRST_DAY - LEAD_DAYS
"""Days from 1 October, where responses begin to count, to day 0 of the axis."""


@kept
def warmth_of(ensemble: Ensemble) -> Warmth:
    """Warmth of an ensemble, the same for all who ask."""
    return Warmth(ensemble)


class Warmth:
    """Warmth of one ensemble, each response summed once."""

    def __init__(self, ensemble: Ensemble) -> None:
        low, high = ensemble.from_autumn(BEFORE_AXIS)
        self._low, self._high = low, high
        self.hours = day_length(
            ensemble.latitude, days_of_year(ensemble.axis.date(-BEFORE_AXIS), low.shape[1])
        )
        self._members = np.arange(len(low))
        self._member_of_draw = np.repeat(self._members, REPEATS)

    @kept
    def sums(self, timing: Timing) -> FloatArray:
        """Warmth gathered by the end of each day, (members, days from 1 October on)."""
        return timing.sums(self._low, self._high, self.hours)

    def on_axis(self, timing: Timing) -> FloatArray:
        """The same from day 0 of the axis on, (members, days)."""
        return self.sums(timing)[:, BEFORE_AXIS:]

    def day_reached(self, timing: Timing, level: FloatArray | float) -> FloatArray:
        """When levels are reached, with parts of a day.

        Parameters
        ----------
        timing : Response or ShortDays
        level : (..., draws), (..., members), (..., 1) or float
            Logarithms of warmth. A draw belongs to the member that `Ensemble.spread` gives it.

        Returns
        -------
        array [day number of the axis], shape of `level`, with members along the last axis for one level
            A day reached at noon is the day itself; inf where a level is never reached.
        """
        rows = self._rows(timing)
        members = len(self._members)
        wanted = np.exp(np.minimum(np.atleast_1d(level), 700.0))
        if wanted.shape[-1] == 1:
            wanted = np.repeat(wanted, members, axis=-1)
        member = self._members if wanted.shape[-1] == members else self._member_of_draw
        first = rows.begins(member)
        never = wanted > rows.last[member]
        place = rows.place(np.where(never, 0.0, wanted), member)
        end = rows.flat[np.minimum(place, len(rows.flat) - 1)]
        before = np.where(place > first, rows.flat[np.maximum(place - 1, 0)], 0.0)
        part = np.minimum(np.maximum((wanted - before) / np.maximum(end - before, LEAST_SUM), 0.0), 1.0)
        # the end of a day is half a day past its noon, at which it has its number
        return np.where(never, np.inf, place - first + part - 0.5 - BEFORE_AXIS)

    def median_day(self, timing: Timing, level: float) -> float:
        """When a level is reached in the middle member [day number of the axis]; inf: in most never."""
        return median(self.day_reached(timing, level))

    def level_at(self, timing: Timing, day: float) -> tuple[FloatArray, FloatArray]:
        """Logarithm of the warmth gathered by noon of a day, and its growth on that day, each (members,)."""
        return level_at(self.sums(timing), day + BEFORE_AXIS + FIRST_DAY)

    @kept
    def _rows(self, timing: Timing) -> RisingRows:
        return RisingRows(self.sums(timing))
