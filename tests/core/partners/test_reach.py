"""Nearness, and the search for neighbours."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from partner_samples import HAZEL, PAWPAW, kind

from leafturn.garden.model import Point
from leafturn.kinds.model import AgeFacts, PollinationFacts
from leafturn.partners.reach import half_metres, nearness, nearness_over_the_fence, pairs_within
from leafturn.partners.settings import DEFAULT, SETTINGS, read_settings


def test_each_half_distance_halves():
    low, likely, high = nearness(np.array([0.0, 12.0, 24.0]), 12.0)
    assert likely.tolist() == [1.0, 0.5, 0.25]
    assert low.tolist() == [1.0, 0.25, 0.0625]
    assert high[1] == pytest.approx(0.5**0.5)


def test_a_neighbours_plant_counts_the_same_with_a_wider_range():
    low, likely, high = nearness(np.array([60.0]), 25.0)[:, 0]
    fence = nearness_over_the_fence(60.0, 25.0)
    assert fence.likely == likely
    assert fence.low < low < high < fence.high


def test_the_stewards_own_half_distance_goes_first():
    assert half_metres(PAWPAW) == 8.0
    own, complaints = read_settings({"partner_half_metres_wind": 40, "partner_half_metres_pawpaw": 5})
    assert complaints == ()
    assert half_metres(HAZEL, own) == 40
    assert half_metres(PAWPAW, own) == 5
    bare = kind("bare", "Nullus nullus", PollinationFacts(), AgeFacts())
    assert half_metres(bare, DEFAULT) == SETTINGS["half_metres_insect"].value


def test_a_place_slipped_by_many_digits_neither_breaks_nor_matches():
    here, lost = Point(0, 0), Point(1e15, -1e15)
    taker, giver, _ = pairs_within([here, lost], [here, lost], 1.0)
    assert set(zip(taker.tolist(), giver.tolist(), strict=True)) == {(0, 0), (1, 1)}


points = st.lists(st.builds(Point, st.floats(-300, 300), st.floats(-300, 300)), min_size=0, max_size=25)


@settings(max_examples=60, deadline=None)
@given(points, points, st.floats(0.5, 400))
def test_the_grid_finds_just_the_pairs_that_a_plain_search_finds(takers, givers, radius):
    taker, giver, metres = pairs_within(takers, givers, radius)
    found = set(zip(taker.tolist(), giver.tolist(), strict=True))
    assert len(found) == len(taker), "no pair twice"
    plain = {
        (t, g)
        for t, a in enumerate(takers)
        for g, b in enumerate(givers)
        if np.hypot(a.east - b.east, a.north - b.north) <= radius
    }
    assert found == plain
    for t, g, apart in zip(taker, giver, metres, strict=True):
        assert apart == pytest.approx(takers[t].metres_to(givers[g]))
