"""The sun's place and the day's length against astral 3.2."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest
from astral import Observer
from astral.sun import azimuth as astral_azimuth
from astral.sun import daylight
from astral.sun import elevation as astral_elevation

from leafturn.season.sun import day_length, position

PLACES = [(51.48, 0.0), (46.93, 15.87), (-36.0, 148.0), (0.0, -170.0), (64.0, -21.0)]
MOMENTS = [
    dt.datetime(2024, month, 3 * month - 2, hour, 17, tzinfo=dt.UTC)
    for month in range(1, 11)
    for hour in (0, 7, 13, 20)
]


@pytest.mark.parametrize(("latitude", "longitude"), PLACES)
def test_place_of_the_sun(latitude, longitude):
    observer = Observer(latitude, longitude)
    elevation, azimuth = position(latitude, longitude, MOMENTS)
    theirs = [astral_elevation(observer, moment, with_refraction=False) for moment in MOMENTS]
    np.testing.assert_allclose(elevation, theirs, atol=0.1)
    bearings = np.array([astral_azimuth(observer, moment) for moment in MOMENTS])
    apart = (azimuth - bearings + 180) % 360 - 180
    np.testing.assert_allclose(apart * np.cos(np.radians(elevation)), 0, atol=0.1)


@pytest.mark.parametrize("latitude", [-55.0, -20.0, 0.0, 38.0, 51.5, 60.0])
def test_length_of_the_day(latitude):
    """An almanac's day begins with the sun's upper edge and refraction: 50 minutes of arc longer each end.

    FAO's declination strays by up to 1.2 degrees in autumn, which weighs with the tangent of the latitude.
    """
    for month in range(1, 13):
        date = dt.date(2023, month, 15)
        begin, end = daylight(Observer(latitude, 0.0), date)
        almanac = (end - begin).total_seconds() / 3600
        day = date.timetuple().tm_yday
        declination = 0.409 * np.sin(2 * np.pi * day / 365 - 1.39)
        slant = np.sqrt(np.cos(np.radians(latitude)) ** 2 - np.sin(declination) ** 2)
        edge = 2 * (50 / 60) / 15 / slant  # hours in which the sun climbs that far, both ends
        stray = 0.03 + 0.17 * np.tan(np.radians(abs(latitude)))
        assert day_length(latitude, day) == pytest.approx(almanac - edge, abs=stray)
