"""A rough normal year, where nothing is known of a place but where it lies, and perhaps its frosts."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from leafturn.base.arrays import FloatArray
from leafturn.garden.model import Place
from leafturn.weather.calendar import LEAP_YEAR_DAYS
from leafturn.weather.normals.normals import SPREAD, Normals, NormalsBasis, guessed_rain, usual_spread
from leafturn.weather.normals.place_climate import PlaceClimate, Seasons, climate_at

# [daily spreads above 0 degC] normal minimum on usual frost dates, and the coldest where it never freezes;
# guesses, which made-up years correct
FROST_CURVE, MILD_CURVE = 1.6, 2.8
USUAL_DAY_NIGHT = (7.5, 10.0, 12.5, 10.0)  # [degC] maximum less minimum, from winter to autumn; guess
# [degC] by how much nights of towns are warmer than those of the country about: set on monthly normals of 47
# places with orchards, which the towns told that much too warm at night and no warmer by day
NIGHTS_WARMER = 0.4
COLDEST_PLACE = 20  # 21 January, a month after the shortest day; common practice, no source


def daily_range(coldest: float, day_night: Seasons = USUAL_DAY_NIGHT) -> FloatArray:
    """Maximum less minimum where only one of them is known, (366,) [degC], from those of the four seasons."""
    winter, spring, summer, autumn = day_night
    turning = _wave(coldest + LEAP_YEAR_DAYS / 4)  # 1 half-way between winter and summer
    swing = (winter - summer) / 2 * _wave(coldest) + (spring - autumn) / 2 * turning
    return np.mean(day_night) + swing - _between(coldest) * (winter + summer - spring - autumn) / 4


def _between(coldest: float) -> FloatArray:
    """Half-yearly wave, 1 in spring and autumn and -1 in winter and summer."""
    return 1 - 2 * _wave(coldest) ** 2


def _turning(coldest: float, turns: Seasons) -> FloatArray:
    """What lies between the seasons: 0 on their days, the most half-way from each to the next."""
    since = (np.arange(LEAP_YEAR_DAYS) - coldest) / LEAP_YEAR_DAYS % 1
    most = np.array(turns)[(since * len(turns)).astype(int) % len(turns)]
    return np.asarray(most * np.abs(np.sin(4 * np.pi * since)))


def _wave(coldest: float) -> FloatArray:
    """One wave over the year, 1 on the coldest day."""
    return np.asarray(np.cos(2 * np.pi * (np.arange(LEAP_YEAR_DAYS) - coldest) / LEAP_YEAR_DAYS))


def coldest_place(latitude: float) -> float:
    """Place in the leap year of the day that is normally coldest."""
    return COLDEST_PLACE + (LEAP_YEAR_DAYS / 2 if latitude < 0 else 0)


def year_by_place(place: Place) -> Normals:
    """A rough year by where a place lies alone, against which the units of weather files are judged."""
    return rough_year(place.lat, place.lon, place.height_m, None, None)


def rough_year(
    latitude: float,
    longitude: float,
    height_m: float | None,
    last_frost: int | None,
    first_frost: int | None,
    *,
    freezing: float = 1.0,
) -> Normals:
    """A rough year from the usual frost dates, or where there are none from the latitude and height.

    One wave through the year, as wide as the towns about have it; with both frost dates the warmest day
    lies halfway between them and the normal minimum is 1.6 daily spreads above freezing on each; with
    one of them the warmest day is in late July (south: January). Where no frost date tells of the nights, the
    year is as late and turns between its seasons as in those towns, and nights are a little colder than
    theirs. All of it is a rule of thumb.

    Parameters
    ----------
    latitude, longitude : float [deg]
    height_m : float [m] or None
        Above the sea, if it is told.
    last_frost, first_frost : int or None
        Places in the leap year of the usual dates.
    freezing : float
        Share of years that freeze. Below 1, where no dates are known, the coldest normal night is as mild as
        that asks for; where it never freezes, as the latitude has it if that is milder.
    """
    frost_free = None
    if last_frost is not None and first_frost is not None:
        frost_free = (first_frost - last_frost) % LEAP_YEAR_DAYS
    here = climate_at(latitude, longitude, height_m, frost_free)
    known = last_frost if last_frost is not None else first_frost
    if known is not None:
        coldest, apart, night = _by_frosts(latitude, here.half_range, last_frost, first_frost)
        spread = float(usual_spread(night, night + apart, lat=latitude, lon=longitude)[known])
        tmin = FROST_CURVE * spread + night - night[known]
    else:
        coldest, apart, night = _by_towns(latitude, here)
        tmin = here.mean + night - NIGHTS_WARMER
        apart = apart + NIGHTS_WARMER
        if freezing < 1:
            lift = (MILD_CURVE - (MILD_CURVE - FROST_CURVE) * freezing) * SPREAD - float(tmin.min())
            tmin = tmin + (lift if freezing else max(lift, 0.0))
    rain, wet_share, _ = guessed_rain()
    tmax, strays = tmin + apart, np.full(LEAP_YEAR_DAYS, SPREAD)
    if freezing == 1:
        in_summer = ((1 - _wave(coldest)) / 2) ** 4 if known is not None else 1.0  # where no frost can be
        strays += (usual_spread(tmin, tmax, lat=latitude, lon=longitude) - SPREAD) * in_summer
    return Normals(
        tmin=tmin, tmax=tmax, rain=rain, wet_share=wet_share, spread=strays,
        basis=_rough_basis(known is not None, freezing < 1), guess=True,
    )  # fmt: skip


class _Course(NamedTuple):
    """The coldest place; maximum less minimum, and normal minimum less the year's mean, (366,) [degC]."""

    coldest: float
    apart: FloatArray
    night: FloatArray


def _by_frosts(
    latitude: float, half_range: float, last_frost: int | None, first_frost: int | None
) -> _Course:
    """One wave, with both frost dates lowest half-way from the first to the last."""
    coldest = coldest_place(latitude)
    if last_frost is not None and first_frost is not None:
        coldest = _coldest_between(first_frost, last_frost, coldest)
    apart = daily_range(coldest)
    return _Course(coldest, apart, -half_range * _wave(coldest) - apart / 2)


def _by_towns(latitude: float, here: PlaceClimate) -> _Course:
    """As late as the towns about, turning as they do, its days and nights as far apart."""
    coldest = coldest_place(latitude) + here.coldest - 1 - COLDEST_PLACE
    turning = _turning(coldest, here.turns)
    apart = daily_range(coldest, here.day_night) + 2 * (turning - _turning(coldest, here.night_turns))
    middle = -here.half_range * _wave(coldest) + here.between * _between(coldest) + turning
    return _Course(coldest, apart, middle - apart / 2)


def _coldest_between(first_frost: int, last_frost: int, usual: float) -> float:
    """The coldest place, half-way from first frost to last, on the side of the year where it usually lies."""
    frost_free = (first_frost - last_frost) % LEAP_YEAR_DAYS
    by_dates = (last_frost + frost_free / 2 + LEAP_YEAR_DAYS / 2) % LEAP_YEAR_DAYS
    # Where hardly a week freezes, the usual last frost may come before the usual first: turned round.
    turned = np.cos(2 * np.pi * (by_dates - usual) / LEAP_YEAR_DAYS) < 0
    return float((by_dates + turned * LEAP_YEAR_DAYS / 2) % LEAP_YEAR_DAYS)


def _rough_basis(dated: bool, rare: bool) -> NormalsBasis:
    if dated:
        return "two frost dates"
    return "latitude and rare frost" if rare else "latitude alone"
