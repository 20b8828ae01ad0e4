"""How heat adds up over the season: this year beside the band of past years."""

from __future__ import annotations

import datetime as dt

import numpy as np

from leafturn.base.arrays import FloatArray, medians
from leafturn.base.date_range import SHARES
from leafturn.base.value import Value
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.season.heat_count import BASE_C


class HeatCourse(Value, eq=False):
    """Degree-days above `base` [degC d] since the season's start, a value a day from `first` on.

    Parameters
    ----------
    base : float [degC]
    first : date
        1 January, south 1 July.
    now : (days,)
        This year: measured up to the day of asking, the middle of what may come from then on.
    low, usual, high : (days,)
        Past years: one in ten stands below `low`, half below `usual`, one in ten above `high`.
    """

    base: float
    first: dt.date
    now: FloatArray
    low: FloatArray
    usual: FloatArray
    high: FloatArray


def heat_course(weather: SeasonWeather) -> HeatCourse:
    """The course of heat of this season and of the years before."""
    axis = weather.axis
    start = axis.day(axis.start)
    past = weather.usual_heat.cumulative(BASE_C, start)[:, start:]
    low, usual, high = np.quantile(past, SHARES, axis=0)
    now = medians(weather.now_heat.cumulative(BASE_C, start)[:, start:], axis=0)
    return HeatCourse(base=BASE_C, first=axis.start, now=now, low=low, usual=usual, high=high)
