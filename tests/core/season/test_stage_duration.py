"""Stages stretched in the cool and shortened in the warm."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.samples.frost_years import dry, steady

from leafturn.season.axis import AXIS_DAYS
from leafturn.season.ensemble import REPEATS
from leafturn.season.stage_duration import FASTEST, SLOWEST, USUAL_MEAN_C, Pace


def test_at_the_usual_warmth_a_day_is_a_day() -> None:
    start = np.full(2 * REPEATS, 100.25)
    assert Pace(steady(USUAL_MEAN_C)).after(start, 9.5) == pytest.approx(start + 9.5)


@pytest.mark.parametrize(("mean", "rate"), [(-10, SLOWEST), (40, FASTEST), (15, 15 / USUAL_MEAN_C)])
def test_warmth_shortens_and_cold_stretches_within_bounds(mean: float, rate: float) -> None:
    start = np.full(2 * REPEATS, 100.0)
    assert Pace(steady(mean)).after(start, 8.0) == pytest.approx(start + 8.0 / rate)


def test_what_never_begins_never_ends_and_what_lies_outside_is_paced_as_usual() -> None:
    start = np.full(2 * REPEATS, np.inf)
    assert np.isinf(Pace(steady(20)).after(start, 5.0)).all()
    before = np.full(2 * REPEATS, -20.0)
    assert Pace(steady(20)).after(before, 5.0) == pytest.approx(before + 5.0)


@given(st.integers(0, 2**32 - 1), st.floats(0, 300), st.floats(0.5, 60))
@settings(max_examples=40, deadline=None)
def test_against_a_day_by_day_loop(seed: int, begin: float, length: float) -> None:
    """The same sum, walked day by day; independent of the search the program uses."""
    tmean = np.random.default_rng(seed).normal(10, 8, (3, AXIS_DAYS))
    ends = Pace(dry(tmean, tmean)).after(np.full(3 * REPEATS, begin), length)
    for member in range(3):
        day, left = begin, length
        while left > 1e-9 and day < AXIS_DAYS:
            rate = min(max(tmean[member, int(day)] / USUAL_MEAN_C, SLOWEST), FASTEST)
            step = min(int(day) + 1 - day, left / rate)
            day, left = day + step, left - step * rate
        assert ends[member * REPEATS] == pytest.approx(day + left, abs=1e-6)
