"""Nearness, and the search for neighbours."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace as with_changes
from tests.samples.partners import HAZEL, PAWPAW, PEAR, blooms, garden, kind, plant, reviewed

from leafturn.base.tunables import NUMBERS, USUAL, Numbers
from leafturn.garden.model import Point
from leafturn.kinds.model import AgeFacts, PollinationFacts
from leafturn.partners.distance.pollen_distance import (
    downwind,
    half_metres,
    nearness,
    nearness_over_the_fence,
    pairs_within,
)


def test_near_by_a_partner_counts_whole_half_at_the_half_distance_and_soon_little():
    """1 / (1 + halves ** 3), by hand: a ninth at twice the half distance, eight ninths at half of it."""
    low, likely, high = nearness(np.array([0.0, 12.0, 24.0]), 12.0)
    assert likely == pytest.approx([1, 1 / 2, 1 / 9])
    assert low == pytest.approx([1, 1 / 9, 1 / 65])
    assert high == pytest.approx([1, 8 / 9, 1 / 2])


def test_a_neighbours_plant_counts_the_same_with_a_wider_range():
    low, likely, high = nearness(np.array([60.0]), 25.0)[:, 0]
    fence = nearness_over_the_fence(60.0, 25.0)
    assert fence.likely == likely
    assert fence.low < low < high < fence.high


def test_the_stewards_own_half_distance_goes_first():
    assert half_metres(PAWPAW) == 8.0
    own = Numbers({"partner_half_metres_wind": 40, "partner_half_metres_pawpaw": 5})
    assert half_metres(HAZEL, own) == 40
    assert half_metres(PAWPAW, own) == 5
    bare = kind("bare", "Nullus nullus", PollinationFacts(), AgeFacts())
    assert half_metres(bare, USUAL) == NUMBERS["partner_half_metres_insect"].value


def test_a_place_slipped_by_many_digits_neither_breaks_nor_matches():
    here, lost = Point(0, 0), Point(1e15, -1e15)
    recipient, donor, _ = pairs_within([here, lost], [here, lost], 1.0)
    assert set(zip(recipient.tolist(), donor.tolist(), strict=True)) == {(0, 0), (1, 1)}


points = st.lists(st.builds(Point, st.floats(-300, 300), st.floats(-300, 300)), min_size=0, max_size=25)


@settings(max_examples=60, deadline=None)
@given(points, points, st.floats(0.5, 400))
def test_the_grid_finds_just_the_pairs_that_a_plain_search_finds(recipients, donors, radius):
    recipient, donor, metres = pairs_within(recipients, donors, radius)
    found = set(zip(recipient.tolist(), donor.tolist(), strict=True))
    assert len(found) == len(recipient), "no pair twice"
    plain = {
        (t, g)
        for t, a in enumerate(recipients)
        for g, b in enumerate(donors)
        if np.hypot(a.east - b.east, a.north - b.north) <= radius
    }
    assert found == plain
    for t, g, apart in zip(recipient, donor, metres, strict=True):
        assert apart == pytest.approx(recipients[t].metres_to(donors[g]))


@pytest.mark.parametrize("words", ["west", "W", "from the west", None, "here and there", "south-west"])
def test_the_wind_is_read_by_its_compass_word(words):
    way = downwind(words)
    expected = {"west": (1, 0), "W": (1, 0), "from the west": (1, 0), "south-west": (0.5**0.5, 0.5**0.5)}.get(
        words
    )
    assert way is None if expected is None else way == pytest.approx(expected)


def hazels(east, wind, north=0.0):
    """The chance of a hazel at the origin with its one partner there."""
    here = garden(
        plant("taker", HAZEL, 0, 0, cultivar="Jefferson"),
        plant("giver", HAZEL, east, north, cultivar="Hall's Giant"),
    )
    here = with_changes(here, place=with_changes(here.place, wind_from=wind))
    found = reviewed(here, blooms(here)).trees
    return next(r for r in found if r.plant == "taker").adequacy


def test_an_upwind_partner_counts_more_for_wind_kinds_and_by_as_much_as_the_rule_says():
    calm = hazels(-25, None)
    farther = 1 / calm - 1
    assert hazels(-25, "west") == pytest.approx(1 / (1 + farther / 1.5**3), rel=1e-3), (
        "half distance half as long again"
    )
    assert hazels(25, "west") == pytest.approx(1 / (1 + farther * 2**3), rel=1e-3), "half distance halved"
    assert hazels(0, "west", north=25) == pytest.approx(calm, rel=1e-6), "across the wind"
    assert hazels(-150, None) == 0, "out of reach when calm"
    assert hazels(-150, "west") > 0, "within reach upwind"


@settings(max_examples=30, deadline=None)
@given(st.floats(0, 360), st.floats(1, 60), st.floats(0.1, 1))
def test_nearer_on_the_same_line_never_counts_less_in_any_wind(degrees, metres, share):
    east, north = metres * math.sin(math.radians(degrees)), metres * math.cos(math.radians(degrees))
    far, near = hazels(east, "NNE", north), hazels(east * share, "NNE", north * share)
    assert near >= far - 1e-9


def test_insects_do_not_mind_the_wind():
    def pears(wind):
        here = garden(plant("a", PEAR, 0, 0, cultivar="Comice"), plant("b", PEAR, 20, 0, cultivar="Bosc"))
        here = with_changes(here, place=with_changes(here.place, wind_from=wind))
        return reviewed(here, blooms(here)).trees[0].adequacy

    assert pears("west") == pears(None)
