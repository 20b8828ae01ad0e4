"""Winter chill: portions and hours of every ensemble member, in the site's own chilling season."""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from leafturn.base.arrays import FloatArray
from leafturn.season.chill import CHILL_HOUR_WARMEST, chill_hours, chill_portions
from leafturn.season.ensemble import AUTUMN_DAYS, Ensemble
from leafturn.season.hourly import hourly_temperatures

CHILLING_C = 15.0  # [degC] days usually colder on the mean make the chilling season; guess
COUNTED_DAYS = AUTUMN_DAYS + 61 + 151  # 1 September to 31 May, south half a year on
SMOOTHED_OVER = 15  # days


class WinterChill:
    """Chill portions and chill hours of one season's winter.

    Parameters
    ----------
    ensemble : Ensemble
        The season with the autumn before it.

    Notes
    -----
    Dynamic model (Fishman, Erez & Couvillon 1987) on hourly temperatures after Linvill (1990). It is counted
    from the first to the last day of the year whose usual mean lies under 15 degC: in the cold north that is
    September to May, with little in midwinter; in mild places only the depth of winter; where no such day
    comes there is no chill.
    """

    def __init__(self, ensemble: Ensemble) -> None:
        low, high = ensemble.from_autumn(AUTUMN_DAYS)[:, :, :COUNTED_DAYS]
        mean = np.nanmean((low + high) / 2, axis=0)
        smooth = np.convolve(np.pad(mean, SMOOTHED_OVER // 2, mode="edge"), np.ones(SMOOTHED_OVER), "valid")
        cold = np.flatnonzero(smooth / SMOOTHED_OVER < CHILLING_C)
        self.season: tuple[int, int] | None = None
        self._gathered = np.zeros((3, len(low)))
        if not len(cold):
            return
        first, last = int(cold[0]), int(cold[-1])
        self.season = first - AUTUMN_DAYS, last - AUTUMN_DAYS
        axis = ensemble.axis
        days = tuple(axis.date(day - AUTUMN_DAYS).timetuple().tm_yday for day in range(first, last + 1))
        winters = np.stack([low, high], axis=1)[:, :, first : last + 1]
        # Versions of a year that is observed to spring share one winter: count each winter once.
        whole = [winter.tobytes() for winter in winters]
        place = {winter: n for n, winter in enumerate(dict.fromkeys(whole))}
        shape = (len(place), *winters.shape[1:])
        counted = _counted(b"".join(place), shape, ensemble.latitude, days)
        self._gathered = counted[:, [place[winter] for winter in whole]]

    def gathered(self) -> FloatArray:
        """Chill portions of the whole chilling season, (members,)."""
        return np.asarray(self._gathered[0])

    def hours(self, *, above_freezing: bool = False) -> FloatArray:
        """Hours at or below 7.2 degC of the chilling season, or those of them from 0 degC, (members,)."""
        return np.asarray(self._gathered[2 if above_freezing else 1])

    def short_of(self, portions: float) -> float:
        """Share of ensemble members in which a need is not met."""
        return float(np.mean(self.gathered() < portions))

    def short_of_hours(self, hours: float) -> float:
        """The same of a need in hours at or below 7.2 degC."""
        return float(np.mean(self.hours() < hours))


@lru_cache(maxsize=8)
def _counted(
    winters: bytes, shape: tuple[int, ...], latitude: float, day_of_year: tuple[int, ...]
) -> FloatArray:
    """Portions, hours at or below 7.2 degC, and hours from 0 to 7.2 degC of each winter, (3, winters).

    Kept, since most winters are asked for every day.

    `winters` are the numbers of an array (winters, 2, days) of daily minima and maxima.
    """
    low, high = np.frombuffer(winters).reshape(shape).swapaxes(0, 1)
    hourly = hourly_temperatures(_whole(low), _whole(high), latitude, np.array(day_of_year))
    counted = chill_portions(hourly)
    cold = np.count_nonzero(hourly <= CHILL_HOUR_WARMEST, axis=-1)
    return np.stack([counted[:, -1], cold, chill_hours(hourly)[:, -1]])


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
