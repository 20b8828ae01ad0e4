"""A daily weather record: one row a day, gaps as NaN."""

from __future__ import annotations

import datetime as dt

import numpy as np
from numpy.typing import NDArray

from leafturn.base.arrays import FloatArray
from leafturn.base.value import Value


class DailyRecord(Value, eq=False):
    """Consecutive days without holes in the calendar; missing values are NaN.

    Parameters
    ----------
    first : date
        The day of index 0.
    tmin, tmax : (days,) [degC]
        Daily minimum and maximum air temperature.
    rain : (days,) [mm]
        Daily rain.
    notes : tuple of str
        Plain sentences on what the quality check set aside, for the user to read.
    """

    first: dt.date
    tmin: FloatArray
    tmax: FloatArray
    rain: FloatArray
    notes: tuple[str, ...] = ()

    def __len__(self) -> int:
        return len(self.tmin)

    @property
    def days(self) -> NDArray[np.datetime64]:
        """The date of each day, (days,)."""
        return np.datetime64(self.first, "D") + np.arange(len(self))

    @property
    def last(self) -> dt.date:
        """The last day of the record."""
        return self.first + dt.timedelta(days=len(self) - 1)
