"""The larder: weeks, gaps and swings."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn.almanac import Almanac
from leafturn.answers.harvest_calendar import alternate_bearing, gap_words, swings
from leafturn.journal.entries import Entry, HarvestNote

GARDEN = garden_text(plant("apple", "apple", year=2008), plant("young", "pear", year=2026))


@pytest.fixture
def almanac(tmp_path: Path) -> Almanac:
    return almanac_of(tmp_path, GARDEN, "2027-04-19")


def test_fifty_two_weeks_and_every_week_is_told(almanac: Almanac) -> None:
    found = almanac.larder()
    assert [w.number for w in found.weeks] == list(range(1, 53))
    assert found.weeks[0].first == dt.date(2027, 1, 1)
    picked = [w for w in found.weeks if w.picked]
    assert picked
    assert all(w.picked == ("apple",) for w in picked), "a pear of one year bears nothing yet"
    hungry = {w.number for w in found.weeks if not w.picked and not w.kept}
    assert hungry == {n for g in found.picking_gaps for n in range(g.first, g.last + 1)}


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


@pytest.mark.parametrize(
    ("crops", "index"), [((10, 10, 10, 10), 0.0), ((10, 0, 10, 0), 1.0), ((30, 10, 30, 10), 0.5)]
)
def test_the_index_of_alternate_bearing(crops: tuple[float, ...], index: float) -> None:
    """Hoblyn et al. 1936: 0 for even crops, 1 for nothing every other year (definition, recalled)."""
    assert alternate_bearing(crops) == pytest.approx(index)


@settings(max_examples=50)
@given(st.lists(st.floats(0, 1000), max_size=12))
def test_the_index_stays_between_0_and_1(crops: list[float]) -> None:
    assert 0 <= alternate_bearing(crops) <= 1


def harvests(*crops: float) -> list[Entry]:
    return [HarvestNote(on=dt.date(2020 + n, 9, 1), plant="apple", kg=kg)
            for n, kg in enumerate(crops)]  # fmt: skip


def test_three_harvests_say_nothing_and_four_tell_of_the_swing() -> None:
    """A claim wants four seasons in a row; with fewer the swing may be weather."""
    assert list(swings(harvests(40, 5, 45), False)) == []
    (told,) = swings(harvests(40, 5, 45, 4), False)
    assert not told.heavy_last
    assert "2023 was light, so expect more" in told.says
    assert list(swings(harvests(20, 22, 19, 23), False)) == []
    gap = [e for e in harvests(40, 5, 45, 4) if e.on.year != 2021]
    assert list(swings(gap, False)) == []
