"""Degree days: properties that hold whatever the weather."""

from __future__ import annotations

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra import numpy as hnp

from leafturn.season.degree_days import four_case, single_sine

temperature = st.floats(-40, 50).map(lambda t: round(t, 2))
days = hnp.arrays(float, (2, 12), elements=temperature).map(lambda pair: np.sort(pair, axis=0))
thresholds = st.tuples(temperature, temperature).map(sorted)
modest = settings(max_examples=50, deadline=None)


@modest
@given(days=days, pair=thresholds)
def test_a_higher_lower_threshold_never_counts_more(days, pair):
    assert np.all(single_sine(*days, pair[1]) <= single_sine(*days, pair[0]) + 1e-9)


@modest
@given(days=days, pair=thresholds)
def test_no_day_counts_more_than_lies_between_the_thresholds(days, pair):
    low, high = pair
    counted = single_sine(*days, low, high)
    assert np.all((counted >= -1e-9) & (counted <= high - low + 1e-9))


@modest
@given(days=days, pair=thresholds)
def test_fahrenheit_gives_nine_fifths_of_celsius(days, pair):
    def fahrenheit(celsius):
        return np.asarray(celsius) * 1.8 + 32

    celsius = single_sine(*days, *pair)
    np.testing.assert_allclose(single_sine(*fahrenheit(days), *fahrenheit(pair)), celsius * 1.8, atol=1e-5)


@modest
@given(days=days, pair=thresholds)
def test_heat_between_three_thresholds_adds_up(days, pair):
    low, high = pair
    middle = (low + high) / 2
    parts = single_sine(*days, low, middle) + single_sine(*days, middle, high)
    np.testing.assert_allclose(parts, single_sine(*days, low, high), atol=1e-9)


@modest
@given(days=days, threshold=temperature)
def test_the_sine_never_counts_less_than_the_mean_all_day_long(days, threshold):
    """It has the day's mean, and warmth above a threshold is convex (Jensen)."""
    assert np.all(single_sine(*days, threshold) >= np.maximum(days.mean(axis=0) - threshold, 0) - 1e-9)


def test_the_sine_agrees_with_numerical_integration():
    rng = np.random.default_rng(4)
    tmin = rng.uniform(-10, 25, 60)
    tmax = tmin + rng.uniform(0.5, 20, 60)
    low, high = 7.0, 21.0
    phase = (np.arange(40_000) + 0.5) / 40_000
    curve = ((tmin + tmax) / 2)[:, None] - ((tmax - tmin) / 2)[:, None] * np.cos(2 * np.pi * phase)
    wanted = np.clip(curve - low, 0, high - low).mean(axis=1)
    np.testing.assert_allclose(single_sine(tmin, tmax, low, high), wanted, atol=2e-3)


def test_a_day_without_range_is_counted():
    counted = single_sine([3.0, 12.0, 40.0], [3.0, 12.0, 40.0], 5.0, 30.0)
    np.testing.assert_allclose(counted, [0.0, 7.0, 25.0])


def test_gaps_stay_gaps():
    nan = np.nan
    counted = single_sine([nan, 2.0, nan, 2.0], [14.0, nan, nan, 14.0], 5.0, 30.0)
    assert np.isnan(counted).tolist() == [True, True, True, False]


def test_shapes_broadcast_and_single_days_work():
    assert single_sine(2.0, 14.0, 5.0).shape == ()
    assert single_sine(2.0, [14.0, 15.0], 5.0).shape == (2,)
    assert single_sine(np.zeros((3, 1)), np.ones((1, 4)) * 9, 5.0).shape == (3, 4)
    assert single_sine(np.zeros((2, 0)), np.zeros((2, 0)), 5.0).shape == (2, 0)


def test_inputs_are_left_as_they_were():
    tmin, tmax = np.array([2.0, -1.0]), np.array([14.0, 9.0])
    single_sine(tmin, tmax, 5.0, 10.0)
    assert tmin.tolist() == [2.0, -1.0]
    assert tmax.tolist() == [14.0, 9.0]


@modest
@given(days=days, limit=temperature)
def test_the_four_cases_agree_with_the_mean_on_whole_days_and_lie_near_the_sine(days, limit):
    counted, sine = four_case(*days, limit), single_sine(*days, limit)
    whole = np.maximum(days.mean(axis=0) - limit, 0)
    outside = (days[0] >= limit) | (days[1] <= limit)
    np.testing.assert_allclose(counted[outside], whole[outside], atol=1e-9)
    assert np.all(counted >= whole - 1e-9)
    assert np.all(np.abs(counted - sine) <= 0.07 * (days[1] - days[0]) + 1e-9)


def test_the_four_cases_as_they_are_published():
    """Met Eireann, degree days below and above base temperature (read): one day of each case, base 5 C."""
    low, high = [7.0, 2.0, -1.0, -3.0, np.nan], [15.0, 14.0, 9.0, 4.0, 9.0]
    np.testing.assert_allclose(four_case(low, high, 5.0), [6.0, 3.75, 1.0, 0.0, np.nan])
