"""Dates as people type them."""

from __future__ import annotations

import datetime as dt

import pytest
from fake_garden import ON

from leafturn_tui.notes import NotUnderstood, dates


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("2027-05-01", dt.date(2027, 5, 1)),
        ("1 May", dt.date(2027, 5, 1)),
        ("26 Apr", dt.date(2027, 4, 26)),
        ("+7", dt.date(2027, 4, 26)),
        ("2 weeks", dt.date(2027, 5, 3)),
        ("in two weeks", dt.date(2027, 5, 3)),
        ("three days", dt.date(2027, 4, 22)),
        ("end of June", dt.date(2027, 6, 30)),
        ("mid-October", dt.date(2027, 10, 15)),
        ("yesterday", dt.date(2027, 4, 18)),
        ("today", ON),
        ("24/12/2027", dt.date(2027, 12, 24)),
        ("2027/05/09", dt.date(2027, 5, 9)),
        ("2027.5.9", dt.date(2027, 5, 9)),
        ("5/13", dt.date(2027, 5, 13)),
        ("Saturday", dt.date(2027, 4, 24)),  # the days of the week as `cal 4 2027` has them
        ("monday", dt.date(2027, 4, 26)),
        ("next week", dt.date(2027, 4, 26)),
        ("in 3 days", dt.date(2027, 4, 22)),
    ],
)
def test_dates(typed: str, meant: dt.date) -> None:
    assert dates.date(typed, ON) == meant


@pytest.mark.parametrize(
    "typed", ["soon", "31 Feb", "32/1", "45 Apr", "99999999999999999999", "2027-13-01", "\x00", "0000-01-01"]
)
def test_what_is_no_date_is_said_in_a_sentence(typed: str) -> None:
    with pytest.raises(NotUnderstood, match="is no date; write"):
        dates.date(typed, ON)


@pytest.mark.parametrize(
    ("typed", "noted", "day"),
    [
        ("4 kg on 12 April", "4 kg", dt.date(2027, 4, 12)),
        ("2,5 kg, 12. Apr.", "2,5 kg", dt.date(2027, 4, 12)),
        ("4 kg April 12", "4 kg", dt.date(2027, 4, 12)),
        ("4 kg 2026-10-03", "4 kg", dt.date(2026, 10, 3)),
        ("4 kg 3.10.2026", "4 kg", dt.date(2026, 10, 3)),
        ("4 kg on 3 Oct", "4 kg", dt.date(2026, 10, 3)),  # the last there was
        ("rain 12 yesterday", "rain 12", dt.date(2027, 4, 18)),
        ("Ann 35 on Saturday", "Ann 35", dt.date(2027, 4, 17)),
        ("bay-2 58 last Monday", "bay-2 58", dt.date(2027, 4, 12)),
        ("58 a week ago", "58", dt.date(2027, 4, 12)),
        ("58 two weeks ago", "58", dt.date(2027, 4, 5)),
        ("58 3 days ago", "58", dt.date(2027, 4, 16)),
        ("yesterday", "", dt.date(2027, 4, 18)),
        ("poor, frost on 5 Apr", "poor, frost on 5 Apr", ON),
        ("poor, frost, 5 Apr", "poor, frost", dt.date(2027, 4, 5)),
        ("saturday pair 90", "saturday pair 90", ON),
        ("2 baskets in full sun", "2 baskets in full sun", ON),
        ("4 kg", "4 kg", ON),
    ],
)
def test_a_day_behind_what_is_noted(typed: str, noted: str, day: dt.date) -> None:
    assert dates.day_at_end(typed, ON) == (noted, day)


def test_a_day_behind_a_note_that_the_calendar_has_not_is_told() -> None:
    with pytest.raises(NotUnderstood, match="'31 Feb' is no date; write"):
        dates.day_at_end("4 kg on 31 Feb", ON)


@pytest.mark.parametrize("typed", ["5/9", "5/9/2027", "05/09/27"])
def test_a_day_that_may_be_two_is_refused_and_both_are_named(typed: str) -> None:
    """The order of day and month differs from country to country (Unicode CLDR: en-US M/d, en-GB dd/MM)."""
    with pytest.raises(NotUnderstood, match="may be 5 Sep or 9 May; write which"):
        dates.date(typed, ON)
    with pytest.raises(NotUnderstood, match="may be 5 Sep or 9 May; write which"):
        dates.day_at_end(f"3 lb on {typed}", ON)


def test_last_night_is_of_this_morning() -> None:
    assert dates.day_at_end("26F last night", ON) == ("26F", ON)
    assert dates.day_at_end("0.5 in this morning", ON) == ("0.5 in", ON)
    assert dates.day_at_end("1/2 inch", ON) == ("1/2 inch", ON)
