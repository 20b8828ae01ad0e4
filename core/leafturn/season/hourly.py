"""Hourly temperatures from daily minima and maxima: a sine by day, a logarithm by night.

References
----------
.. [1] Linvill, D. E. (1990). Calculating chilling hours and chill units from daily maximum and minimum
   temperature observations. HortScience 25: 14-16.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from leafturn.base.arrays import FloatArray
from leafturn.season.sun import day_length

SHORTEST, LONGEST = 2.0, 22.0  # [h] day lengths the curves bear; towards the poles they are held there


def hourly_temperatures(
    tmin: ArrayLike, tmax: ArrayLike, latitude: float, day_of_year: ArrayLike
) -> FloatArray:
    """Temperature at each full hour of local solar time.

    By day ``(tmax - tmin) sin(pi t / (D + 4)) + tmin``, t hours after sunrise and D the day's length; by
    night from the temperature at sunset down to the next minimum by ``ln(t) / ln(24 - D)``, t hours after
    sunset and at least 1.

    Parameters
    ----------
    tmin, tmax : (..., days) [degC]
        Consecutive days along the last axis.
    latitude : float [deg]
    day_of_year : (days,)
        1 January 1.

    Returns
    -------
    (..., 24 * days) array [degC]
        Hour 0 of the first day first. The first morning follows a sunset, and the last night leads to a
        minimum, like the day's own. A day without a reading leaves its own hours and the night beside it
        without.

    References
    ----------
    Linvill 1990 [1]_.
    """
    low, high = np.broadcast_arrays(np.asarray(tmin, dtype=float), np.asarray(tmax, dtype=float))
    length = np.clip(day_length(latitude, day_of_year), SHORTEST, LONGEST)
    at_sunset = (high - low) * np.sin(np.pi * length / (length + 4)) + low

    hour = np.arange(24.0)
    sunrise, night = (12 - length / 2)[:, None], (24 - length)[:, None]
    by_day = _column(high - low) * np.sin(np.pi * (hour - sunrise) / (length[:, None] + 4)) + _column(low)

    def by_night(from_sunset: FloatArray, to_minimum: FloatArray, since: FloatArray) -> FloatArray:
        fallen = np.minimum(np.log(np.maximum(since, 1.0)) / np.log(night), 1.0)
        return np.asarray(_column(from_sunset) - _column(from_sunset - to_minimum) * fallen)

    evening_before = np.concatenate([at_sunset[..., :1], at_sunset[..., :-1]], axis=-1)
    next_minimum = np.concatenate([low[..., 1:], low[..., -1:]], axis=-1)
    sunset = sunrise + length[:, None]
    before = by_night(evening_before, low, hour + 24 - sunset)
    after = by_night(at_sunset, next_minimum, hour - sunset)
    hours = np.where(hour < sunrise, before, np.where(hour > sunset, after, by_day))
    return np.asarray(hours.reshape(*low.shape[:-1], -1))


def _column(values: FloatArray) -> FloatArray:
    return np.asarray(values[..., None])
