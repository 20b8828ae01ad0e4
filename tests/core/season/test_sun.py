"""The sun's place: forms of argument, symmetry, poles."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest

from leafturn.season.sun import day_length, days_of_year, declination, position, sunset_hour_angle

NOON = np.datetime64("2024-06-20T12:00")


def test_moments_in_many_forms_are_the_same_moment():
    plain = position(46.9, 15.9, NOON)
    zone = dt.timezone(dt.timedelta(hours=2))
    elsewhere = dt.datetime(2024, 6, 20, 14, tzinfo=zone)
    for moment in ("2024-06-20T12:00", dt.datetime(2024, 6, 20, 12), elsewhere):
        np.testing.assert_allclose(position(46.9, 15.9, moment), plain)
    many = position(46.9, 15.9, [elsewhere] * 3)
    assert many[0].shape == (3,)
    np.testing.assert_allclose(many[0], plain[0])


def test_arguments_broadcast():
    hours = NOON + np.arange(24) * np.timedelta64(1, "h")
    elevation, azimuth = position(np.array([46.9, -36.0])[:, None], 15.9, hours)
    assert elevation.shape == azimuth.shape == (2, 24)
    np.testing.assert_allclose(elevation[1], position(-36.0, 15.9, hours)[0])
    assert np.isnan(position(46.9, 15.9, np.datetime64("NaT", "us"))[0])


def test_the_sun_stands_south_at_noon_in_the_north_and_north_in_the_south():
    hours = NOON + np.arange(-60, 60) * np.timedelta64(1, "m")
    for latitude, bearing in ((46.9, 180.0), (-36.0, 0.0)):
        elevation, azimuth = position(latitude, 0.0, hours)
        highest = azimuth[elevation.argmax()]
        assert (highest - bearing + 180) % 360 - 180 == pytest.approx(0, abs=1)
    # highest sun at the solstice: 90 - latitude + obliquity
    assert position(46.9, 0.0, hours)[0].max() == pytest.approx(90 - 46.9 + 23.44, abs=0.02)


def test_it_rises_in_the_east_and_sets_in_the_west():
    hours = np.datetime64("2024-03-20T00:00") + np.arange(24 * 60) * np.timedelta64(1, "m")
    elevation, azimuth = position(46.9, 0.0, hours)
    rises, sets = np.flatnonzero(np.diff(elevation > 0))
    assert azimuth[rises] == pytest.approx(90, abs=1)
    assert azimuth[sets] == pytest.approx(270, abs=1)
    assert (sets - rises) / 60 == pytest.approx(12, abs=0.1)


def test_polar_day_and_night():
    assert day_length(75.0, 172) == pytest.approx(24)
    assert day_length(75.0, 355) == 0
    assert day_length(-75.0, 355) == pytest.approx(24)
    assert day_length(90.0, 172) == pytest.approx(24)
    assert sunset_hour_angle(0.0, 100) == pytest.approx(np.pi / 2)


def test_day_lengths_mirror_across_the_equator():
    days = np.arange(1, 366)
    np.testing.assert_allclose(day_length(50.0, days) + day_length(-50.0, days), 24, atol=1e-9)
    assert np.degrees(declination(days)).max() == pytest.approx(23.43, abs=0.05)


@pytest.mark.parametrize("first", [dt.date(1999, 10, 1), dt.date(2027, 5, 1), dt.date(2100, 1, 1)])
def test_days_of_the_year_are_those_of_the_calendar(first: dt.date) -> None:
    """Python's calendar counts them; 2000 and 2028 have a 29 February, 2100 has none."""
    told = [(first + dt.timedelta(n)).timetuple().tm_yday for n in range(900)]
    assert days_of_year(first, 900).tolist() == told
