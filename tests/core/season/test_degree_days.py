"""Degree days: properties that hold whatever the weather."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra import numpy as hnp

from leafturn.season.degree_days import average, four_case, single_sine

CUTOFFS = ("horizontal", "intermediate", "vertical")
temperature = st.floats(-40, 50).map(lambda t: round(t, 2))
days = hnp.arrays(float, (2, 12), elements=temperature).map(lambda pair: np.sort(pair, axis=0))
thresholds = st.tuples(temperature, temperature).map(sorted)
every_method = pytest.mark.parametrize("method", [single_sine, average])
modest = settings(max_examples=50, deadline=None)


@every_method
@modest
@given(days=days, pair=thresholds)
def test_a_higher_lower_threshold_never_counts_more(method, days, pair):
    assert np.all(method(*days, pair[1]) <= method(*days, pair[0]) + 1e-9)


@every_method
@modest
@given(days=days, pair=thresholds)
def test_horizontal_cutoff_is_the_difference_of_two_counts(method, days, pair):
    low, high = pair
    np.testing.assert_allclose(method(*days, low, high), method(*days, low) - method(*days, high), atol=1e-9)


@every_method
@modest
@given(days=days, pair=thresholds)
def test_cutoffs_are_ordered_and_within_the_day(method, days, pair):
    low, high = pair
    horizontal, intermediate, vertical = (method(*days, low, high, cutoff) for cutoff in CUTOFFS)
    assert np.all(horizontal <= high - low + 1e-9)
    assert np.all(horizontal >= intermediate - 1e-9)
    assert np.all(horizontal >= vertical - 1e-9)
    assert np.all(np.stack([horizontal, intermediate, vertical]) >= 0)


@every_method
@pytest.mark.parametrize("cutoff", CUTOFFS)
@modest
@given(days=days, pair=thresholds)
def test_fahrenheit_gives_nine_fifths_of_celsius(method, cutoff, days, pair):
    def fahrenheit(celsius):
        return np.asarray(celsius) * 1.8 + 32

    # a reading exactly at a vertical cut-off falls on either side by rounding: keep away from it
    pair = (pair[0] + 0.0031, pair[1] + 0.0033)
    celsius = method(*days, *pair, cutoff)
    np.testing.assert_allclose(method(*fahrenheit(days), *fahrenheit(pair), cutoff), celsius * 1.8, atol=1e-5)


@modest
@given(days=days, pair=thresholds)
def test_heat_between_three_thresholds_adds_up(days, pair):
    low, high = pair
    middle = (low + high) / 2
    parts = single_sine(*days, low, middle) + single_sine(*days, middle, high)
    np.testing.assert_allclose(parts, single_sine(*days, low, high), atol=1e-9)


@modest
@given(days=days, threshold=temperature)
def test_the_sine_never_counts_less_than_the_average(days, threshold):
    """Both shapes have the day's mean, and warmth above a threshold is convex (Jensen)."""
    assert np.all(single_sine(*days, threshold) >= average(*days, threshold) - 1e-9)


@pytest.mark.parametrize("cutoff", CUTOFFS)
def test_the_sine_agrees_with_numerical_integration(cutoff):
    rng = np.random.default_rng(4)
    tmin = rng.uniform(-10, 25, 60)
    tmax = tmin + rng.uniform(0.5, 20, 60)
    low, high = 7.0, 21.0
    phase = (np.arange(40_000) + 0.5) / 40_000
    curve = ((tmin + tmax) / 2)[:, None] - ((tmax - tmin) / 2)[:, None] * np.cos(2 * np.pi * phase)
    above_low, above_high = np.maximum(curve - low, 0).mean(1), np.maximum(curve - high, 0).mean(1)
    wanted = {
        "horizontal": above_low - above_high,
        "intermediate": np.maximum(above_low - 2 * above_high, 0),
        "vertical": np.where(curve > high, 0, np.maximum(curve - low, 0)).mean(1),
    }[cutoff]
    np.testing.assert_allclose(single_sine(tmin, tmax, low, high, cutoff), wanted, atol=2e-3)


