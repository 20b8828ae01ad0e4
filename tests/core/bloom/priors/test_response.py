"""Cold and warmth gathered, the level on a day, and the day of a level."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.samples.invented_sites import FIRST_YEAR, TRUE, YEARS, invented_weather

from leafturn.bloom.priors.response import (
    DAYS,
    FIRST_DAY,
    FROM_MIDSUMMER,
    SHORTENING,
    Response,
    ShortDays,
    day_reached,
    level_at,
    step,
    warmth,
)
from leafturn.bloom.site_years import site_years, stacked
from leafturn.season.sun import day_length

TMIN, TMAX = stacked(site_years(invented_weather(50)), range(FIRST_YEAR, FIRST_YEAR + YEARS))
SUMS = TRUE.sums(TMIN, TMAX)


@settings(max_examples=40, deadline=None)
@given(mean=st.floats(-15, 30), half=st.floats(0, 12), rate=st.floats(0.02, 0.24))
def test_a_days_warmth_is_the_mean_over_its_sine(mean: float, half: float, rate: float) -> None:
    """Against the integral done by brute force (Abramowitz and Stegun 1964, 9.6.16)."""
    around = np.linspace(0, 2 * np.pi, 4000, endpoint=False)
    brute = np.exp(rate * (mean + half * np.sin(around) - 10)).mean()
    assert float(warmth(mean, half, rate)) == pytest.approx(brute, rel=1e-5)


@settings(max_examples=60, deadline=None)
@given(
    mean=st.floats(-15, 32), half=st.floats(0, 12), rate=st.floats(0.02, 0.24), saturation=st.floats(12, 30)
)
def test_warmth_that_levels_off_is_the_mean_over_the_sine_too(
    mean: float, half: float, rate: float, saturation: float
) -> None:
    """Against a thousand moments of the day; the program takes eight."""
    moments = mean + half * np.sin((np.arange(1000) + 0.5) / 1000 * 2 * np.pi)

    def rising(t: np.ndarray) -> np.ndarray:
        return np.exp(rate * (t - 10)) / (1 + np.exp(rate * (t - saturation)))

    brute = rising(moments).mean() / rising(np.array(10.0))
    assert float(warmth(mean, half, rate, saturation)) == pytest.approx(float(brute), rel=2e-3)


def test_a_day_of_ten_degrees_counts_one() -> None:
    assert float(warmth(10.0, 0.0, 0.12)) == 1.0
    assert float(warmth(10.0, 0.0, 0.12, 20.0)) == pytest.approx(1.0)


def test_warmth_levels_off_where_it_is_said_to() -> None:
    """At that temperature half of the unlimited rise is left; far above hardly any more is gained."""
    at_ten = 1 + np.exp(0.15 * (10 - 22.0))
    assert float(warmth(22.0, 0.0, 0.15, 22.0)) == pytest.approx(float(warmth(22.0, 0.0, 0.15)) / 2 * at_ten)
    assert float(warmth(60.0, 0.0, 0.15, 22.0)) < 1.02 * float(warmth(50.0, 0.0, 0.15, 22.0))
    assert float(warmth(15.0, 6.0, 0.15, 500.0)) == pytest.approx(float(warmth(15.0, 6.0, 0.15)), rel=1e-5)


def test_an_array_of_days_is_taken_day_by_day() -> None:
    means, halves = np.linspace(-5, 28, 12).reshape(3, 4), np.linspace(1, 9, 12).reshape(3, 4)
    whole = warmth(means, halves, 0.15, 22.0)
    alone = [float(warmth(m, h, 0.15, 22.0)) for m, h in zip(means.flat, halves.flat, strict=True)]
    assert whole.ravel() == pytest.approx(np.array(alone))


def test_buds_stay_shut_until_enough_of_a_day_counts() -> None:
    plain, shut = Response(cold_need=40.0), Response(cold_need=40.0, closed_below=0.1)
    both = plain.daily(TMIN, TMAX), shut.daily(TMIN, TMAX)
    counts = both[0] / warmth((TMIN + TMAX) / 2, np.abs(TMAX - TMIN) / 2, plain.warmth_rate)
    assert (both[1][counts < 0.099] == 0).all()
    np.testing.assert_array_equal(both[1][counts > 0.101], both[0][counts > 0.101])
    assert (counts < 0.099).any()


def test_rest_ends_by_a_day_even_without_cold() -> None:
    """No cold at all: nothing counts until about that day, everything some weeks after it."""
    warm = np.full((1, DAYS), 25.0)
    waits, never = Response(cold_need=120.0, rest_ends=90.0), Response(cold_need=120.0)
    share = waits.daily(warm, warm)[0] / float(warmth(25.0, 0.0, 0.12))
    day = np.arange(DAYS) + FIRST_DAY
    assert share[day == 90] == pytest.approx(0.5)
    assert share[day < 30].max() < 0.01
    assert share[(day > 130)].min() > 0.98
    assert (never.daily(warm, warm) < waits.daily(warm, warm))[:, day > 60].all()
    # where cold was enough, it changes nothing
    cold = Response(cold_need=20.0, rest_ends=90.0).daily(TMIN, TMAX)
    assert cold == pytest.approx(Response(cold_need=20.0).daily(TMIN, TMAX), rel=1e-2, abs=1e-3)


def test_a_longer_day_counts_more_by_its_rate() -> None:
    longer = Response(cold_need=20.0, day_length_rate=0.2)
    hours = np.full(DAYS, 12.0)
    assert longer.daily(TMIN, TMAX, hours) == pytest.approx(longer.daily(TMIN, TMAX))
    ratio = longer.daily(TMIN, TMAX, hours + 3.0) / longer.daily(TMIN, TMAX, hours)
    assert ratio == pytest.approx(np.exp(0.6))
    plain = Response(cold_need=20.0)
    assert plain.daily(TMIN, TMAX, hours + 3.0) == pytest.approx(plain.daily(TMIN, TMAX))


def test_the_step_is_even_about_its_middle() -> None:
    x = np.linspace(-50, 50, 101)
    assert step(x) + step(-x) == pytest.approx(1.0)
    assert float(step(np.array(0.0))) == 0.5


def test_warmth_never_falls_and_hardly_counts_before_the_cold() -> None:
    assert (np.diff(SUMS, axis=1) >= 0).all()
    november = SUMS[:, 30 - FIRST_DAY - 61]
    assert (november < 0.05 * SUMS[:, 120 - FIRST_DAY]).all()


@settings(max_examples=30, deadline=None)
@given(day=st.integers(40, 200))
def test_the_day_of_the_level_on_a_day_is_that_day(day: int) -> None:
    level, growth = level_at(SUMS, np.full(YEARS, float(day)))
    assert day_reached(SUMS, level) == pytest.approx(day, abs=0.51)
    assert (growth > 0).all()


@settings(max_examples=30, deadline=None)
@given(low=st.floats(0, 5), more=st.floats(0.01, 2))
def test_a_higher_level_is_reached_later(low: float, more: float) -> None:
    levels = np.broadcast_to([low, low + more], (YEARS, 2))
    days = day_reached(SUMS, levels)
    assert (days[:, 1] > days[:, 0]).all()


def test_a_level_never_reached_comes_the_day_after_the_last() -> None:
    assert day_reached(SUMS, np.full(YEARS, 50.0)) == pytest.approx(DAYS + FIRST_DAY)


@settings(max_examples=25, deadline=None)
@given(degrees=st.floats(0.1, 6), first=st.integers(40, 90))
def test_warmer_days_after_the_cold_bring_every_level_forward(degrees: float, first: int) -> None:
    more = np.where(np.arange(DAYS) + FIRST_DAY >= first, degrees, 0.0)
    warm = Response(cold_need=20.0)  # met by the turn of the year at this place
    usual, early = (
        day_reached(warm.sums(TMIN + m, TMAX + m), np.full(YEARS, np.log(200.0))) for m in (0.0, more)
    )
    assert (early <= usual).all()
    assert (early < usual)[usual > first + 5].all()


def test_a_greater_need_of_cold_delays() -> None:
    days = [
        day_reached(Response(cold_need=need).sums(TMIN, TMAX), np.full(YEARS, 3.5))
        for need in (30.0, 60.0, 90.0)
    ]
    assert (days[0] <= days[1]).all()
    assert (days[1] < days[2]).all()


NORTH = day_length(50.0, (np.arange(DAYS) + FIRST_DAY - 1) % 365 + 1)


def short_days_sums(**more: float) -> np.ndarray:
    return ShortDays(**more).sums(TMIN, TMAX, NORTH)


def test_short_days_count_from_midsummer_on_and_no_more_than_one_each() -> None:
    daily = ShortDays().daily(TMIN, TMAX, NORTH)
    day = np.arange(DAYS) + FIRST_DAY
    assert (daily[:, day < SHORTENING] == 0).all()
    assert (daily[:, day == SHORTENING] >= FROM_MIDSUMMER).all()
    after = daily[:, day > SHORTENING]
    assert ((after >= 0) & (after <= 1)).all()
    # hardly anything in the long days of July, most of a day each in mild September
    assert after[:, :20].max() < 0.01
    assert daily[:, (day > 258) & (day < 268)].mean() > 0.7


def test_short_days_without_any_length_of_day_are_twelve_hours_long() -> None:
    assert ShortDays().daily(TMIN, TMAX) == pytest.approx(ShortDays().daily(TMIN, TMAX, np.full(DAYS, 12.0)))


@settings(max_examples=20, deadline=None)
@given(shorter=st.floats(0.1, 1.5))
def test_who_waits_for_shorter_days_opens_later(shorter: float) -> None:
    level = np.full(YEARS, np.log(FROM_MIDSUMMER + 10.0))
    usual = day_reached(short_days_sums(), level)
    late = day_reached(short_days_sums(hours_half=13.3 - shorter), level)
    assert (late > usual).all()
