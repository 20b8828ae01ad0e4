"""Worked degree-day tables.

The methods are those of the University of California's Leaflet 21373 (Zalom et al. 1983) and Baskerville
and Emin 1969 (definitions as on UC IPM's pages). The figures were computed apart from this project,
the sine ones also by numerical integration to 0.001; the leaflet's own pages were not re-read.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from leafturn.season.degree_days import single_sine

# Above 50 F, with an upper threshold of 88 F; a column a day.
TABLE = np.array([
    (30,   35,   40,   41,   45, 50, 55,    60,    60,    48,    70,   90),  # tmin
    (50,   55,   60,   62,   65, 70, 75,    90,    95,    92,   100,  100),  # tmax
    ( 0, 1.09, 3.18, 4.13, 6.09, 10, 15, 24.78, 26.14, 19.67, 31.63, 38.0),  # sine, horizontal
]).T  # fmt: skip
TMIN, TMAX = TABLE[:, 0], TABLE[:, 1]
LOWER, UPPER = 50.0, 88.0
ROUNDED = 0.0051  # the table is printed to two decimals


def test_sine():
    np.testing.assert_allclose(single_sine(TMIN, TMAX, LOWER, UPPER), TABLE[:, 2], atol=ROUNDED)


def test_the_same_days_in_celsius():
    celsius = [(column - 32) / 1.8 for column in (TMIN, TMAX)]
    counted = single_sine(*celsius, 10.0, (UPPER - 32) / 1.8)
    np.testing.assert_allclose(counted, TABLE[:, 2] / 1.8, atol=ROUNDED)
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