@every_method
@pytest.mark.parametrize("cutoff", CUTOFFS)
def test_a_day_without_range_is_counted(method, cutoff):
    counted = method([3.0, 12.0, 40.0], [3.0, 12.0, 40.0], 5.0, 30.0, cutoff)
    at_forty = {"horizontal": 25.0, "intermediate": 15.0, "vertical": 0.0}[cutoff]
    np.testing.assert_allclose(counted, [0.0, 7.0, at_forty])


@every_method
def test_gaps_stay_gaps(method):
    nan = np.nan
    counted = method([nan, 2.0, nan, 2.0], [14.0, nan, nan, 14.0], 5.0, 30.0)
    assert np.isnan(counted).tolist() == [True, True, True, False]


@every_method
@pytest.mark.parametrize("cutoff", CUTOFFS)
def test_many_thresholds_at_once_give_what_each_gives_alone(method, cutoff):
    rng = np.random.default_rng(1)
    tmin = rng.normal(5, 8, (3, 40))
    tmax = tmin + rng.uniform(0, 18, (3, 40))
    lower, upper = np.array([4.0, 7.2, 4.0, 10.0]), np.array([25.0, 31.1, 25.0, 18.0])
    together = method(tmin, tmax, lower[:, None, None], upper[:, None, None], cutoff)
    assert together.shape == (4, 3, 40)
    for row, low, high in zip(together, lower, upper, strict=True):
        np.testing.assert_array_equal(row, method(tmin, tmax, low, high, cutoff))
    # a threshold of each day's own broadcasts too
    own = method(tmin, tmax, np.broadcast_to(4.0, (3, 1)), np.full(40, 25.0), cutoff)
    np.testing.assert_array_equal(own, together[0])


def test_shapes_broadcast_and_single_days_work():
    assert single_sine(2.0, 14.0, 5.0).shape == ()
    assert single_sine(2.0, [14.0, 15.0], 5.0).shape == (2,)
    assert single_sine(np.zeros((3, 1)), np.ones((1, 4)) * 9, 5.0).shape == (3, 4)
    assert single_sine([2.0], [14.0], np.arange(3.0)[:, None]).shape == (3, 1)
    assert single_sine(np.zeros((2, 0)), np.zeros((2, 0)), 5.0).shape == (2, 0)


def test_arguments_that_make_no_sense_are_refused():
    with pytest.raises(ValueError, match="upper threshold lies below"):
        single_sine(2.0, 14.0, 10.0, 5.0)
    with pytest.raises(ValueError, match="horizontal, vertical or intermediate"):
        single_sine(2.0, 14.0, 5.0, 10.0, "slanted")  # type: ignore[arg-type]


def test_inputs_are_left_as_they_were():
    tmin, tmax = np.array([2.0, -1.0]), np.array([14.0, 9.0])
    single_sine(tmin, tmax, 5.0, 10.0, "vertical")
    assert tmin.tolist() == [2.0, -1.0]
    assert tmax.tolist() == [14.0, 9.0]


@modest
@given(days=days, limit=temperature)
def test_the_four_cases_agree_with_the_mean_on_whole_days_and_lie_near_the_sine(days, limit):
    counted, whole, sine = four_case(*days, limit), average(*days, limit), single_sine(*days, limit)
    outside = (days[0] >= limit) | (days[1] <= limit)
    np.testing.assert_allclose(counted[outside], whole[outside], atol=1e-9)
    assert np.all(counted >= whole - 1e-9)
    assert np.all(np.abs(counted - sine) <= 0.07 * (days[1] - days[0]) + 1e-9)


def test_the_four_cases_as_they_are_published():
    """Met Eireann, degree days below and above base temperature (read): one day of each case, base 5 C."""
    low, high = [7.0, 2.0, -1.0, -3.0, np.nan], [15.0, 14.0, 9.0, 4.0, 9.0]
    np.testing.assert_allclose(four_case(low, high, 5.0), [6.0, 3.75, 1.0, 0.0, np.nan])
