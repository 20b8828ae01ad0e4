"""The day on which winter's rest is over: chill portions counted over every version of a winter."""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from leafturn.season.axis import SeasonAxis
from leafturn.season.chill import chill_portions
from leafturn.season.hourly import hourly_temperatures

FloatArray = NDArray[np.float64]

LATEST = "04-01"  # guess: by then warmth breaks rest even where chill fell short
COUNTED_DAYS = 160  # from 1 November (south: 1 May) past LATEST


class WinterChill:
    """Chill portions to the end of each day of one season's winter.

    Parameters
    ----------
    axis : SeasonAxis
    tmin, tmax : (members, days) [degC]
        From the axis' first day on; missing days as NaN are taken from their neighbours.
    latitude : float [deg]
        For the length of the day, from which hourly temperatures are made.

    Notes
    -----
    Dynamic model (Fishman, Erez & Couvillon 1987) on hourly temperatures after Linvill (1990), from
    1 November (south: 1 May).
    """

    def __init__(self, axis: SeasonAxis, tmin: FloatArray, tmax: FloatArray, latitude: float) -> None:
        days = min(COUNTED_DAYS, tmin.shape[1])
        day_of_year = np.array([axis.date(day).timetuple().tm_yday for day in range(days)])
        winters = np.stack([tmin[:, :days], tmax[:, :days]], axis=1)
        # Versions of a year that is observed to spring share one winter: count each winter once.
        each, of_member = np.unique(winters, axis=0, return_inverse=True)
        counted = _counted(each.tobytes(), each.shape, latitude, tuple(day_of_year.tolist()))
        self._portions = counted[of_member.ravel()]
        self._latest = axis.month_day(LATEST)

    def rest_over(self, portions: float) -> FloatArray:
        """First day on which so many chill portions are reached, (members,); at the latest 1 April.

        Parameters
        ----------
        portions : float
            The kind's or cultivar's need.
        """
        reached = (self._portions < portions).sum(axis=1).astype(float)
        return np.asarray(np.minimum(reached, self._latest))

    def gathered(self) -> FloatArray:
        """Chill portions by the end of 1 April, (members,)."""
        return np.asarray(self._portions[:, min(self._latest, self._portions.shape[1] - 1)])

    def short_of(self, portions: float) -> float:
        """Share of the versions of this winter in which the need is not met by 1 April."""
        return float(np.mean(self.gathered() < portions))


@lru_cache(maxsize=8)
def _counted(
    winters: bytes, shape: tuple[int, ...], latitude: float, day_of_year: tuple[int, ...]
) -> FloatArray:
    """Portions to the end of each day, (winters, days); kept, since most winters are asked for every day.

    `winters` are the numbers of an array (winters, 2, days) of daily minima and maxima.
    """
    low, high = np.frombuffer(winters).reshape(shape).swapaxes(0, 1)
    hourly = hourly_temperatures(_whole(low), _whole(high), latitude, np.array(day_of_year))
    counted = chill_portions(hourly[0])[None] if len(hourly) == 1 else chill_portions(hourly)
    portions: FloatArray = np.ascontiguousarray(counted[:, 23::24])
    return portions


def _whole(values: FloatArray) -> FloatArray:
    """Rows without gaps, missing days drawn between their neighbours."""
    if not np.isnan(values).any():
        return values
    filled = values.copy()
    day = np.arange(values.shape[1])
    for row in filled:
        known = np.isfinite(row)
        row[:] = np.interp(day, day[known], row[known]) if known.any() else 5.0
    return filled
