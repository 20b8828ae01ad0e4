"""Heat sums."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.samples.frost_years import OWN_RECORD
from tests.samples.garden_text import MONTHS

from leafturn.garden.model import Climate, Place
from leafturn.season.axis import AXIS_DAYS, SeasonAxis
from leafturn.season.degree_days import single_sine
from leafturn.season.ensemble import Ensemble
from leafturn.season.heat import HeatSums, cumulative_heat, day_reached
from leafturn.weather.normals.normal_year import normal_year

NORMALS = normal_year(
    Place(lat=46.93, lon=15.87),
    Climate(tmax_c=tuple(MONTHS["tmax_c"]), tmin_c=tuple(MONTHS["tmin_c"])),
)


def ensemble(seed=0, members=6, today=150):
    rng = np.random.default_rng(seed)
    wave = 9 - 11 * np.cos(2 * np.pi * (np.arange(AXIS_DAYS) - 81) / 365)
    mean = wave + rng.normal(0, 3.4, (members, AXIS_DAYS))
    return Ensemble(axis=SeasonAxis(2023), tmin=mean - 5, tmax=mean + 5, rain=mean * 0,
                    observed_to=today, filled=0, made_of=OWN_RECORD)  # fmt: skip


def test_heat_is_summed_from_its_start():
    years = ensemble()
    daily = single_sine(years.tmin, years.tmax, 5.0)
    heat = cumulative_heat(years, 5.0, 61)
    assert np.all(heat[:, :61] == 0)
    np.testing.assert_allclose(heat[:, 200], daily[:, 61:201].sum(axis=1))
    np.testing.assert_array_equal(cumulative_heat(years, 5.0, -10), cumulative_heat(years, 5.0, 0))


@settings(max_examples=40, deadline=None)
@given(needs=st.lists(st.floats(0.1, 4000), min_size=1, max_size=8), seed=st.integers(0, 20))
def test_the_day_reached_is_the_first_with_the_need(needs, seed):
    heat = cumulative_heat(ensemble(seed), 5.0, 61)
    reached = day_reached(heat, needs)
    assert reached.shape == (len(needs), 6)
    for need, days in zip(needs, reached, strict=True):
        np.testing.assert_array_equal(day_reached(heat, need), days)
        for row, day in zip(heat, days, strict=True):
            if np.isinf(day):
                assert row[-1] < need
            else:
                assert row[int(day)] >= need
                assert row[int(day) - 1] < need


def test_needs_never_met_and_needs_of_nothing():
    heat = cumulative_heat(ensemble(), 5.0, 61)
    assert np.all(np.isinf(day_reached(heat, 1e9)))
    assert np.all(np.isinf(day_reached(heat, np.nan)))
    sums = HeatSums(ensemble())
    assert sums.day_reached(5.0, 61, 0.0).tolist() == [61.0] * 6
    assert np.all(np.isinf(sums.day_reached(5.0, 61, [1e9, np.nan])))


def test_sums_are_kept_and_told():
    years = ensemble()
    sums = HeatSums(years)
    assert sums.cumulative(5.0, 61) is sums.cumulative(5.0, 61)
    by_then = cumulative_heat(years, 5.0, 61)[:, years.observed_to]
    assert sums.to_date(5.0, 61) == pytest.approx(np.median(by_then))
    asked = day_reached(sums.cumulative(5.0, 61), 100.0)
    np.testing.assert_array_equal(sums.day_reached(5.0, 61, 100.0), asked)
