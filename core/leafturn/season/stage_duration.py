"""How long a stage lasts: days stretched in the cool and shortened in the warm."""

from __future__ import annotations

import numpy as np

from leafturn.base.arrays import FloatArray, RisingRows
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
        members, self._days = rate.shape
        total = np.zeros((members, self._days + 1))
        np.cumsum(rate, axis=1, out=total[:, 1:])
        self._total, self._member = RisingRows(total), np.repeat(np.arange(members), REPEATS)

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
        begins = np.where(inside, start, 0.0)
        day = begins.astype(np.intp)
        first, total = self._total.begins(self._member), self._total.flat
        place = first + day
        wanted = total.take(place)
        wanted += (begins - day) * (total.take(place + 1) - wanted)
        wanted += length
        # A stage that outlasts the axis is held to its end, so that its row is never left.
        last = self._total.last[self._member]
        within = np.minimum(wanted, last)
        place = np.clip(self._total.place(within, self._member), first, first + self._days)
        before = total.take(np.maximum(place - 1, first))
        exact = (within - before) / np.maximum(total.take(place) - before, 1e-9)
        exact += place - first - 1
        ended = np.where(wanted > last, self._days + (wanted - last), exact)
        return np.where(inside, np.maximum(ended, start), start + length)
