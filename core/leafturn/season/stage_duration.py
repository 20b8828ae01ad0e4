"""How long a stage lasts: days stretched in the cool and shortened in the warm."""

from __future__ import annotations

import numpy as np

from leafturn.base.arrays import FloatArray
from leafturn.season.ensemble import REPEATS, Ensemble

# Stage lengths in the library hold at about this daily mean; handbook figures are given for 10-20 degC.
USUAL_MEAN_C = 12.0
SLOWEST, FASTEST = 0.6, 1.6  # guess: bloom is at most so much longer or shorter than usual


def rate_at(mean_c: FloatArray) -> FloatArray:
    """How many usual days of a stage pass in a day of this mean temperature [degC], same shape."""
    return np.clip(mean_c / USUAL_MEAN_C, SLOWEST, FASTEST)


class Pace:
    """Running total of stage progress of every member: one a day at the usual warmth.

    Parameters
    ----------
    ensemble : Ensemble
        The season's weather.

    Notes
    -----
    A day counts `tmean / 12` of a day, held between 0.6 and 1.6: a guess that keeps the published order
    (bloom in the warm is short) without a fitted curve for each kind.
    """

    def __init__(self, ensemble: Ensemble) -> None:
        rate = rate_at(ensemble.tmean)
        members, days = rate.shape
        self._days = days
        self._total = np.zeros((members, days + 1))
        np.cumsum(rate, axis=1, out=self._total[:, 1:])
        # Rows laid end to end, each lifted above the last, make one sorted line to search in.
        self._lift = self._total[:, -1].max() + 1.0
        self._line = (self._total + self._lift * np.arange(members)[:, None]).ravel()
        self._member = np.repeat(np.arange(members), REPEATS)

    def after(self, start: FloatArray, length: float | FloatArray) -> FloatArray:
        """Day on which a stage of `length` usual days that begins on `start` ends.

        Parameters
        ----------
        start : (..., draws) [day number]
            inf where it does not begin; days before the axis or after its end are paced as usual.
        length : float or (..., 1) [d]

        Returns
        -------
        (..., draws) [day number]
        """
        inside = np.isfinite(start) & (start >= 0) & (start < self._days)
        ended = start + length
        if not inside.any():
            return ended
        begin = np.floor(start[inside]).astype(int)
        fraction = start[inside] - begin
        member = np.broadcast_to(self._member, start.shape)[inside]
        here = self._total[member, begin]
        here += fraction * (self._total[member, begin + 1] - here)
        wanted = here + np.broadcast_to(np.asarray(length, dtype=float), start.shape)[inside]
        past_end = wanted > self._total[member, -1]
        # A stage that outlasts the axis is held to its end, so that its row is never left.
        within = np.minimum(wanted, self._total[member, -1])
        found = np.searchsorted(self._line, within + member * self._lift, side="left")
        day = np.clip(found - member * (self._days + 1), 0, self._days)
        before = self._total[member, np.maximum(day - 1, 0)]
        step = np.maximum(self._total[member, np.minimum(day, self._days)] - before, 1e-9)
        exact = day - 1 + (within - before) / step
        overshoot = self._days + (wanted - self._total[member, -1])
        ended = ended.copy()
        ended[inside] = np.maximum(np.where(past_end, overshoot, exact), start[inside])
        return ended
