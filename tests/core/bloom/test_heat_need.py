"""A plant's heat need from the book, the garden's notes of its kind, and its own."""

from __future__ import annotations

import datetime as dt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from leafturn.bloom.need_from_notes import BookNeed, HeatNote, need_from_notes

BOOK = BookNeed(heat=200.0, spread_days=4.0, weight=3.0)


def notes(*heats: float, plant: str = "pear-1", by: str | None = None, year: int = 2017) -> list[HeatNote]:
    return [
        HeatNote(plant=plant, on=dt.date(year + i, 4, 20), heat=heat, gain=6.0, by=by)
        for i, heat in enumerate(heats)
    ]


def test_without_notes_the_book_stands() -> None:
    need = need_from_notes(BOOK, "pear-1", [])
    assert (need.used, need.own, need.notes) == (200.0, None, 0)


@given(st.lists(st.floats(192, 208), min_size=1, max_size=8))
@settings(max_examples=40, deadline=None)
def test_one_plant_and_watcher_weigh_as_the_plain_rule_says(heats: list[float]) -> None:
    """(n own + w book) / (n + w), the conjugate rule, while no note is far off (Lindley & Smith 1972)."""
    need = need_from_notes(BOOK, "pear-1", notes(*heats))
    plain = (sum(heats) + 3 * 200.0) / (len(heats) + 3)
    assert need.used == pytest.approx(plain, abs=0.4)
    assert need.spread_days > BOOK.spread_days


def test_notes_of_other_plants_of_the_kind_pull_less_than_own() -> None:
    own = need_from_notes(BOOK, "pear-1", notes(215, 216, 214)).used
    other = need_from_notes(BOOK, "pear-1", notes(215, 216, 214, plant="pear-2")).used
    assert 200 < other < own < 215


def test_a_note_far_off_counts_for_little_and_is_named() -> None:
    steady = notes(212, 214, 213, 215, 211)
    wild = [*steady, *notes(420, year=2023)]
    need = need_from_notes(BOOK, "pear-1", wild)
    assert need.used == pytest.approx(need_from_notes(BOOK, "pear-1", steady).used, abs=4.0)
    (said,) = need.questioned
    assert "2023" in said
    assert "counts for little" in said


def test_the_eyes_of_two_watchers_are_told_apart() -> None:
    steward, helper = notes(210, 212, 208, 211, by="steward"), notes(240, 242, 238, 241, by="helper")
    need = need_from_notes(BOOK, "pear-1", [*steward, *helper], observer="steward")
    assert need.watcher_days["helper"] > 1.0
    assert need.used < need_from_notes(BOOK, "pear-1", [*steward, *helper], observer="helper").used
