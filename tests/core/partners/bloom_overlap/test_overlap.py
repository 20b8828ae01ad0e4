"""Days shared by two flowerings, draw by draw."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from leafturn.partners.bloom_overlap.overlap import (
    Window,
    covered,
    mean_overlaps,
    receptive,
    shedding,
)

ALL = 1.0  # every receptive day is needed
ONE = np.array([0])


def window(first, length=12.0):
    first = np.asarray(first, dtype=float)
    return Window(first, first + length)


def of_one(taking: Window, giving: Window, needed: float) -> tuple[float, float]:
    """Chance and mean days of one pair."""
    chance, days = mean_overlaps(
        Window(*(edge[None] for edge in taking)), Window(*(edge[None] for edge in giving)), ONE, ONE, needed
    )
    return float(chance[0]), float(days[0])


def by_hand(taking: Window, giving: Window, needed: float) -> tuple[float, float]:
    """The same, draw by draw in plain numbers."""
    chances, met = [], []
    for start, end, first, last in zip(*taking, *giving, strict=True):
        if math.isfinite(start):
            shared = max(min(end, last) - max(start, first), 0.0) if math.isfinite(first) else 0.0
            chances.append(min(shared / (end - start) / needed, 1.0))
            met.append(shared)
    return (float(np.mean(chances)), float(np.mean(met))) if met else (0.0, 0.0)


@pytest.mark.parametrize(("shift", "expected"), [(0, 0.87), (6, 0.50), (12, 0.07), (18, 0.00)])
def test_twelve_day_windows_set_apart(shift, expected):
    """Own prototype's figures; they agree with the normal distribution, by hand:

    with the two openings `shift` + N(0, 2) days apart, the share is E max(0, 1 - |apart| / 12).
    """
    apart = shift + 2.0 * np.random.default_rng(4).standard_normal(20_000)
    share, days = of_one(window(np.full(20_000, 170.0)), window(170.0 + apart), ALL)
    assert share == pytest.approx(expected, abs=0.03)
    assert days == pytest.approx(12 * share)


def test_the_share_at_no_shift_is_the_folded_normal_mean():
    """The mean of |N(0, s)| is s sqrt(2 / pi) (any table of the half-normal distribution)."""
    apart = 2.0 * np.random.default_rng(5).standard_normal(200_000)
    share, _ = of_one(window(np.zeros(200_000)), window(apart), ALL)
    assert share == pytest.approx(1 - 2 * math.sqrt(2 / math.pi) / 12, abs=0.001)


def test_a_tree_that_opens_the_other_sex_first_covers_all_and_its_own_kind_nothing():
    first, end = np.full(4, 100.0), np.full(4, 112.0)
    taking = receptive(first, end, "female first")
    assert (taking.start[0], taking.end[0]) == (100, 106)
    assert of_one(taking, shedding(first, end, "male first"), ALL) == (1.0, 6.0)
    assert of_one(taking, shedding(first, end, "female first"), ALL) == (0.0, 0.0)
    late = receptive(first, end, "male first")
    assert of_one(late, shedding(first, end, "female first"), ALL) == (1.0, 6.0)


@pytest.mark.parametrize(("apart", "chance"), [(0, 1), (6, 1), (9, 0.5), (12, 0)])
def test_half_of_the_days_are_enough_and_less_is_less_by_evenly_so_much(apart, chance):
    """Windows of 12 days, by hand: 6 shared days are half, 3 are half of what is enough."""
    share, days = of_one(window([100.0]), window([100.0 + apart]), 0.5)
    assert (share, days) == (chance, 12 - apart)


def test_years_without_flowers():
    never, often = np.array([np.inf, 100.0, 100.0]), np.array([100.0, np.inf, 100.0])
    share, days = of_one(window(often), window(never), ALL)
    assert share == 0.5, "counted over the two years in which the taker flowers"
    assert days == 6.0
    assert of_one(window([np.inf]), window([100.0]), ALL) == (0.0, 0.0)
    assert of_one(window([100.0]), window([np.inf]), ALL) == (0.0, 0.0)


days = st.lists(st.one_of(st.floats(60, 200), st.just(math.inf)), min_size=5, max_size=5)


@settings(max_examples=60, deadline=None)
@given(
    st.lists(days, min_size=1, max_size=4),
    st.lists(days, min_size=1, max_size=4),
    st.floats(1, 30),
    st.floats(0.05, 1),
)
def test_many_pairs_at_once_agree_with_one_by_one(recipients, donors, length, needed):
    taking, giving = window(recipients, length), window(donors)
    recipient, donor = np.divmod(np.arange(len(recipients) * len(donors)), len(donors))
    share, met = mean_overlaps(taking, giving, recipient, donor, needed)
    for n, (t, g) in enumerate(zip(recipient, donor, strict=True)):
        one = by_hand(Window(taking.start[t], taking.end[t]), Window(giving.start[g], giving.end[g]), needed)
        assert share[n] == pytest.approx(one[0], abs=1e-4)
        assert met[n] == pytest.approx(one[1], abs=1e-3)
        assert 0 <= share[n] <= 1


@settings(max_examples=40, deadline=None)
@given(days, days, st.floats(-40, 40))
def test_moving_both_together_changes_nothing(one, other, by):
    before, _ = covered(window(one), window(other))
    after, _ = covered(window(np.array(one) + by), window(np.array(other) + by))
    assert after == pytest.approx(before, abs=1e-9)
