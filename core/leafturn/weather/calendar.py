"""Days of the year counted in a leap year, so that a date has the same place every year."""

from __future__ import annotations

import datetime as dt

import numpy as np
from numpy.typing import NDArray

from leafturn.base.arrays import IndexArray

LEAP_YEAR_DAYS = 366
MONTH_LENGTHS = (31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
_START_OF_MONTH = np.concatenate([[0], np.cumsum(MONTH_LENGTHS)[:-1]])
MONTH_OF_DAY = np.repeat(np.arange(12), MONTH_LENGTHS)
"""The month (0 to 11) of each of the 366 days."""


def day_of_leap_year(first: dt.date, days: int) -> IndexArray:
    """Place of `days` consecutive dates in a leap year: 1 January 0, 29 February 59, 31 December 365."""
    return places_in_leap_year(np.datetime64(first, "D") + np.arange(days))


def places_in_leap_year(dates: NDArray[np.datetime64]) -> IndexArray:
    """Place of each date in a leap year: 1 January 0, 29 February 59, 31 December 365."""
    months = dates.astype("datetime64[M]")
    day_of_month = (dates - months).astype(np.intp)
    return np.asarray(_START_OF_MONTH[months.astype(np.intp) % 12] + day_of_month, dtype=np.intp)


def month_day_place(text: str) -> int:
    """Place in a leap year of a month and day such as "04-24".

    Raises
    ------
    ValueError
        If the text is no month and day.
    """
    date = dt.date.fromisoformat(f"2000-{text}")
    return date.timetuple().tm_yday - 1
