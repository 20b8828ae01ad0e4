"""The end of winter's rest, and heat counted from it."""

from __future__ import annotations

import numpy as np
import pytest

from leafturn.bloom.clock import HeatClock
from leafturn.season.axis import AXIS_DAYS, SeasonAxis
from leafturn.season.degree_days import single_sine
from leafturn.season.ensemble import Ensemble
from leafturn.season.heat import HeatSums
from leafturn.season.winter_chill import LATEST, WinterChill

AXIS = SeasonAxis(2027)
CAP = AXIS.month_day(LATEST)


def steady(*means: float) -> np.ndarray:
    return np.repeat(np.array(means)[:, None], AXIS_DAYS, axis=1)


def test_steady_cold_gathers_portions_at_the_published_pace() -> None:
    """At a steady 6 C the dynamic model makes 34.20 portions in 1000 hours (Fishman et al. 1987)."""
    cold = steady(6.0)
    chill = WinterChill(AXIS, cold, cold, 47.0)
    assert chill.rest_over(34.0)[0] == pytest.approx(1000 / 24, abs=2.0)  # portions come one at a time


def test_a_warm_winter_never_rests_and_is_let_go_in_spring() -> None:
    warm = steady(18.0)
    chill = WinterChill(AXIS, warm, warm, 47.0)
    assert chill.rest_over(30.0)[0] == CAP
    assert chill.short_of(30.0) == 1.0


def test_more_chill_is_never_met_earlier() -> None:
    noise = np.random.default_rng(3).normal(4, 5, (4, AXIS_DAYS))
    chill = WinterChill(AXIS, noise - 4, noise + 4, 47.0)
    days = np.array([chill.rest_over(p) for p in (10, 20, 40, 60, 90)])
    assert (np.diff(days, axis=0) >= 0).all()


def test_gaps_are_drawn_between_their_neighbours() -> None:
    whole = steady(6.0)
    holed = whole.copy()
    holed[0, 20:25] = np.nan
    assert WinterChill(AXIS, holed, holed, 47.0).rest_over(30.0) == WinterChill(
        AXIS, whole, whole, 47.0
    ).rest_over(30.0)


def test_heat_counts_from_the_end_of_rest_member_by_member() -> None:
    tmin, tmax = steady(3.0, 3.0), steady(9.0, 9.0)
    ensemble = Ensemble(
        axis=AXIS, tmin=tmin, tmax=tmax, rain=tmin * 0, today=-1, filled=0, basis="own record"
    )
    a_day = float(single_sine(3.0, 9.0, 5.0))
    starts = np.array([70.0, 100.0])
    reached = HeatSums(ensemble).day_reached_from(5.0, starts, 19.5 * a_day)
    assert reached.tolist() == [70 + 19, 100 + 19]
    clock = HeatClock(5.0, "season", 34.0)
    chill = WinterChill(AXIS, tmin, tmax, 47.0)
    waited = clock.day_reached(HeatSums(ensemble), chill, 19.5 * a_day)
    assert (waited == np.maximum(chill.rest_over(34.0), 61) + 19).all()
