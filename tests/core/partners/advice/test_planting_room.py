"""Room for one plant more."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from tests.samples.partners import APPLE, ELDER, LIBRARY, PEAR, a_day, blooms, garden, plant, reviewed

from leafturn.garden.model import Path, Point
from leafturn.partners.advice.planting_room import CLOSE, PlantingRoom

FEW = settings(max_examples=40, deadline=None)
WIDE_M = 2.0  # radius of the crown to come


def test_the_nearest_spot_with_room_for_both_crowns():
    here = PlantingRoom(a_day(garden(plant("a", APPLE, 0, 0))))
    spot = here.spot(Point(0, 0), WIDE_M, 20)
    assert spot is not None
    assert Point(0, 0).metres_to(spot) == pytest.approx(4.0), "0.8 of 3 + 2 m"
    assert here.spot(Point(0, 0), WIDE_M, 3) is None


def test_paths_are_kept_clear():
    a_garden = garden(plant("a", APPLE, 0, 0))
    lines = tuple(Path(line=((-50.0, float(n)), (50.0, float(n)))) for n in range(2, 40, 2))
    blocked = replace(a_garden, paths=lines)
    spot = PlantingRoom(a_day(blocked)).spot(Point(0, 0), WIDE_M, 30)
    assert spot is None or min(abs(spot.north - n) for n in range(2, 40, 2)) >= 1.0


@FEW
@given(st.lists(st.tuples(st.floats(-30, 30), st.floats(-30, 30)), max_size=40), st.floats(2, 30))
def test_a_spot_is_near_enough_and_clear_of_every_stem(places, within):
    plants = [plant(f"p{n}", (APPLE, ELDER)[n % 2], *at) for n, at in enumerate(places)]
    spot = PlantingRoom(a_day(garden(*plants))).spot(Point(0, 0), WIDE_M, within)
    if spot is None:
        return
    assert Point(0, 0).metres_to(spot) <= within + 1e-6
    for p in plants:
        crown = LIBRARY.kinds[p.kind].size.grown_radius
        assert p.point.metres_to(spot) >= CLOSE * (crown + WIDE_M) - 1e-6


def test_the_fix_says_where_on_the_plan_and_counts_with_that_distance():
    here = garden(plant("comice", PEAR, 0, 0, cultivar="Comice"))
    lone = reviewed(here, blooms(here)).trees[0]
    remedy = next(f for f in lone.remedies if f.way == "plant")
    assert remedy.place is not None
    assert remedy.what.endswith("m north of comice")
    assert 4.0 <= remedy.place.north <= 6.0
    assert remedy.place.east == pytest.approx(0)
