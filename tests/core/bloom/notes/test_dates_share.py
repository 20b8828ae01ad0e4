"""Whether a plant's dates go with the warmth, or are better taken by themselves."""

from __future__ import annotations

import numpy as np
import pytest

from leafturn.bloom.notes.dates_share import share_by_dates

DAYS = np.array([100.0, 104.0, 97.0, 110.0])


def share(levels: np.ndarray, days: np.ndarray, stranger: float = 0.0, degrees_outside: float = 0.0) -> float:
    return share_by_dates(levels, np.full(len(days), 0.05), days, 0.01, 6.0, stranger, degrees_outside)


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


def test_far_from_the_winters_learnt_in_dates_are_believed_sooner() -> None:
    levels = 3.5 + np.array([0.3, -0.3, 0.2, -0.2])
    shares = [share(levels, DAYS, degrees_outside=degrees) for degrees in (0.0, 1.0, 3.0, 50.0)]
    assert shares == sorted(shares)
    assert shares[0] < shares[1] < shares[2] < 1.0
