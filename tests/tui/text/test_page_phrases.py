"""Dates, chances and amounts in words; the wordings are our own, the arithmetic is checked."""

from __future__ import annotations

import datetime as dt

import pytest
from fake_almanac import FakeAlmanac
from fake_garden import JOBS, ON, WALK, likely, make_job
from msgspec.structs import replace

from leafturn.base.date_range import Likely
from leafturn_tui.text import phrases, states


@pytest.mark.parametrize(
    ("number", "said"), [(4.53, "4.5"), (164.2, "160"), (0.0, "0"), (12.0, "12"), (-2.84, "-2.8")]
)
def test_numbers_have_two_figures_at_most(number: float, said: str) -> None:
    assert phrases.two_figures(number) == said


@pytest.mark.parametrize(("amount", "said"), [(35, "35 min"), (177, "2 h 57"), (120, "2 h"), (0, "no time")])
def test_minutes(amount: float, said: str) -> None:
    assert phrases.minutes(amount) == said


def test_ranges_of_dates() -> None:
    assert phrases.likely(likely(4, 16), ON) == "16 Apr (by 22 Apr)"
    assert phrases.likely(likely(4, 1), ON) == "1 Apr (26 Mar-7 Apr)"
    assert phrases.likely(Likely(dt.date(2027, 12, 30), dt.date(2028, 1, 3), dt.date(2028, 1, 9)), ON) == (
        "3 Jan 2028 (30 Dec-9 Jan 2028)"
    )
    assert (
        phrases.likely(Likely(dt.date(2027, 5, 1), dt.date(2027, 5, 9), None), ON)
        == "9 May (from 1 May, not in every year)"
    )
    assert (
        phrases.likely(Likely(None, dt.date(2027, 5, 1), dt.date(2027, 5, 9)), ON)
        == "1 May (by 9 May, not in every year)"
    )
    assert phrases.likely(Likely(None, None, None), ON) == "not in most years"


def test_states_are_words_with_their_days() -> None:
    told = ["tonight", "past best, 2 days", "gone by", "held", "done", "coming"]
    assert [states.words(job, ON) for job in JOBS] == told
    assert states.words(make_job("a", "b", "c", "late", days_late=1), ON) == "past best, 1 day"


def test_who_or_why_nobody() -> None:
    told = ["steward", "bench helper", "next 20 Jan 2028", "until 1 Sep", "", "nobody here can"]
    assert [phrases.whose(job, ON) for job in JOBS] == told


def test_a_range_that_says_nothing_more_than_the_likely_share_is_told_from_end_to_end() -> None:
    assert phrases.tenths(1.0, 0.0, 1.0) == "10 of 10 (0 to 10)"
    assert phrases.tenths_in_table(1.0, 0.0, 1.0) == "10 (0 to 10)"
    assert phrases.tenths(0.3, 0.0, 0.6) == "3 of 10 (up to 6 of 10)"
    assert phrases.tenths(0.0, 0.0, 0.6) == "hardly any (up to 6 of 10)"
    assert phrases.tenths(0.3, 0.1, 0.6) == "3 of 10 (1 to 6)"


def test_a_stop_at_several_plants_is_told_from_the_stop_before_it() -> None:
    """Between commas "grav, apple and pear" read as another stop at grav."""
    the_round = FakeAlmanac().round()
    stops = ("gate", "grav", "grav, apple and pear", "quince")
    said = phrases.walk_line(replace(the_round, walk=replace(WALK, stops=stops)))
    assert said.endswith("gate; grav; grav, apple and pear; quince")
    assert phrases.walk_line(the_round).endswith("gate, early-plum, quince")
