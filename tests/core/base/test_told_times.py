"""Spans of time and parts of a month, as people write them."""

from __future__ import annotations

import pytest

from leafturn.base.told_times import part_of_month, span_told


@pytest.mark.parametrize(
    ("told", "meant"),
    [
        ("mid October", (10, 15)),
        ("the end of February", (2, 28)),
        ("beginning of May", (5, 1)),
        ("late Apr", (4, 25)),
        ("end of ju", None),
        ("end of the month", None),
        ("October", None),
    ],
)
def test_a_part_of_a_month_is_a_day_of_it(told: str, meant: tuple[int, int] | None) -> None:
    assert part_of_month(told) == meant


@pytest.mark.parametrize(
    ("told", "before", "minutes", "after"),
    [
        ("Ana 3", "Ana", 180, ""),
        ("Ana an hour and a half a week, light", "Ana", 90, "light"),
        ("Ana 1h30", "Ana", 90, ""),
        ("two sisters, 45 minutes", "two sisters", 45, ""),
    ],
)
def test_a_span_is_found_between_words(told: str, before: str, minutes: float, after: str) -> None:
    assert span_told(told, bare="h") == (before, minutes, after)


@pytest.mark.parametrize("told", ["Ana", "class 4b", "1/2", "1-2", "two sisters"])
def test_what_tells_no_span_is_none(told: str) -> None:
    assert span_told(told, bare="h") is None
