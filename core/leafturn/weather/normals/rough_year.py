"""A rough normal year, where nothing is known of a place but where it lies, and perhaps its frosts."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from leafturn.base.arrays import FloatArray
from leafturn.garden.model import Place
from leafturn.weather.calendar import LEAP_YEAR_DAYS
from leafturn.weather.normals.normals import SPREAD, Normals, NormalsBasis, guessed_rain, usual_spread
from leafturn.weather.normals.place_climate import PlaceClimate, Seasons, climate_at

# [daily spreads above 0 degC] normal minimum on usual frost dates: set on freeze dates and months of 18 towns
FROST_CURVE = 1.4
# [daily spreads above 0 degC] coldest normal night where nearly all years freeze, and where none does;
# guesses, which made-up years correct
RARE_CURVE, MILD_CURVE = 1.6, 2.8
# Where frosts move the nights, days stay as warm as in the towns until they are so many times as far from the
# nights as there; beyond it the place lies higher or lower than was thought. Guesses.
DAY_NIGHT_PARTS = (0.5, 1.5)
LEAST_TURN = 0.5  # how far the year must turn from first frost to last, 2 from autumn to spring; guess
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

    The year is that of the towns about: as warm, as wide, as late, and turning between its seasons as there,
    with nights a little colder than theirs. Frost dates tell of the nights: these are moved until the normal
    minimum is 1.4 daily spreads above freezing on each, and days hardly at all. Where hardly a week freezes
    the year is coldest between the dates. All of it is a rule of thumb.

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
    known = [frost for frost in (last_frost, first_frost) if frost is not None]
    coldest, apart, night = _by_towns(latitude, here)
    if len(known) > 1 and _turn(coldest, *known) < LEAST_TURN:
        coldest, apart, night = _by_towns(latitude, here, _coldest_between(known[1], known[0], coldest))
    tmin, apart = here.mean + night - NIGHTS_WARMER, apart + NIGHTS_WARMER
    if known:
        on_frosts = FROST_CURVE * usual_spread(tmin, tmin + apart, lat=latitude, lon=longitude)
        warmer = _warmer_nights(coldest, on_frosts - tmin, known)
        tmin, apart = tmin + warmer, np.clip(apart - warmer, *(share * apart for share in DAY_NIGHT_PARTS))
    elif freezing < 1:
        lift = (MILD_CURVE - (MILD_CURVE - RARE_CURVE) * freezing) * SPREAD - float(tmin.min())
        tmin = tmin + (lift if freezing else max(lift, 0.0))
    rain, wet_share, _ = guessed_rain()
    tmax, strays = tmin + apart, np.full(LEAP_YEAR_DAYS, SPREAD)
    if freezing == 1:
        strays = usual_spread(tmin, tmax, lat=latitude, lon=longitude)
    return Normals(
        tmin=tmin, tmax=tmax, rain=rain, wet_share=wet_share, spread=strays,
        basis=_rough_basis(bool(known), freezing < 1), guess=True,
    )  # fmt: skip


class _Course(NamedTuple):
    """The coldest place; maximum less minimum, and normal minimum less the year's mean, (366,) [degC]."""

    coldest: float
    apart: FloatArray
    night: FloatArray


def _turn(coldest: float, last_frost: int, first_frost: int) -> float:
    """How far the year turns from first frost to last, 2 from the middle of autumn to that of spring."""
    turning = _wave(coldest + LEAP_YEAR_DAYS / 4)
    return float(turning[last_frost] - turning[first_frost])


def _warmer_nights(coldest: float, lacking: FloatArray, known: list[int]) -> FloatArray:
    """By how much nights are warmer than in the towns, (366,) [degC], to have what they lack on frost dates.

    One frost date moves all nights alike, two those of spring and of autumn each by its own.
    """
    level, tilt = float(lacking[known].mean()), 0.0
    turning = _wave(coldest + LEAP_YEAR_DAYS / 4)
    if len(known) > 1 and (turn := _turn(coldest, *known)) >= LEAST_TURN:
        tilt = float(lacking[known[0]] - lacking[known[1]]) / turn
        level = float(lacking[known[0]]) - tilt * float(turning[known[0]])
    return level + tilt * turning


def _by_towns(latitude: float, here: PlaceClimate, coldest: float | None = None) -> _Course:
    """As late as the towns about, or coldest as told, and turning as they do, days and nights as there."""
    if coldest is None:
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
