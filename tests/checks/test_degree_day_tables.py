"""Worked degree-day tables.

The methods are those of the University of California's Leaflet 21373 (Zalom et al. 1983) and Baskerville
and Emin 1969 (definitions as on UC IPM's pages). The figures were computed apart from this project,
the sine ones also by numerical integration to 0.001; the leaflet's own pages were not re-read.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from leafturn.season.degree_days import average, single_sine

# lower 50 F, upper 88 F: tmin, tmax, average, sine H I V
TABLE = np.array([
    (30, 50, 0, 0, 0, 0),
    (35, 55, 0, 1.09, 1.09, 1.09),
    (40, 60, 0, 3.18, 3.18, 3.18),
    (41, 62, 1.50, 4.13, 4.13, 4.13),
    (45, 65, 5.00, 6.09, 6.09, 6.09),
    (50, 70, 10, 10, 10, 10),
    (55, 75, 15, 15, 15, 15),
    (60, 90, 25.0, 24.78, 24.56, 18.46),
    (60, 95, 27.5, 26.14, 24.79, 14.93),
    (48, 92, 20.0, 19.67, 19.15, 12.26),
    (70, 100, 35.0, 31.63, 28.26, 15.07),
    (90, 100, 45.0, 38.0, 31.0, 0),
])  # fmt: skip
TMIN, TMAX = TABLE[:, 0], TABLE[:, 1]
LOWER, UPPER = 50.0, 88.0
ROUNDED = 0.0051  # the table is printed to two decimals


def test_average():
    np.testing.assert_allclose(average(TMIN, TMAX, LOWER), TABLE[:, 2], atol=ROUNDED)


@pytest.mark.parametrize(("cutoff", "column"), [("horizontal", 0), ("intermediate", 1), ("vertical", 2)])
def test_sine(cutoff, column):
    sine = single_sine(TMIN, TMAX, LOWER, UPPER, cutoff)
    np.testing.assert_allclose(sine, TABLE[:, 3 + column], atol=ROUNDED)


def test_the_same_days_in_celsius():
    celsius = [(column - 32) / 1.8 for column in (TMIN, TMAX)]
    counted = single_sine(*celsius, 10.0, (UPPER - 32) / 1.8)
    np.testing.assert_allclose(counted, TABLE[:, 3] / 1.8, atol=ROUNDED)
    assert single_sine(4.4444, 15.5556, 10.0) == pytest.approx(1.768, abs=0.001)


@pytest.mark.parametrize(
    ("tmin", "tmax", "lower", "upper", "expected", "tolerance"),
    [
        (2, 18, 5, None, 5.5623, 1e-3),
        (-4, 4, 0, None, 4 / math.pi, 1e-4),  # exact: mean of the upper half of a sine
        (10, 35, 10, 30, 11.5307, 1e-3),
        (45, 95, 50, 88, 19.5501, 1e-3),
        (2, 14, 5, None, 3.654, 1e-3),
        (-1, 9, 5, None, 1.123, 1e-3),
        (6, 20, 5, None, 8.000, 1e-3),
    ],
)
def test_single_sine_days(tmin, tmax, lower, upper, expected, tolerance):
    assert single_sine(tmin, tmax, lower, upper) == pytest.approx(expected, abs=tolerance)
