"""Warmth over a season and the days on which levels are reached, against a plain walk through the days."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.samples.frost_years import weather

from leafturn.bloom.draws import draws_of
from leafturn.bloom.members import ON_AXIS, ByDates, Target, level_draws, open_days, with_dates
from leafturn.bloom.notes.level_notes import Level
from leafturn.bloom.priors.response import Response, ShortDays, Timing
from leafturn.bloom.priors.stated import stated
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.bloom.warmth import BEFORE_AXIS, Warmth, warmth_of
from leafturn.season.axis import AXIS_DAYS, SeasonAxis
from leafturn.season.ensemble import REPEATS
from leafturn.season.sun import day_length

MEMBERS = 4
DAY = np.arange(AXIS_DAYS)


def years(seed: int = 1) -> SeasonWeather:
    """Four versions of a year with a winter."""
    rng = np.random.default_rng(seed)
    low = 5 - 10 * np.cos((DAY - 80) / 365 * 2 * np.pi) + rng.normal(0, 3, (MEMBERS, AXIS_DAYS))
    return weather(tmin=low, today=100)


SKY = years()
WARMTH = Warmth(SKY.now)
TIMINGS = (Response(), stated().new_shoots, ShortDays())


def plain_day(timing: Timing, member: int, level: float) -> float:
    """The day of a level, day after day."""
    sums = WARMTH.sums(timing)[member]
    before = 0.0
    for place, end in enumerate(sums):
        if end >= math.exp(level):
            part = (math.exp(level) - before) / max(end - before, 1e-12)
            return place + min(max(part, 0.0), 1.0) - 0.5 - BEFORE_AXIS
        before = end
    return math.inf


@settings(max_examples=60, deadline=None)
@given(
    st.sampled_from(TIMINGS),
    st.lists(st.floats(-3, 8), min_size=MEMBERS * REPEATS, max_size=MEMBERS * REPEATS),
)
def test_days_of_levels_are_those_of_a_plain_walk(timing: Timing, levels: list[float]) -> None:
    found = WARMTH.day_reached(timing, np.array(levels))
    plain = [plain_day(timing, draw // REPEATS, level) for draw, level in enumerate(levels)]
    assert found == pytest.approx(np.array(plain), abs=1e-6)


@settings(max_examples=30, deadline=None)
@given(st.sampled_from(TIMINGS), st.floats(-3, 8))
def test_one_level_is_asked_of_every_member(timing: Timing, level: float) -> None:
    found = WARMTH.day_reached(timing, np.array([level]))
    assert found.shape == (MEMBERS,)
    assert found == pytest.approx(np.array([plain_day(timing, m, level) for m in range(MEMBERS)]), abs=1e-6)
    each = WARMTH.day_reached(timing, np.full(MEMBERS, level))
    np.testing.assert_array_equal(each, found)


def test_a_level_never_reached_has_no_day() -> None:
    assert np.isinf(WARMTH.day_reached(Response(), np.array([60.0]))).all()
    assert np.isinf(WARMTH.day_reached(Response(), np.array([np.inf]))).all()


@settings(max_examples=30, deadline=None)
@given(st.integers(90, 250))
def test_the_level_of_a_day_is_reached_at_noon_of_it(day: int) -> None:
    levels, growth = WARMTH.level_at(Response(), day)
    assert WARMTH.day_reached(Response(), levels) == pytest.approx(np.full(MEMBERS, float(day)), abs=1e-6)
    assert ((growth >= 0.002) & (growth <= 2.0)).all()


def test_sums_begin_in_october_with_the_autumn_before_the_axis() -> None:
    both = SKY.now.from_autumn(BEFORE_AXIS)
    assert WARMTH.sums(Response()).shape == (MEMBERS, BEFORE_AXIS + AXIS_DAYS)
    assert SKY.axis.date(-BEFORE_AXIS).strftime("%m-%d") == "10-01"
    assert SeasonAxis(2027, True).date(-BEFORE_AXIS).strftime("%m-%d") == "03-31"
    np.testing.assert_allclose(WARMTH.sums(Response()), np.cumsum(Response().daily(both[0], both[1]), axis=1))
    np.testing.assert_array_equal(WARMTH.on_axis(Response()), WARMTH.sums(Response())[:, BEFORE_AXIS:])
    assert warmth_of(SKY.now) is warmth_of(SKY.now)


def test_days_have_the_length_of_the_gardens_latitude() -> None:
    midsummer = BEFORE_AXIS + SKY.axis.day(SKY.axis.start) + 171
    assert float(WARMTH.hours[midsummer]) == pytest.approx(float(day_length(45.0, np.array([172]))[0]))
    assert WARMTH.hours.max() == pytest.approx(WARMTH.hours[midsummer], abs=0.01)


LEVEL = Level(mean=3.2, variance=0.04, common=0.01, of_kind=0.01)


def test_levels_have_the_mean_and_variance_asked_for_and_what_is_common_is_shared() -> None:
    draws = 4000
    pear, apple, kin, wide = level_draws(
        [
            Target("pear", "pear", LEVEL, 1.0),
            Target("apple", "apple", LEVEL, 1.0),
            Target("pear-2", "pear", LEVEL, 1.0),
            Target("pear", "pear", LEVEL, 2.0),
        ],
        draws,
    )
    assert (pear.mean(), pear.var()) == (pytest.approx(3.2), pytest.approx(0.04))
    assert np.corrcoef(pear, apple)[0, 1] == pytest.approx(0.25, abs=0.06)
    assert np.corrcoef(pear, kin)[0, 1] == pytest.approx(0.5, abs=0.06)
    assert wide.std() == pytest.approx(0.4)


def opened(levels: np.ndarray, widening: float = 1.0) -> np.ndarray:
    """Days on which one plant opens."""
    return open_days(SKY, Response(), levels[None], np.array([widening]))[0]


def test_a_level_reached_at_noon_falls_on_its_day() -> None:
    levels = np.full(MEMBERS * REPEATS, 3.2)
    days = opened(levels)
    reached = WARMTH.day_reached(Response(), levels)
    assert days == pytest.approx(reached + ON_AXIS)
    assert {SKY.axis.date(d) for d in days} == {SKY.axis.date(round(r)) for r in reached}


def test_what_is_still_to_come_is_told_wider_and_what_is_over_is_not() -> None:
    level = np.full(MEMBERS * REPEATS, 4.0)
    plain, wide = (opened(level, w) for w in (1.0, 1.5))
    assert plain.min() > SKY.now.observed_to
    assert wide.std() == pytest.approx(1.5 * plain.std())
    early = np.full(MEMBERS * REPEATS, float(np.log(WARMTH.on_axis(Response())[:, 90].min())))
    over = [opened(early, w) for w in (1.0, 1.5)]
    gone = WARMTH.day_reached(Response(), early) <= SKY.now.observed_to
    assert gone.any()
    np.testing.assert_array_equal(over[0][gone], over[1][gone])


def test_dates_by_themselves_take_their_share_of_the_draws() -> None:
    levels = np.full(MEMBERS * REPEATS, 4.0)
    plain = opened(levels)
    mixed = with_dates(plain, ByDates(share=0.25, day=300.0, sd=1.0), "p")
    by_date = mixed != plain
    assert by_date.mean() == pytest.approx(0.25, abs=0.04)
    assert abs(mixed[by_date] - 300.5).max() < 4.0
    alone = with_dates(plain, ByDates(share=1.0, day=300.0, sd=2.0), "p")
    assert (alone.mean(), alone.std()) == (pytest.approx(300.5), pytest.approx(2.0, rel=0.1))


@given(st.integers(1, 400), st.text(max_size=8))
@settings(max_examples=40)
def test_draws_are_the_same_at_every_run_and_centred(draws: int, name: str) -> None:
    assert (draws_of(draws, name) == draws_of(draws, name)).all()
    assert abs(draws_of(draws, name).mean()) < 1e-9
