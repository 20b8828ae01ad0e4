"""Warmth over a season as a response counts it, and the days on which levels of it are reached."""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from leafturn.bloom.priors.response import FIRST_DAY, LEAST_SUM, Timing
from leafturn.season.axis import LEAD_DAYS
from leafturn.season.ensemble import REPEATS, Ensemble
from leafturn.season.sun import day_length

FloatArray = NDArray[np.float64]

BEFORE_AXIS = 1 - FIRST_DAY - LEAD_DAYS
"""Days from 1 October, where responses begin to count, to day 0 of the axis."""


@lru_cache(maxsize=16)
def warmth_of(ensemble: Ensemble) -> Warmth:
    """Warmth of an ensemble, the same for all who ask."""
    return Warmth(ensemble)


class Warmth:
    """Warmth of one ensemble, each response summed once.

    Parameters
    ----------
    ensemble : Ensemble
    """

    def __init__(self, ensemble: Ensemble) -> None:
        self.ensemble = ensemble
        low, high = ensemble.from_autumn(BEFORE_AXIS)
        self._low, self._high = low, high
        axis = ensemble.axis
        days = [axis.date(day - BEFORE_AXIS).timetuple().tm_yday for day in range(low.shape[1])]
        self.hours = day_length(ensemble.latitude, np.array(days))
        self._sums: dict[Timing, FloatArray] = {}
        self._lines: dict[Timing, tuple[FloatArray, float]] = {}

    def sums(self, timing: Timing) -> FloatArray:
        """Warmth gathered by the end of each day, (members, days from 1 October on)."""
        if timing not in self._sums:
            self._sums[timing] = timing.sums(self._low, self._high, self.hours)
        return self._sums[timing]

    def on_axis(self, timing: Timing) -> FloatArray:
        """The same from day 0 of the axis on, (members, days)."""
        return self.sums(timing)[:, BEFORE_AXIS:]

    def day_reached(self, timing: Timing, level: FloatArray) -> FloatArray:
        """When levels are reached, with parts of a day.

        Parameters
        ----------
        timing : Response or ShortDays
        level : (draws,), (members,) or (1,)
            Logarithms of warmth. A draw belongs to the member that `Ensemble.spread` gives it.

        Returns
        -------
        array [day number of the axis], shape of `level` ((members,) for one level)
            A day reached at noon is the day itself; inf where a level is never reached.
        """
        line, lift = self._line(timing)
        members, days = self.sums(timing).shape
        wanted = np.exp(np.minimum(np.asarray(level, dtype=float), 700.0))
        if wanted.shape == (1,):
            wanted = np.repeat(wanted, members)
        member = np.arange(members) if len(wanted) == members else np.repeat(np.arange(members), REPEATS)
        flat = self.sums(timing).ravel()
        never = wanted > flat[member * days + days - 1]
        place = np.searchsorted(line, np.where(never, 0.0, wanted) + member * lift)
        end = flat[np.minimum(place, flat.size - 1)]
        before = np.where(place > member * days, flat[np.maximum(place - 1, 0)], 0.0)
        part = np.clip((wanted - before) / np.maximum(end - before, LEAST_SUM), 0.0, 1.0)
        # the end of a day is half a day past its noon, at which it has its number
        reached = place - member * days + part - 0.5 - BEFORE_AXIS
        return np.where(never, np.inf, reached)

    def level_at(self, timing: Timing, day: float) -> tuple[FloatArray, FloatArray]:
        """Logarithm of the warmth gathered by noon of a day, and its growth on that day, each (members,)."""
        sums = self.sums(timing)
        place = int(np.clip(round(day) + BEFORE_AXIS, 0, sums.shape[1] - 1))
        end = sums[:, place]
        before = sums[:, place - 1] if place else np.zeros(len(sums))
        noon = np.maximum((end + before) / 2, LEAST_SUM)
        return np.log(noon), np.clip((end - before) / noon, 0.002, 2.0)

    def _line(self, timing: Timing) -> tuple[FloatArray, float]:
        """Rows laid end to end, each lifted above the last: one sorted line to search in."""
        if timing not in self._lines:
            sums = self.sums(timing)
            lift = float(sums[:, -1].max()) + 1.0
            self._lines[timing] = (sums + lift * np.arange(len(sums))[:, None]).ravel(), lift
        return self._lines[timing]
