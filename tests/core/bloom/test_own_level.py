"""A plant's level from its kind and its notes, against the joint normal distribution written out."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from leafturn.bloom.notes.dates_share import share_by_dates
from leafturn.bloom.notes.own_level import LevelSpreads, own_level

KIND = LevelSpreads(middle=3.5)
SD = (KIND.lasting + KIND.drifting + KIND.chance) ** 0.5


def conditioned(levels: np.ndarray, years: np.ndarray, year: float) -> tuple[float, float]:
    """Mean and variance of the level in a year by conditioning one large normal on the notes directly."""
    when = np.append(years, year)
    joint = KIND.lasting + KIND.drifting * np.exp(-np.abs(when[:, None] - when) / KIND.drift_years)
    joint += np.diag(np.append(np.full(len(years), KIND.chance), 0.0))
    gain = np.linalg.solve(joint[:-1, :-1], joint[:-1, -1])
    return KIND.middle + float(gain @ (levels - KIND.middle)), float(joint[-1, -1] - gain @ joint[:-1, -1])


@settings(max_examples=40, deadline=None)
@given(
    st.lists(
        st.tuples(st.integers(1, 30), st.floats(-0.4, 0.4)), min_size=1, max_size=6, unique_by=lambda n: n[0]
    )
)
def test_ordinary_notes_follow_the_normal_distribution(notes: list[tuple[int, float]]) -> None:
    years = np.array([2000.0 + ago for ago, _ in notes])
    levels = KIND.middle + SD * np.array([off for _, off in notes])
    asked = own_level(KIND, levels, years, 2031.0)
    mean, variance = conditioned(levels, years, 2031.0)
    assert asked.mean == pytest.approx(mean, abs=0.02 * SD)
    assert asked.variance == pytest.approx(variance, rel=0.02)
    assert asked.weights == pytest.approx(1.0)


def test_without_notes_it_is_the_kinds_own() -> None:
    asked = own_level(KIND, np.empty(0), np.empty(0), 2000.0)
    assert (asked.mean, asked.variance) == (KIND.middle, KIND.lasting + KIND.drifting)


@settings(max_examples=40, deadline=None)
@given(off=st.floats(0.05, 0.3), sign=st.sampled_from([-1, 1]), notes=st.integers(1, 8))
def test_each_further_note_that_agrees_pulls_more_and_narrows(off: float, sign: int, notes: int) -> None:
    fewer, more = (
        own_level(KIND, np.full(n, KIND.middle + sign * off), 2000.0 - np.arange(n), 2001.0)
        for n in (notes, notes + 1)
    )
    assert 0 < sign * (fewer.mean - KIND.middle) <= sign * (more.mean - KIND.middle) + 1e-9 <= off + 1e-6
    assert more.variance <= fewer.variance + 1e-12


def test_recent_notes_count_more() -> None:
    levels = KIND.middle + np.array([0.1, -0.1])
    assert own_level(KIND, levels, np.array([1999.0, 1980.0]), 2000.0).mean > KIND.middle
    assert own_level(KIND, levels, np.array([1980.0, 1999.0]), 2000.0).mean < KIND.middle


@settings(max_examples=40, deadline=None)
@given(slip=st.floats(0.5, 3.0), sign=st.sampled_from([-1, 1]), place=st.integers(0, 5))
def test_a_note_far_from_the_others_loses_weight(slip: float, sign: int, place: int) -> None:
    levels = np.full(6, KIND.middle + 0.05)
    clean = own_level(KIND, levels, 2000.0 - np.arange(6), 2001.0)
    levels[place] += sign * slip
    asked = own_level(KIND, levels, 2000.0 - np.arange(6), 2001.0)
    assert int(np.argmin(asked.weights)) == place
    assert asked.weights[place] < 0.5
    assert abs(asked.mean - clean.mean) < 0.5 * slip / 6 + 0.01


def test_a_plant_far_off_in_all_its_notes_is_a_stranger_and_followed() -> None:
    far = KIND.middle + 2.0
    asked = own_level(KIND, np.full(3, far), np.array([1998.0, 1999.0, 2000.0]), 2001.0)
    assert asked.stranger > 0.9
    assert asked.mean == pytest.approx(far, abs=0.05)


DAYS = np.array([100.0, 104.0, 97.0, 110.0])


def share(levels: np.ndarray, days: np.ndarray, stranger: float = 0.0) -> float:
    return share_by_dates(levels, np.full(len(days), 0.05), days, 0.01, 6.0, stranger)


def test_dates_are_taken_by_themselves_where_levels_scatter_more() -> None:
    even = np.full(4, 3.5)
    wild = 3.5 + np.array([0.9, -0.9, 0.8, -0.8])
    assert share(even, DAYS) < 0.02
    assert share(wild, np.full(4, 100.0)) > 0.5


def test_one_wild_note_does_not_turn_the_answer() -> None:
    levels = np.array([3.5, 3.5, 3.5, 3.5, 3.5, 1.0])
    days = np.array([100.0, 101.0, 99.0, 100.0, 102.0, 55.0])
    assert share(levels, days) < 0.1
    assert share(np.array([3.5]), DAYS[:1]) == pytest.approx(0.02)


def test_a_stranger_is_believed_by_its_dates_sooner() -> None:
    levels = 3.5 + np.array([0.3, -0.3, 0.2, -0.2])
    assert share(levels, DAYS, stranger=1.0) > share(levels, DAYS, stranger=0.0)
    assert share(np.empty(0), np.empty(0)) == 0.0


def test_spreads_are_frozen() -> None:
    assert replace(KIND, middle=1.0).middle == 1.0
    with pytest.raises(AttributeError):
        KIND.middle = 1.0  # type: ignore[misc]
