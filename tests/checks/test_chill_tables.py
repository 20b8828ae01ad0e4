"""The dynamic model of chill with its published constants, kelvin counted from 273.

Constants from two independent public listings of Fishman, Erez and Couvillon 1987 (recurrence from memory);
the portions below were computed apart from this project.
"""

from __future__ import annotations

import numpy as np
import pytest

from leafturn.season.chill import chill_hours, chill_portions


@pytest.mark.parametrize(
    ("celsius", "hours", "portions"),
    [
        (6.0, 1000, 34.204),
        (6.0, 720, 24.433),
        (4.0, 1000, 29.849),
        (7.2, 1000, 34.886),
        (8.0, 1000, 34.568),
        (10.0, 1000, 32.436),
        (12.0, 1000, 25.002),
        (0.0, 1000, 4.857),
        (13.0, 1000, 0.0),
        (20.0, 1000, 0.0),
    ],
)
def test_constant_cold(celsius, hours, portions):
    assert chill_portions(np.full(hours, celsius))[-1] == pytest.approx(portions, abs=0.001)


@pytest.mark.parametrize(
    ("afternoon", "portions"), [(10.0, 34.36), (15.0, 30.15), (20.0, 20.51), (24.0, 0.0)]
)
def test_warm_afternoons_undo_cold_nights(afternoon, portions):
    """16 hours at 6 and 8 hours in the warm, 42 days: at 24 degrees nothing is left, as published."""
    hour = np.arange(42 * 24) % 24
    assert chill_portions(np.where(hour < 16, 6.0, afternoon))[-1] == pytest.approx(portions, abs=0.01)


@pytest.mark.parametrize(
    ("celsius", "hour"), [(5.0, 29), (8.0, 29), (4.0, 30), (2.0, 31), (10.0, 31), (12.0, 39)]
)
def test_first_portion_after_a_good_day(celsius, hour):
    """Published as 28 to 30 hours of good cold (from memory)."""
    assert np.flatnonzero(chill_portions(np.full(60, celsius)))[0] + 1 == hour


def test_one_series_both_ways():
    hour = np.arange(60 * 24)
    swing = 8 - 6 * np.cos(2 * np.pi * hour / 24)
    assert chill_portions(swing)[-1] == pytest.approx(42.47, abs=0.01)
    assert chill_hours(swing)[-1] == 660
