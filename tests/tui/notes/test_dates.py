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
        ("yesterday", dt.date(2027, 4, 18)),
        ("today", ON),
        ("24/12/2027", dt.date(2027, 12, 24)),
    ],
)
def test_dates(typed: str, meant: dt.date) -> None:
    assert dates.date(typed, ON) == meant


@pytest.mark.parametrize(
    "typed", ["soon", "31 Feb", "99999999999999999999", "2027-13-01", "\x00", "0000-01-01"]
)
def test_what_is_no_date_is_said_in_a_sentence(typed: str) -> None:
    with pytest.raises(NotUnderstood, match="is no date; write"):
        dates.date(typed, ON)
