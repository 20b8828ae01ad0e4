"""Heavy and light years."""

from __future__ import annotations

import datetime as dt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from leafturn.answers.alternation import alternate_bearing, chance_of_parting, swings
from leafturn.journal.entries import Entry, HarvestNote


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
    assert "2023 was light, so expect more" in told.says
    assert list(swings(harvests(20, 22, 19, 23), False)) == []
    gap = [e for e in harvests(40, 5, 45, 4) if e.on.year != 2021]
    assert list(swings(gap, False)) == []


def test_a_southern_autumn_is_named_by_its_own_year() -> None:
    """Apples of April 2023 are of the season that began in 2022, and whoever picked them says 2023."""
    april = [HarvestNote(on=dt.date(2020 + n, 4, 10), plant="apple", kg=kg)
             for n, kg in enumerate((40, 5, 45, 4))]  # fmt: skip
    (told,) = swings(april, True)
    assert "2023 was light, so expect more" in told.says


def test_seven_years_up_and_down_are_told_though_the_swing_is_not_extreme() -> None:
    """Every heavy year above every light one: one shuffle in 35 parts them so, and as many the other way."""
    crops = (11, 24, 9.5, 27, 12, 29, 14)
    assert alternate_bearing(crops) < 0.5
    assert chance_of_parting(crops) == pytest.approx(1 / 35)
    (told,) = swings(harvests(*crops), False)
    assert told.says.endswith("2026 was light, so expect more next.")


@pytest.mark.parametrize(
    "crops", [(11, 12, 24, 27, 29, 14, 9.5), (20, 22, 19, 23, 18, 24, 20), (11, 24, 12, 26)]
)
def test_crops_that_differ_without_alternating_and_small_or_few_swings_are_not(
    crops: tuple[float, ...],
) -> None:
    assert list(swings(harvests(*crops), False)) == []


def test_the_chance_is_that_of_all_partings() -> None:
    """Of six crops parted wholly, 2 of the 20 ways to choose three part them so."""
    assert chance_of_parting((1, 10, 2, 11, 3, 12)) == pytest.approx(0.1)
    assert chance_of_parting((5, 5, 5, 5)) == 1.0
