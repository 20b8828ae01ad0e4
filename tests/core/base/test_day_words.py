"""Days and stretches of days in words."""

from __future__ import annotations

import datetime as dt

import pytest

from leafturn.base import day_words
from leafturn.base.date_range import Likely

ON = dt.date(2026, 11, 20)
AHEAD = "about 20 Jan, between 9 Jan and 12 Feb in 8 of 10 years"
EARLY, MIDDLE, LATE = dt.date(2027, 1, 9), dt.date(2027, 1, 20), dt.date(2027, 2, 12)


def test_a_year_is_said_once() -> None:
    said = "about 20 Jan 2027, between 9 Jan and 12 Feb in 8 of 10 years"
    assert day_words.about(Likely(EARLY, MIDDLE, LATE), ON) == said
    before = Likely(dt.date(2026, 12, 30), MIDDLE, LATE)
    assert day_words.about(before, ON) == (
        "about 20 Jan 2027, between 30 Dec and 12 Feb 2027 in 8 of 10 years"
    )
    assert day_words.likely(before, ON) == "20 Jan 2027 (30 Dec-12 Feb 2027)"


@pytest.mark.parametrize(
    ("on", "said", "column"),
    [
        (dt.date(2027, 1, 8), AHEAD, "20 Jan (9 Jan-12 Feb)"),
        (EARLY, "any day now, most likely 20 Jan, by 12 Feb", "20 Jan (by 12 Feb)"),
        (MIDDLE, "any day now, by 12 Feb", "20 Jan (by 12 Feb)"),
        (dt.date(2027, 1, 30), "about 20 Jan; if not yet, by 12 Feb", "20 Jan (by 12 Feb)"),
        (LATE, "about 20 Jan; if not yet, by 12 Feb", "20 Jan (by 12 Feb)"),
        (dt.date(2027, 3, 1), "about 20 Jan", "20 Jan (9 Jan-12 Feb)"),
        (None, AHEAD, "20 Jan (9 Jan-12 Feb)"),
    ],
)  # fmt: skip
def test_a_day_that_has_come_is_no_lower_bound(on: dt.date | None, said: str, column: str) -> None:
    when = Likely(EARLY, MIDDLE, LATE)
    assert (day_words.about(when, on), day_words.likely(when, on)) == (said, column)


@pytest.mark.parametrize(
    ("when", "said", "column"),
    [
        (
            Likely(EARLY, MIDDLE, None),
            "about 20 Jan, from 9 Jan, not in every year",
            "20 Jan (from 9 Jan, not in every year)",
        ),
        (
            Likely(None, MIDDLE, LATE),
            "about 20 Jan, by 12 Feb, not in every year",
            "20 Jan (by 12 Feb, not in every year)",
        ),
        (Likely(EARLY, None, None), "not in most years", "not in most years"),
    ],
)
def test_what_does_not_come_every_year_says_so(when: Likely, said: str, column: str) -> None:
    on = dt.date(2027, 1, 1)
    assert (day_words.about(when, on), day_words.likely(when, on)) == (said, column)


@pytest.mark.parametrize(
    ("on", "said", "column"),
    [
        (
            EARLY,
            "any day now, most likely 20 Jan, perhaps not this year",
            "20 Jan (perhaps not this year)",
        ),
        (LATE, "about 20 Jan; if not yet, perhaps not this year", "20 Jan (perhaps not this year)"),
        (None, "about 20 Jan, from 9 Jan, not in every year", "20 Jan (from 9 Jan, not in every year)"),
    ],
)
def test_a_day_that_is_near_and_may_not_come_is_told_of_this_year(
    on: dt.date | None, said: str, column: str
) -> None:
    when = Likely(EARLY, MIDDLE, None)
    assert (day_words.about(when, on), day_words.likely(when, on)) == (said, column)


@pytest.mark.parametrize(
    ("early", "late", "said"),
    [
        (EARLY, LATE, "9 Jan to 12 Feb 2027"),
        (EARLY, MIDDLE, "9 to 20 Jan 2027"),
        (EARLY, EARLY, "9 Jan 2027"),
        (ON, LATE, "20 Nov to 12 Feb 2027"),
        (None, LATE, "up to 12 Feb 2027"),
        (EARLY, None, "from 9 Jan 2027"),
        (None, None, "hardly ever"),
    ],
)
def test_a_stretch_names_a_month_and_a_year_once(
    early: dt.date | None, late: dt.date | None, said: str
) -> None:
    assert day_words.stretch(early, late, ON) == said


def test_a_day_close_by_has_its_own_word() -> None:
    assert day_words.near_day(ON, ON) == "today"
    assert day_words.about(Likely(ON, ON, ON), ON) == "today"
    assert day_words.about(Likely(ON, ON, LATE), ON) == "any day now, by 12 Feb 2027"
    assert [day_words.days_ago(ON, ON + dt.timedelta(days=n)) for n in (0, 1, 17, -1)] == [
        "today", "yesterday", "17 days ago", "in 1 day",
    ]  # fmt: skip


def test_every_day_in_words_names_its_month() -> None:
    assert day_words.long_day(ON) == "Fri 20 Nov 2026"
    assert (day_words.full_day(ON), day_words.month_year(ON)) == ("20 Nov 2026", "Nov 2026")
    assert day_words.day(None) == "no day"


@pytest.mark.parametrize(
    ("number", "said"),
    [(1, "a day"), (-4, "four days"), (7, "a week"), (-14, "two weeks"), (15, "15 days"), (105, "15 weeks")],
)
def test_days_as_one_says_them(number: int, said: str) -> None:
    assert day_words.some_days(number) == said


def test_what_is_over_is_told_by_its_day_alone() -> None:
    """ "The window closed about 16 Apr; if not yet, by 26 Apr: do not do it now" tells two things at once."""
    assert day_words.without_range(Likely(EARLY, MIDDLE, LATE), LATE) == "about 20 Jan"
    assert day_words.without_range(Likely(MIDDLE, MIDDLE, MIDDLE), MIDDLE) == "20 Jan"


def test_an_event_has_its_day_behind_it() -> None:
    assert day_words.with_day("leaf-out", Likely(EARLY, MIDDLE, LATE), MIDDLE) == "leaf-out (about 20 Jan)"
    assert day_words.with_day("leaf-out", Likely(EARLY, EARLY, EARLY), MIDDLE) == "leaf-out (9 Jan)"
    said = day_words.with_day("leaf fall", Likely(EARLY, EARLY, EARLY), MIDDLE, unseen=True)
    assert said == "leaf fall (about 9 Jan)", "one day by reckoning is not a day that somebody saw"
    assert day_words.with_day("leaf-out", Likely(EARLY, None, None), MIDDLE) == ""


def test_what_is_past_is_told_as_past() -> None:
    when = Likely(EARLY, MIDDLE, LATE)
    assert day_words.comes("comes", "came", when, ON).startswith("comes about 20 Jan 2027, between ")
    assert day_words.comes("comes", "came", when, dt.date(2028, 1, 9)) == "came about 20 Jan 2027"
    seen = Likely(EARLY, EARLY, EARLY)
    assert day_words.comes("comes", "came", seen, MIDDLE) == "came 9 Jan"
