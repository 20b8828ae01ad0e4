"""Days and stretches of days in words."""

from __future__ import annotations

import datetime as dt

import pytest

from leafturn.base import day_words
from leafturn.base.date_range import Likely

ON = dt.date(2026, 11, 20)
EARLY, MIDDLE, LATE = dt.date(2027, 1, 9), dt.date(2027, 1, 20), dt.date(2027, 2, 12)


def test_a_year_is_said_once() -> None:
    assert day_words.about(Likely(EARLY, MIDDLE, LATE), ON) == "about 20 Jan 2027 (9 Jan to 12 Feb)"
    before = Likely(dt.date(2026, 12, 30), MIDDLE, LATE)
    assert day_words.about(before, ON) == "about 20 Jan 2027 (30 Dec to 12 Feb 2027)"
    assert day_words.likely(before, ON) == "20 Jan 2027 (30 Dec to 12 Feb 2027)"


@pytest.mark.parametrize(
    ("early", "late", "said"),
    [
        (EARLY, LATE, "9 Jan to 12 Feb 2027"),
        (EARLY, MIDDLE, "9 to 20 Jan 2027"),
        (EARLY, EARLY, "9 Jan 2027"),
        (ON, LATE, "20 Nov to 12 Feb 2027"),
        (None, LATE, "up to 12 Feb 2027, or never"),
        (EARLY, None, "from 9 Jan 2027, or never"),
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
    assert day_words.about(Likely(ON, ON, LATE), ON) == "about now (20 Nov to 12 Feb 2027)"
    assert day_words.about(Likely(ON, ON, LATE)) == "about 20 Nov (20 Nov to 12 Feb 2027)"
    assert [day_words.days_ago(ON, ON + dt.timedelta(days=n)) for n in (0, 1, 17, -1)] == [
        "today", "yesterday", "17 days ago", "in 1 day",
    ]  # fmt: skip


def test_every_day_in_words_names_its_month() -> None:
    assert day_words.long_day(ON) == "Fri 20 Nov 2026"
    assert (day_words.full_day(ON), day_words.month_year(ON)) == ("20 Nov 2026", "Nov 2026")
    assert day_words.day(None) == "never"
