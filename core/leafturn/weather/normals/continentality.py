"""How warm a year is, and how far apart its summer and winter lie, where nothing is known but the place."""

import math

from msgspec import Struct

from leafturn.toml.packaged import rows_by_name

EQUATOR, TO_POLE = 29.0, 34.0  # [degC] mean of the year is EQUATOR - TO_POLE sin(latitude)^2; guess
LAPSE = 6.5  # [degC/km], ICAO standard atmosphere 1993
# [degC], and for each degree of latitude, where no area is known; guess
LEAST_RANGE, RANGE_PER_DEGREE = 2.5, 0.4


Seasons = tuple[float, float, float, float]


class Area(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """An area between two latitudes and two longitudes [deg], and what its towns have in common.

    `k` is Conrad's index, `warmer` how much warmer their year is than their latitude has it at sea level
    [degC], `height_m` how high they lie. `coldest` is the day of January (south: July) that is coldest,
    `between` how much warmer spring and autumn are than one wave has them, and `day_night` the maximum less
    the minimum of a day in winter, spring, summer and autumn [degC].
    """

    lat: tuple[float, float]
    lon: tuple[float, float]
    k: float
    warmer: float
    height_m: float
    coldest: int
    between: float
    day_night: Seasons
    towns: str
    name: str = ""

    def holds(self, latitude: float, longitude: float) -> bool:
        """Whether a place [deg] lies in it."""
        return self.lat[0] <= latitude < self.lat[1] and self.lon[0] <= longitude < self.lon[1]


areas = rows_by_name("leafturn.weather.normals", "continentality.toml", Area)
"""Every known area by name; the first that holds a place counts."""


def area_of(latitude: float, longitude: float) -> Area | None:
    """The first listed area that holds a place [deg]."""
    return next((area for area in areas().values() if area.holds(latitude, longitude)), None)


def yearly_range(latitude: float, longitude: float) -> float:
    """Mean of the warmest month less that of the coldest [degC], by the place [deg] alone.

    By Conrad's index of continentality (Conrad 1946) in the areas that are listed; a rule of thumb.
    """
    area = area_of(latitude, longitude)
    if area is None:
        return LEAST_RANGE + RANGE_PER_DEGREE * abs(latitude)
    return (area.k + 14.0) * math.sin(math.radians(abs(latitude) + 10.0)) / 1.7


def yearly_mean(latitude: float, longitude: float, height_m: float | None) -> float:
    """Mean of the year [degC], by the place [deg] and its height alone; a rule of thumb.

    Where no height is told it is that of the area's towns, and sea level where no area is listed.
    """
    area = area_of(latitude, longitude)
    if height_m is None:
        height_m = area.height_m if area is not None else 0.0
    by_latitude = EQUATOR - TO_POLE * math.sin(math.radians(latitude)) ** 2
    return by_latitude + (area.warmer if area is not None else 0.0) - LAPSE * height_m / 1000
