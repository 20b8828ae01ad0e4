"""Made weather and forecasts for tests of frost: a spring of one warmth, with cold nights where wanted."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from leafturn.base.arrays import FloatArray
from leafturn.bloom.model import BloomForecast
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.season.axis import AXIS_DAYS, SeasonAxis
from leafturn.season.ensemble import REPEATS, Ensemble, MembersFrom

OWN_RECORD = MembersFrom(own_years=2, made_up=False, normals="own record")

MILD_C = 6.0  # every night, unless said; days are 8 degC warmer, so 5 degree-days a day above 5


def dry(tmin: FloatArray, tmax: FloatArray, today: int = -1) -> Ensemble:
    """The season of 2027 without rain, one row a member."""
    return Ensemble(
        axis=SeasonAxis(2027),
        tmin=tmin,
        tmax=tmax,
        rain=tmin * 0,
        observed_to=today,
        filled=0,
        made_of=OWN_RECORD,
    )


def steady(mean: float, members: int = 2) -> Ensemble:
    """Every day of one warmth, nights 5 degC below it and noons as much above."""
    flat = np.full((members, AXIS_DAYS), mean)
    return dry(flat - 5, flat + 5)


def weather(
    nights: Mapping[int, float] | None = None, *, tmin: FloatArray | None = None, today: int = -1
) -> SeasonWeather:
    """Two members of steady mild weather, but for the nights given; or the minima given whole."""
    low = np.full((2, AXIS_DAYS), MILD_C) if tmin is None else tmin
    high = np.maximum(low, MILD_C) + 8.0
    for day, celsius in (nights or {}).items():
        low[:, day] = celsius
    ensemble = dry(low, high, today)
    return SeasonWeather(now=ensemble, usual=ensemble)


def forecast(
    plant: str = "tree", opens: float = 180.0, full: float = 4.0, end: float = 8.0, members: int = 2
) -> BloomForecast:
    """A plant that opens on one day in every draw; `full` and `end` count days from there."""
    draws = np.full(members * REPEATS, opens)
    return BloomForecast(plant=plant, first_open=draws, full=draws + full, end=draws + end)
