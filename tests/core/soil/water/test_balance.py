"""The bucket of one root zone, day by day."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from leafturn.season.evapotranspiration import extraterrestrial_radiation, hargreaves
from leafturn.soil.water.balance import Buckets, Used, crop_factor, stress, water_balance

LOAM_FOOT = 155 * 0.4  # mm


def buckets(total: float = LOAM_FOOT, *, leaf_out: float = -np.inf, members: int = 1) -> Buckets:
    return Buckets(
        total_mm=np.array([total]), share=np.array([0.5]), bare=np.array([0.5]), leafy=np.array([0.6]),
        leaf_out=np.full((1, members), leaf_out), leaf_fall=np.full((1, members), np.inf),
    )  # fmt: skip


def followed(demand: np.ndarray, rain: np.ndarray, poured: np.ndarray | None = None, **how: float) -> Used:
    return water_balance(buckets(**how), demand[None], rain[None], poured, first=0)


def test_without_rain_the_store_lasts_as_long_as_the_books_arithmetic_says() -> None:
    """FAO-56 chapter 8, a plain loop beside it; demand as in its example 20, 5 mm a day in July."""
    of_year = np.arange(182, 242)
    demand = hargreaves(14.8, 26.6, extraterrestrial_radiation(45.72, of_year))
    spent, day = 0.0, 0
    while True:
        wanted = 1.1 * demand[day]
        spent += wanted
        if spent > (0.5 + 0.04 * (5 - wanted)) * LOAM_FOOT:
            break
        day += 1
    assert followed(demand, demand * 0).dry_days(-1, -1)[0, 0] == day
    assert 4 <= day <= 8  # about 30 mm at 5.5 mm a day


def test_a_small_bucket_dries_before_a_large_one_and_rain_puts_it_off() -> None:
    demand = np.full(60, 4.0)
    small, large = (followed(demand, demand * 0, total=t).dry_days(-1, -1)[0, 0] for t in (40.0, 90.0))
    assert small < large
    assert np.isinf(followed(demand, np.full(60, 5.0)).dry_days(-1, -1)).all()


def test_a_wet_day_never_stores_more_than_the_soil_holds() -> None:
    demand, flood = np.full(60, 4.0), np.zeros(60)
    flood[10] = 500.0
    wet = followed(demand, flood).depletion[:, 0, 0]
    fresh = followed(demand, flood * 0).depletion[:, 0, 0]
    np.testing.assert_allclose(wet[10:], fresh[: 60 - 10], atol=1e-4)


def test_a_shower_that_dries_off_the_leaves_counts_for_nothing() -> None:
    """FAO-56 chapter 8: less than about a fifth of the day's demand is not counted."""
    demand = np.full(20, 5.0)
    dry = followed(demand, demand * 0).depletion
    np.testing.assert_array_equal(followed(demand, np.full(20, 0.9)).depletion, dry)
    assert followed(demand, np.full(20, 1.1)).depletion[-1] < dry[-1]


def test_water_poured_lowers_what_is_used_by_its_millimetres_or_fills_the_bucket() -> None:
    demand = np.full(10, 3.0)
    poured = np.zeros((1, 10))
    poured[0, 4] = 5.0
    plain, watered = followed(demand, demand * 0), followed(demand, demand * 0, poured)
    assert plain.depletion[4, 0, 0] - watered.depletion[4, 0, 0] == pytest.approx(5.0, abs=1e-4)
    poured[0, 4] = np.inf
    assert followed(demand, demand * 0, poured).depletion[4, 0, 0] == pytest.approx(1.1 * 3.0, abs=1e-4)


def test_a_shortage_that_rain_has_ended_is_forgotten_and_one_that_goes_on_keeps_its_first_day() -> None:
    demand, rain = np.full(40, 5.0), np.zeros(40)
    rain[20] = 200.0
    used = followed(demand, rain)
    first = used.dry_days(-1, today=10)[0, 0]
    assert first < 10
    assert used.dry_days(-1, today=19)[0, 0] == first
    assert used.dry_days(-1, today=21)[0, 0] > 21
    assert used.dry_days(30, today=35)[0, 0] == 31, "counted anew from the evening of a watering"


def test_the_crop_factor_follows_the_leaves() -> None:
    leafing = Buckets(
        total_mm=np.array([60.0]), share=np.array([0.5]), bare=np.array([0.5]), leafy=np.array([0.7]),
        leaf_out=np.array([[100.0]]), leaf_fall=np.array([[300.0]]),
    )  # fmt: skip
    factors = [float(crop_factor(leafing, day)[0, 0]) for day in (90, 100, 135, 170, 250, 285, 300, 310)]
    np.testing.assert_allclose(factors, [0.5, 0.5, 0.85, 1.2, 1.2, 0.85, 0.5, 0.5])


@settings(max_examples=50, deadline=None)
@given(st.lists(st.tuples(st.floats(0, 9), st.floats(0, 60)), min_size=1, max_size=60), st.floats(15, 300))
def test_use_stays_within_the_bucket_and_stress_within_none_and_all(
    days: list[tuple[float, float]], total: float
) -> None:
    """FAO-56 equations 84 and 86."""
    demand, rain = (np.array(column) for column in zip(*days, strict=True))
    used = followed(demand, rain, total=total)
    assert (used.depletion >= 0).all()
    assert (used.depletion <= total + 1e-3).all()
    left = stress(used.depletion, total, used.ready)
    assert ((left >= 0) & (left <= 1)).all()
