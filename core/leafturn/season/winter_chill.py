"""Winter chill: portions and hours of every ensemble member, in the site's own chilling season."""

from __future__ import annotations

import math
from functools import cached_property, lru_cache

import numpy as np

from leafturn.base.arrays import FloatArray
from leafturn.base.kept import kept
from leafturn.season.axis import LEAD_DAYS
from leafturn.season.chill import CHILL_HOUR_WARMEST, chill_hours, portions_gained
from leafturn.season.ensemble import AUTUMN_DAYS, Ensemble
from leafturn.season.hourly import hourly_temperatures
from leafturn.season.sun import days_of_year

CHILLING_C = 15.0  # [degC] days usually colder on the mean make the chilling season; guess
COUNTED_DAYS = AUTUMN_DAYS + LEAD_DAYS + 151  # 1 September to 31 May, south half a year on
SMOOTHED_OVER = 15  # days
MONTH = 30  # days that are counted at a time


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
        self._none = np.zeros(len(low))
        self._winters: Winters | None = None
        if not len(cold):
            return
        first, last = int(cold[0]), int(cold[-1])
        self.season = first - AUTUMN_DAYS, last - AUTUMN_DAYS
        days = days_of_year(ensemble.axis.date(first - AUTUMN_DAYS), last + 1 - first)
        winters = np.stack([_whole(low[:, first : last + 1]), _whole(high[:, first : last + 1])], axis=1)
        self._winters = _winters(winters.tobytes(), winters.shape, ensemble.latitude, tuple(days.tolist()))

    def gathered(self, enough: float = math.inf) -> FloatArray:
        """Chill portions of the chilling season, (members,): of its beginning if all have enough by then."""
        return self._none if self._winters is None else self._winters.portions(enough)

    def hours(self, *, above_freezing: bool = False) -> FloatArray:
        """Hours at or below 7.2 degC of the chilling season, or those of them from 0 degC, (members,)."""
        if self._winters is None:
            return self._none
        return np.asarray(self._winters.hours[1 if above_freezing else 0])

    def short_of(self, portions: float) -> float:
        """Share of ensemble members in which a need is not met."""
        return float(np.mean(self.gathered(portions) < portions))

    def short_of_hours(self, hours: float) -> float:
        """The same of a need in hours at or below 7.2 degC."""
        return float(np.mean(self.hours() < hours))


class Winters:
    """Some winters, counted a month at a time and no further than is asked.

    Most needs are met before a winter is half over; and the winters of a year that is observed in part go
    alike as far as it is.

    Parameters
    ----------
    winters : (members, 2, days) [degC]
        Daily minima and maxima, without gaps.
    latitude : float [deg]
    day_of_year : (days,)
    """

    def __init__(self, winters: FloatArray, latitude: float, day_of_year: FloatArray) -> None:
        self._daily, self._latitude, self._day_of_year = winters, latitude, day_of_year
        self._months = -(-len(day_of_year) // MONTH)

    def portions(self, enough: float) -> FloatArray:
        """Chill portions, (members,): of whole winters, or of their beginnings if all have enough by then."""
        gathered = self._after(0)[0]
        for months in range(1, self._months + 1):
            if gathered.min() >= enough:
                break
            gathered = self._after(months)[0]
        return gathered

    @kept
    def _after(self, months: int) -> tuple[FloatArray, FloatArray]:
        """Portions after so many months, and what has gathered towards the next, (members,) each."""
        if not months:
            return np.zeros(len(self._daily)), np.zeros(len(self._daily))
        gathered, product = self._after(months - 1)
        first, last = (months - 1) * MONTH, min(months * MONTH, len(self._day_of_year))
        around = slice(max(first - 1, 0), last + 1)  # a night hangs on the days on both its sides
        daily = self._daily[:, :, around]
        one = np.column_stack([daily.reshape(len(daily), -1), product])
        _, members, alike = np.unique(one, axis=0, return_index=True, return_inverse=True)
        hourly = self._hourly(daily[members], around)
        begins = 24 * (first - around.start)
        month = hourly[:, begins : begins + 24 * (last - first)]
        gained, left = portions_gained(month, product[members])
        return gathered + gained.sum(axis=-1)[alike], left[alike]

    @cached_property
    def hours(self) -> FloatArray:
        """Hours at or below 7.2 degC, and those of them from 0 degC, (2, members)."""
        hourly = self._hourly(self._daily, slice(None))
        return np.stack([np.count_nonzero(hourly <= CHILL_HOUR_WARMEST, axis=-1), chill_hours(hourly)[:, -1]])

    def _hourly(self, daily: FloatArray, days: slice) -> FloatArray:
        low, high = daily.swapaxes(0, 1)
        return hourly_temperatures(low, high, self._latitude, self._day_of_year[days])


@lru_cache(maxsize=8)
def _winters(
    winters: bytes, shape: tuple[int, ...], latitude: float, day_of_year: tuple[int, ...]
) -> Winters:
    """The same winters, which are asked for every day, are counted once."""
    return Winters(np.frombuffer(winters).reshape(shape), latitude, np.array(day_of_year))


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
