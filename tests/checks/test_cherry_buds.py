"""Buds of cherries beside those of apples in northern Michigan, and what spring frost leaves of tart cherries
there.

Northwest Michigan fruit updates of Michigan State University Extension, read: 6 April 2021 (Gala and
Honeycrisp at green tip, Montmorency at side green, sweet cherries between side green and green tip), 26
April 2022 (Gala at a quarter inch of green, Montmorency at side green still, sweet cherries at green tip).
Crops of tart cherries in the state, read: 15 million pounds in 2002, 157.5 in 2011, 11.6 in 2012 (Michigan
Public, 2013), 134 in 2015, a third less than the year before (Crain's, June 2015), 69.3 in 2020, three
fifths less than in 2019, and 65.6 foreseen for 2021 (a forum quoting the statistics service), 120.5 in 2023
(Cadillac News), 182 in 2024 (Southeast AgNet). So frost took most of a crop in some four springs of twenty.
"""

from __future__ import annotations

import tomllib

import numpy as np
import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant
from tests.samples.places import ROOT

from leafturn.almanac import Almanac
from leafturn.bloom.frost.bud_stages import BudDates, places_of
from leafturn.kinds.library import load_library

TRAVERSE = tomllib.loads((ROOT / "tests/checks/published_dates.toml").read_text("utf-8"))["station"][
    "traverse"
]
QUARTER_INCH = 0.25  # of the way from green tip to tight cluster of an apple; our reading


@pytest.fixture(scope="module")
def traverse(tmp_path_factory: pytest.TempPathFactory) -> Almanac:
    trees = [
        plant("tart", "sour cherry", cultivar="Montmorency", year=2008, at=[0, 0]),
        plant("sweet", "sweet cherry", year=2008, at=[9, 0]),
        plant("apple", "apple", cultivar="Gala", year=2008, at=[0, 9]),
    ]
    climate = {key: TRAVERSE[key] for key in ("tmax_c", "tmin_c", "rain_mm")}
    text = garden_text(*trees, climate=climate, lat=TRAVERSE["lat"], lon=TRAVERSE["lon"])
    return almanac_of(tmp_path_factory.mktemp("traverse"), text, "2027-01-05")


def place_on(almanac: Almanac, plant_id: str, day: int) -> float:
    """Where its buds stand on a day of the usual spring: the share of warmth to first open, less one."""
    season = almanac._seasons.now
    kind = season.kind(season.day.garden.plant(plant_id))
    dates = BudDates([season.forecasts[plant_id]], kind, season.weather)
    return float(np.nanmedian(dates.place(np.full((season.weather.now.members, 1), day))))


def day_of_apple(almanac: Almanac, share_from_green_tip: float) -> int:
    """Day number on which the apple stands so far between green tip and tight cluster."""
    places = places_of(load_library()[0].kinds["apple"])
    tip, cluster = places["green_tip"], places["tight_cluster"]
    wanted = tip + share_from_green_tip * (cluster - tip)
    spring = range(130, 200)
    return next(day for day in spring if place_on(almanac, "apple", day) >= wanted)


@pytest.mark.parametrize(
    ("kind", "plant_id", "apple_at", "from_stage", "to_stage"),
    [
        ("sour cherry", "tart", 0.0, "swollen", "green_tip"),
        ("sour cherry", "tart", QUARTER_INCH, "swollen", "green_tip"),
        ("sweet cherry", "sweet", 0.0, "swollen", "green_tip"),
        ("sweet cherry", "sweet", QUARTER_INCH, "green_tip", "tight_cluster"),
    ],
)
def test_cherries_open_their_buds_after_apples(
    traverse: Almanac, kind: str, plant_id: str, apple_at: float, from_stage: str, to_stage: str
) -> None:
    """A twentieth of the way to bloom is let pass: two or three days."""
    places = places_of(load_library()[0].kinds[kind])
    at = place_on(traverse, plant_id, day_of_apple(traverse, apple_at))
    assert places[from_stage] - 0.05 <= at <= places[to_stage] + 0.05


def test_tart_cherries_of_michigan_lose_a_crop_in_some_springs_and_not_in_most(traverse: Almanac) -> None:
    """By the months of an airport in the cold air below the orchards, so that more is lost than in them."""
    lost = traverse.frost_losses()["tart"]
    assert 0.1 < lost.crop_lost < 0.5
    assert lost.chance_of_a_third < 0.5
