"""Growth curves and what a measured height makes of them."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from leafturn.base.tunables import Numbers
from leafturn.canopy.stand.growth import Growth, age_at, chapman_richards, growth_of
from leafturn.garden.model import Plant
from leafturn.kinds.library import load_library
from leafturn.kinds.specimen import specimen_of

LIBRARY, _ = load_library()
NUMBERS = Numbers({})
YEARS = np.arange(2027, 2067)


def grown(plant: Plant) -> Growth:
    """The growth of a plant as of 2027."""
    return growth_of(specimen_of(plant, LIBRARY), NUMBERS, 2027)


def test_the_curve_by_hand() -> None:
    """1 - exp(-0.06 * 10) = 0.4512; 20 * 0.4512 ** 1.3 = 7.107."""
    assert chapman_richards(10, 20, 0.06, 1.3) == pytest.approx(7.107, abs=0.001)
    assert chapman_richards(0, 20, 0.06, 1.3) == 0


@settings(max_examples=50)
@given(st.floats(0.5, 19), st.floats(0.02, 0.2), st.floats(1, 2.5))
def test_age_is_the_curve_turned_round(height: float, pace: float, bend: float) -> None:
    assert chapman_richards(age_at(height, 20, pace, bend), 20, pace, bend) == pytest.approx(height, rel=1e-6)


def test_a_measured_height_is_this_year_s_height() -> None:
    for height in (0.2, 2.6, 9.0, 30.0, 60.0):
        oak = grown(Plant(kind="sessile oak", year=2019, height_m=height)).heights(YEARS)
        assert oak[0] == pytest.approx(height)
        assert (np.diff(oak) >= 0).all()
        assert oak[-1] < max(1.7 * 26, height + 1e-6)


def test_a_measured_crown_sets_the_width_and_a_declining_tree_stands_still() -> None:
    ash = grown(Plant(kind="common ash", year=1928, height_m=21, crown_m=7, state="declining"))
    assert ash.radii(YEARS) == pytest.approx(np.full(len(YEARS), 7.0))
    assert ash.heights([1940])[0] < 21


def test_without_a_year_and_a_height_it_counts_as_grown_and_is_marked() -> None:
    pear = grown(Plant(kind="pear"))
    assert pear.guessed
    assert pear.heights([2027])[0] > 0.9 * pear.top_m
    assert not grown(Plant(kind="pear", year=2020)).guessed


def test_a_dwarfing_stock_makes_a_lower_tree() -> None:
    own, dwarf = (
        grown(Plant(kind="apple", year=2000, rootstock=stock)).heights([2027])[0] for stock in (None, "M9")
    )
    assert dwarf < 0.6 * own


def test_quicker_growth_is_taller_later_and_the_same_today() -> None:
    lime = grown(Plant(kind="small-leaved lime", year=2016, height_m=5.2))
    slow, quick = lime.heights(YEARS, 0.6), lime.heights(YEARS, 1.4)
    assert slow[0] == quick[0]
    assert (quick[1:] > slow[1:]).all()


@pytest.mark.parametrize("kind", sorted(LIBRARY.kinds))
def test_every_kind_grows_up_to_its_height(kind: str) -> None:
    old = grown(Plant(kind=kind, year=1700))
    young = grown(Plant(kind=kind, year=2026))
    assert 0 < young.heights([2027])[0] < old.heights([2027])[0] <= old.top_m


@pytest.mark.parametrize(
    ("kind", "age", "least", "most"),
    [
        ("redcurrant", 4, 0.9, 1.5),  # full cropping from the third or fourth year
        ("ramsons", 4, 0.25, 0.3),
        ("comfrey", 3, 0.7, 0.9),
        ("medlar", 10, 1.5, 3.0),
        ("apple", 10, 3.0, 5.0),
        ("hazel", 10, 3.0, 5.0),
        ("sessile oak", 20, 6.0, 12.0),
        ("silver birch", 20, 10.0, 16.0),
    ],
)
def test_plants_are_as_high_as_gardeners_know_them(kind: str, age: int, least: float, most: float) -> None:
    """Common practice, no source: heights at an age as any nursery or grower would put them."""
    assert least <= grown(Plant(kind=kind, year=2027 - age)).heights([2027])[0] <= most
