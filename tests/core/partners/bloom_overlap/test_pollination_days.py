"""Days as bees and wind count them."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays
from tests.samples.partners import APPLE, HAZEL, bloom, garden, plant, reviewed, weather

from leafturn.partners.bloom_overlap.pollination_days import LEAST, CarrierDays, carrying, clocks, every_day

FEW = settings(max_examples=40, deadline=None)


def test_bees_stay_home_below_ten_degrees_and_in_the_rain_and_wind_minds_only_the_rain():
    """Honey bees hardly fly below 10-12 degC nor in rain (common knowledge of beekeepers, from memory)."""
    tmax, rain = np.array([8.0, 12.0, 18.0, 18.0]), np.array([0.0, 0.0, 0.0, 12.0])
    assert carrying(tmax, rain, "insect") == pytest.approx([LEAST, 0.5, 1.0, 0.125])
    assert carrying(tmax, rain, "wind") == pytest.approx([1.0, 1.0, 1.0, 0.125])


@FEW
@given(
    arrays(float, (3, 60), elements=st.floats(0.02, 1)),
    st.lists(st.floats(-20, 90), min_size=2, max_size=8),
)
def test_later_days_never_count_less_and_whole_days_sum_up(weights, days):
    clock = CarrierDays(weights)
    asked = np.repeat(np.sort(days)[:, None], 6, axis=1)
    counted = clock.at(asked)
    assert (np.diff(counted, axis=0) >= -1e-9).all()
    assert clock.at(np.full(6, 60.0)) == pytest.approx(np.repeat(weights.sum(axis=1), 2))
    assert np.isinf(clock.at(np.full(6, np.inf))).all()


def test_a_day_that_always_counts_whole_is_the_calendar():
    days = np.random.default_rng(1).uniform(0, 400, 240)
    assert clocks(weather(20.0, 0.0))["insect"](days) == pytest.approx(days)
    assert every_day(days) is days


def pair(kind, names, forecasts, ensemble):
    here = garden(plant("a", kind, 0, 0, cultivar=names[0]), plant("b", kind, 5, 0, cultivar=names[1]))
    return {r.plant: r for r in reviewed(here, forecasts, weather=ensemble).trees}["a"]


def test_overlap_is_of_the_days_on_which_pollen_moves():
    """A quarter of the days are shared, but only they are warm: for bees the partner covers nearly all."""
    tmax = np.where(np.arange(488) < 179, 6.0, 18.0)
    forecasts = {"a": bloom("a", 170.0), "b": bloom("b", 179.0)}
    cold_start = pair(APPLE, ("Cox", "Discovery"), forecasts, weather(tmax, 0.0)).partners[0]
    always = pair(APPLE, ("Cox", "Discovery"), forecasts, weather(20.0, 0.0)).partners[0]
    assert always.overlap == pytest.approx(0.5), "a quarter is half of what is enough"
    assert always.days_overlap == pytest.approx(3.0)
    assert cold_start.overlap > 0.95
    by_wind = pair(HAZEL, ("Jefferson", "Hall's Giant"), forecasts, weather(tmax, 0.0)).partners[0]
    assert by_wind.overlap == pytest.approx(0.5), "wind does not mind the cold"


def test_a_whole_season_moved_with_its_weather_changes_nothing():
    random = np.random.default_rng(3)
    tmax, rain = random.normal(13, 4, (30, 488)), random.exponential(2, (30, 488))
    early = {"a": bloom("a", 170.0, seed=1), "b": bloom("b", 173.0, seed=2)}
    late = {"a": bloom("a", 180.0, seed=1), "b": bloom("b", 183.0, seed=2)}
    now = pair(APPLE, ("Cox", "Discovery"), early, weather(tmax, rain))
    later = pair(
        APPLE, ("Cox", "Discovery"), late, weather(np.roll(tmax, 10, axis=1), np.roll(rain, 10, axis=1))
    )
    assert later.adequacy == pytest.approx(now.adequacy, abs=1e-6)
