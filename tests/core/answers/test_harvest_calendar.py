"""The larder: weeks, gaps and swings."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn.almanac import Almanac
from leafturn.answers.harvest_calendar import gap_words
from leafturn.journal.entries import HarvestNote

GARDEN = garden_text(plant("apple", "apple", year=2008), plant("young", "pear", year=2026))


@pytest.fixture
def almanac(tmp_path: Path) -> Almanac:
    bore = HarvestNote(on=dt.date(2026, 9, 20), plant="apple", kg=30)
    return almanac_of(tmp_path, GARDEN, "2027-04-19", bore)


def test_all_weeks_of_the_year_and_every_week_is_told(almanac: Almanac) -> None:
    found = almanac.larder()
    assert [w.number for w in found.weeks] == [53, *range(1, 53)]
    assert found.weeks[0].first == dt.date(2026, 12, 28)
    picked = [w for w in found.weeks if w.picked]
    assert picked
    assert all(w.picked == ("apple",) for w in picked), "a pear of one year bears nothing yet"
    hungry = [w.first for w in found.weeks if not w.picked and not w.kept]
    assert hungry == [w.first for g in found.picking_gaps for w in found.weeks if g.start <= w.first <= g.end]


def test_an_apple_alone_leaves_bees_hungry_and_the_fillers_are_no_invaders(almanac: Almanac) -> None:
    found = almanac.larder()
    bloom = [w for w in found.weeks if "apple" in w.forage]
    assert bloom[0].first.month in (4, 5)
    assert found.forage_gaps
    for gap in (*found.forage_gaps, *found.picking_gaps):
        for filler in gap.fillers:
            kind = almanac.library.match(filler).kind
            assert not kind.has("invasive somewhere")
            assert not kind.has("poisonous")
        assert gap_words(gap, almanac.on).startswith("week")
