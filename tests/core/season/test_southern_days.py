"""A northern month and day is half a year off in the south, to the day; a last of a month stays one."""

from __future__ import annotations

import datetime as dt

import pytest

from leafturn.season.axis import SeasonAxis

SOUTH = SeasonAxis(2027, southern=True)


@pytest.mark.parametrize(
    ("northern", "winter", "southern"),
    [
        ("01-01", False, "2027-07-01"),
        ("03-01", False, "2027-09-01"),
        ("06-10", False, "2027-12-10"),
        ("07-20", False, "2028-01-20"),
        ("08-31", False, "2028-02-28"),
        ("12-15", False, "2028-06-15"),
        ("12-15", True, "2027-06-15"),
        ("11-01", True, "2027-05-01"),
        ("02-29", False, "2027-08-28"),
    ],
)
def test_days_of_the_south(northern: str, winter: bool, southern: str) -> None:
    day = SOUTH.month_day(northern, winter=winter)
    assert SOUTH.date(day) == dt.date.fromisoformat(southern)


def test_days_of_the_north_are_their_own() -> None:
    north = SeasonAxis(2027)
    assert north.date(north.month_day("06-10")) == dt.date(2027, 6, 10)
    assert north.date(north.month_day("12-15", winter=True)) == dt.date(2026, 12, 15)
