"""Chill totals: what holds for any winter."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra import numpy as hnp

from leafturn.season.chill import chill_hours, chill_portions

COUNTS = [chill_portions, chill_hours]
winters = hnp.arrays(float, (3, 200), elements=st.floats(-25, 30))


@settings(max_examples=25, deadline=None)
@given(hourly=winters)
def test_several_winters_at_once_give_what_each_gives(hourly):
    for count in COUNTS:
        together = count(hourly)
        assert together.shape == hourly.shape
        np.testing.assert_allclose(together, [count(row) for row in hourly], rtol=1e-12)


@settings(max_examples=25, deadline=None)
@given(hourly=winters)
def test_portions_and_hours_are_never_lost(hourly):
    assert np.all(np.diff(chill_portions(hourly), axis=-1) >= 0)
    assert np.all(np.diff(chill_hours(hourly), axis=-1) >= 0)
    # a running total: what comes later changes nothing before
    np.testing.assert_array_equal(chill_portions(hourly[..., :90]), chill_portions(hourly)[..., :90])


@pytest.mark.parametrize("count", COUNTS)
def test_from_a_gap_on_the_total_is_not_known(count):
    hourly = np.full(100, 6.0)
    hourly[60] = np.nan
    total = count(hourly)
    assert np.isfinite(total[:60]).all()
    assert np.isnan(total[60:]).all()
    assert np.isnan(count(np.stack([hourly, hourly]))[:, 60:]).all()


@pytest.mark.parametrize("count", COUNTS)
def test_no_hours_give_no_chill(count):
    assert count([]).shape == (0,)
    assert count(np.empty((2, 0))).shape == (2, 0)


def test_chill_hours_include_both_limits():
    assert chill_hours([0.0, 7.2, -0.1, 7.3]).tolist() == [1, 2, 2, 2]


@pytest.mark.parametrize("celsius", [-90.0, -150.0, -272.0, -273.0, -400.0])
def test_air_colder_than_any_gathers_nothing_and_no_warning(celsius: float) -> None:
    """As a curve through months may come to where one of them is -90 degC by a slip of the hand."""
    with np.errstate(over="raise", divide="raise", invalid="raise"):
        assert chill_portions(np.full((1, 72), celsius)).max() == 0.0
