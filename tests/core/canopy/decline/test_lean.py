"""Leans beside the light."""

from __future__ import annotations

import datetime as dt

import pytest

from leafturn.canopy.decline.lean import lean_bearing
from leafturn.canopy.review import CanopyReview
from leafturn.canopy.stand.today import StandToday
from leafturn.garden.model import Garden, Place, Plant, Point
from leafturn.kinds.library import load_library
from leafturn.season.garden_day import GardenDay

LIBRARY, _ = load_library()


def leans(lean: str, *others: tuple[float, float]) -> str:
    trees = [
        Plant(id=f"t{n}", kind="english oak", year=1950, point=Point(*at)) for n, at in enumerate(others)
    ]
    young = Plant(id="young", kind="rowan", year=2012, point=Point(0, 0), lean=lean)
    garden = Garden(place=Place(lat=46.9, lon=15.9), plants=(young, *trees))
    day = GardenDay(garden, LIBRARY, (), dt.date(2027, 4, 19))
    return " ".join(CanopyReview(StandToday(day)).canopy().leans)


@pytest.mark.parametrize(
    ("words", "bearing"),
    [
        ("10 deg to the west", 270),
        ("NE", 45),
        ("a little south-southwest", 202.5),
        ("much", None),
        ("5 m", None),
    ],
)
def test_leans_in_words(words: str, bearing: float | None) -> None:
    assert lean_bearing(words) == bearing


def test_away_from_a_big_neighbour_is_towards_the_light() -> None:
    """By symmetry the bright side of a tree with one neighbour in the east is the west."""
    assert "leans W, towards its bright side" in leans("west", (8, 0))
    assert "bright side is W" in leans("east", (8, 0))
    assert "competent" in leans("east", (8, 0))


def test_alone_or_hemmed_in_alike_no_side_is_the_brighter() -> None:
    assert "no side" in leans("west")
    assert leans("").strip() == ""


def test_across_the_light_it_is_only_told() -> None:
    said = leans("north", (8, 0))
    assert "leans N" in said
    assert "competent" not in said
