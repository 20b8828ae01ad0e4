"""Worked degree-day tables.

The methods are those of the University of California's Leaflet 21373 (Zalom et al. 1983) and Baskerville
and Emin 1969 (definitions as on UC IPM's pages). The figures were computed apart from this project,
the sine ones also by numerical integration to 0.001; the leaflet's own pages were not re-read.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from leafturn.season.degree_days import average, four_case, modified_average, single_sine, single_triangle

# lower 50 F, upper 88 F: tmin, tmax, average, modified average, triangle H I V, sine H I V
TABLE = np.array([
    (30, 50, 0, 0, 0, 0, 0, 0, 0, 0),
    (35, 55, 0, 2.50, 0.625, 0.625, 0.625, 1.09, 1.09, 1.09),
    (40, 60, 0, 5.00, 2.50, 2.50, 2.50, 3.18, 3.18, 3.18),
    (41, 62, 1.50, 6.00, 3.43, 3.43, 3.43, 4.13, 4.13, 4.13),
    (45, 65, 5.00, 7.50, 5.625, 5.625, 5.625, 6.09, 6.09, 6.09),
    (50, 70, 10, 10, 10, 10, 10, 10, 10, 10),
    (55, 75, 15, 15, 15, 15, 15, 15, 15, 15),
    (60, 90, 25.0, 24.0, 24.93, 24.87, 22.40, 24.78, 24.56, 18.46),
    (60, 95, 27.5, 24.0, 26.80, 26.10, 19.20, 26.14, 24.79, 14.93),
    (48, 92, 20.0, 19.0, 19.86, 19.68, 16.41, 19.67, 19.15, 12.26),
    (70, 100, 35.0, 29.0, 32.60, 30.20, 17.40, 31.63, 28.26, 15.07),
    (90, 100, 45.0, 38.0, 38.0, 31.0, 0, 38.0, 31.0, 0),
])  # fmt: skip
TMIN, TMAX = TABLE[:, 0], TABLE[:, 1]
LOWER, UPPER = 50.0, 88.0
ROUNDED = 0.0051  # the table is printed to two decimals


def test_averages():
    np.testing.assert_allclose(average(TMIN, TMAX, LOWER), TABLE[:, 2], atol=ROUNDED)
    np.testing.assert_allclose(modified_average(TMIN, TMAX, LOWER, UPPER), TABLE[:, 3], atol=ROUNDED)


@pytest.mark.parametrize(("cutoff", "column"), [("horizontal", 0), ("intermediate", 1), ("vertical", 2)])
def test_triangle_and_sine(cutoff, column):
    triangle = single_triangle(TMIN, TMAX, LOWER, UPPER, cutoff)
    np.testing.assert_allclose(triangle, TABLE[:, 4 + column], atol=ROUNDED)
    sine = single_sine(TMIN, TMAX, LOWER, UPPER, cutoff)
    np.testing.assert_allclose(sine, TABLE[:, 7 + column], atol=ROUNDED)


def test_the_same_days_in_celsius():
    celsius = [(column - 32) / 1.8 for column in (TMIN, TMAX)]
    counted = single_sine(*celsius, 10.0, (UPPER - 32) / 1.8)
    np.testing.assert_allclose(counted, TABLE[:, 7] / 1.8, atol=ROUNDED)
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


def test_fifty_eighty_six_rule():
    """A growers' list quoting the rule: 52/85 F gives 18.5."""
    assert modified_average(52, 85, 50, 86) == pytest.approx(18.5)
    # beyond both limits the readings are held at 50 and 86
    assert modified_average(40, 95, 50, 86) == pytest.approx(18.0)


@pytest.mark.parametrize(
    ("tmin", "tmax", "expected"), [(2, 14, 3.75), (-1, 9, 1.0), (6, 20, 8.0), (-5, 3, 0.0), (5, 5, 0.0)]
)
def test_four_case_rule(tmin, tmax, expected):
    """Met Eireann, degree-day page: the four cases, base 5 C."""
    assert four_case(tmin, tmax, 5.0) == pytest.approx(expected)


def test_four_case_rule_keeps_gaps():
    assert np.isnan(four_case(np.nan, 14.0, 5.0))
