"""Hourly temperatures between the daily readings."""

from __future__ import annotations

import numpy as np
import pytest

from leafturn.season.hourly import hourly_temperatures
from leafturn.season.sun import day_length

TMIN, TMAX = np.array([2.0, 4.0, 3.0, 1.0]), np.array([12.0, 14.0, 13.0, 10.0])
DAYS = np.array([80, 81, 82, 83])


def test_readings_are_met_and_not_passed():
    hours = hourly_temperatures(TMIN, TMAX, 45.0, DAYS).reshape(4, 24)
    assert hours.min(axis=1) == pytest.approx(TMIN, abs=1.0)
    assert hours.max(axis=1) == pytest.approx(TMAX, abs=0.3)
    assert np.all(hours >= np.minimum(TMIN, np.append(TMIN[1:], TMIN[-1]))[:, None] - 1e-9)
    assert np.all(hours <= TMAX[:, None] + 1e-9)


def test_warmest_after_noon_and_coldest_at_sunrise():
    hours = hourly_temperatures(TMIN, TMAX, 45.0, DAYS).reshape(4, 24)
    # the sine peaks (D + 4) / 2 hours after sunrise: two hours after noon
    assert hours.argmax(axis=1).tolist() == [14] * 4
    assert hours.argmin(axis=1)[:3].tolist() == [6, 6, 6]


def test_the_published_curves_at_single_hours():
    """Linvill 1990, evaluated by hand for one day and the night after it."""
    length = float(day_length(45.0, 81))
    hours = hourly_temperatures(TMIN, TMAX, 45.0, DAYS)
    sunrise, sunset = 12 - length / 2, 12 + length / 2
    assert hours[24 + 10] == pytest.approx(10 * np.sin(np.pi * (10 - sunrise) / (length + 4)) + 4)
    at_sunset = 10 * np.sin(np.pi * length / (length + 4)) + 4
    fall = np.log(22 - sunset) / np.log(24 - length)
    assert hours[24 + 22] == pytest.approx(at_sunset - (at_sunset - 3) * fall)
    fall = np.log(3 + 24 - sunset) / np.log(24 - length)
    assert hours[48 + 3] == pytest.approx(at_sunset - (at_sunset - 3) * fall, abs=0.05)


def test_many_years_at_once():
    years = np.stack([TMIN, TMIN - 5]), np.stack([TMAX, TMAX - 5])
    hours = hourly_temperatures(*years, 45.0, DAYS)
    assert hours.shape == (2, 96)
    np.testing.assert_allclose(hours[1], hours[0] - 5)
    np.testing.assert_array_equal(hours[0], hourly_temperatures(TMIN, TMAX, 45.0, DAYS))


def test_polar_days_and_gaps():
    for day in (172, 355):
        assert np.isfinite(hourly_temperatures([1.0, 2.0], [5.0, 6.0], 80.0, [day, day])).all()
    gap = hourly_temperatures([1.0, np.nan, 2.0], [9.0, 9.0, 9.0], 45.0, [80, 81, 82])
    assert np.isnan(gap[24:48]).any()
    assert np.isfinite(gap[8:17]).all()
    assert np.isfinite(gap[56:72]).all()
