"""Whether a plant is old enough to flower."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from tests.samples.partners import (
    DEFAULTS,
    HEARTNUT,
    KIWI,
    LIBRARY,
    PEAR,
    STOCKS,
    a_day,
    ages,
    fact,
    garden,
    kind,
    plant,
    pollination,
)

from leafturn.base.tunables import Numbers
from leafturn.kinds.library import Library
from leafturn.kinds.model import LightFacts
from leafturn.kinds.specimen import Specimen
from leafturn.partners.bloom_overlap.flowering_age import (
    age_reached,
    flowering_age,
    flowering_chance,
    shade_delay,
    share_flowering,
    year_flowering,
)
from leafturn.partners.chance.cross_groups import chances_of_flowering
from leafturn.partners.flowering_season import FloweringSeason

YEARS = np.arange(2020, 2045)


def chances(a_plant, a_kind, **known):
    return flowering_chance(a_plant, flowering_age(Specimen(a_plant, a_kind, LIBRARY)), YEARS, **known)


def test_a_pear_on_seedling_roots_planted_2023_flowers_about_2028_2030_2033():
    """Own prototype's figures, on a stock whose trees flower at 7 years, spread 2."""
    pear = plant("p", PEAR, cultivar="Bartlett", rootstock="seedling", year=2023)
    facts = flowering_age(Specimen(pear, PEAR, LIBRARY))
    assert [year_flowering(pear, facts, chance) for chance in (0.1, 0.5, 0.9)] == [2028, 2030, 2033]


def test_the_curve_has_the_middle_and_spread_it_was_given():
    """Sampling flowering ages from the curve gives back about the given spread."""
    at = np.array([age_reached(p, 7.0, 1.2) for p in (np.arange(4000) + 0.5) / 4000])
    assert np.median(at) == pytest.approx(7.0, abs=0.01)
    assert at.std() == pytest.approx(1.2, rel=0.12)
    assert share_flowering(np.array([0.0, 7.0]), 7.0, 1.2).tolist() == [0.0, 0.5]


def test_how_a_plant_was_raised_decides_and_what_is_assumed_is_said():
    assert flowering_age(Specimen(plant("p", PEAR, raised="seedling"), PEAR, LIBRARY)).middle == 11
    dwarf = flowering_age(Specimen(plant("p", PEAR, cultivar="Comice", rootstock="quince A"), PEAR, LIBRARY))
    assert (dwarf.middle, dwarf.raised, dwarf.assumed) == (4, "graft", True)
    nut = flowering_age(Specimen(plant("h", HEARTNUT), HEARTNUT, LIBRARY))
    assert (nut.middle, nut.raised, nut.assumed) == (8, "seedling", True)
    assert (
        flowering_age(Specimen(plant("p", PEAR, origin="came by itself"), PEAR, LIBRARY)).raised == "seedling"
    )
    assert not flowering_age(Specimen(plant("k", KIWI, raised="cutting"), KIWI, LIBRARY)).assumed


def test_age_when_planted_counts():
    young, older = plant("a", PEAR, year=2024), plant("b", PEAR, year=2024, age_when_planted=3)
    assert (chances(older, PEAR)[1] >= chances(young, PEAR)[1]).all()
    facts = flowering_age(Specimen(young, PEAR, LIBRARY))
    assert year_flowering(young, facts) == year_flowering(older, facts) + 3


def test_first_flowers_noted_settle_it():
    pear = plant("p", PEAR, year=2023)
    likely = chances(pear, PEAR, first_bloom=2026)[1]
    assert (likely[YEARS < 2026] == 0).all()
    assert (likely[YEARS >= 2026] == 1).all()


def test_a_year_without_flowers_makes_a_young_plant_later_and_that_year_nought():
    pear = plant("p", PEAR, year=2020)
    free, barren = chances(pear, PEAR), chances(pear, PEAR, no_bloom={2027})
    assert barren[1, YEARS == 2027] == 0
    assert barren[1, YEARS == 2028] < free[1, YEARS == 2028]
    assert barren[1, -1] > 0.95


def test_an_old_tree_that_rests_a_year_is_not_taken_for_a_young_one():
    assert chances(plant("p", PEAR, year=1990), PEAR, no_bloom={2026})[1, YEARS == 2027] > 0.95


def test_no_planting_year_leaves_it_wide_open():
    low, likely, high = chances(plant("p", PEAR, year=None), PEAR)
    assert (low == 0).all()
    assert (high == 1).all()
    assert ((likely > 0) & (likely < 1)).all()
    assert (
        year_flowering(plant("p", PEAR, year=None), flowering_age(Specimen(plant("p", PEAR), PEAR, LIBRARY)))
        is None
    )


def test_a_kind_without_ages_is_guessed_by_its_habit():
    bare = kind("bare", "Nullus nullus", pollination("self-incompatible"), ages(spread=None))
    facts = flowering_age(Specimen(plant("x", bare), bare, LIBRARY))
    assert facts.guessed
    assert facts.middle > 0


@settings(max_examples=60, deadline=None)
@given(
    st.integers(1990, 2026),
    st.sampled_from([None, 2022, 2030]),
    st.sets(st.integers(2020, 2027), max_size=2),
    st.floats(0, 10),
)
def test_chances_are_ordered_and_rise_with_age(year, first, barren, old):
    pear = plant("p", PEAR, year=year, age_when_planted=old)
    all_three = chances(pear, PEAR, first_bloom=first, no_bloom=frozenset(barren))
    assert (all_three >= 0).all()
    assert (all_three <= 1).all()
    assert (np.diff(all_three, axis=0) >= -1e-12).all(), "low, likely, high"
    assert (np.diff(all_three[1, max(barren, default=0) < YEARS]) >= -1e-12).all()


def test_shade_puts_flowers_off_a_year_for_ten_points_and_four_at_most():
    """The two limits are guesses (tunables); the need of light is the made-up kind's."""
    sun_lover = replace(PEAR, light=LightFacts(need_percent=fact(60.0)))
    delays = [shade_delay(sun_lover, light) for light in (None, 75, 60, 45, 10)]
    assert delays == [0, 0, 0, pytest.approx(1.5), 4]
    assert shade_delay(PEAR, 5) == 0, "a need that is not known puts nothing off"
    tree = plant("p", PEAR, year=2023, cultivar="Bartlett")
    sunny, shaded = (flowering_age(Specimen(tree, sun_lover, LIBRARY), d) for d in (0.0, 4.0))
    assert shaded.middle == sunny.middle + 4
    assert year_flowering(tree, shaded) == year_flowering(tree, sunny) + 4


def test_the_stewards_own_number_for_shade_goes_first():
    sun_lover = replace(PEAR, light=LightFacts(need_percent=fact(60.0)))
    own = Numbers({"partner_shade_points_a_year": 5, "partner_shade_years_most": 6})
    assert [shade_delay(sun_lover, light, own) for light in (45, 10)] == [3, 6]
    kinds = Library(
        kinds={"pear": sun_lover}, sources={}, rootstocks=STOCKS, defaults=DEFAULTS, shared_names={}
    )
    pears = garden(plant("p", PEAR, year=YEARS[0] - 5))

    def chance(light, **rules):
        season = FloweringSeason(year=int(YEARS[0]), light={"p": light})
        return chances_of_flowering(a_day(pears, library=kinds, rules=rules), season)["p"]

    assert chance(10) < chance(60)
    assert chance(10, partner_shade_years_most=0) == chance(60)
