"""Metres of path within reach, against closed forms and a fine walk along the line."""

from __future__ import annotations

import datetime as dt
import itertools
import math
from pathlib import Path as FilePath

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.in_process import opened
from tests.samples.places import DEMO

from leafturn.base.tunables import Numbers
from leafturn.canopy.decline.fall_zone import falling, metres_within
from leafturn.garden.model import Garden, Helper, Path, Place, Plant, Point, Roof, Seat
from leafturn.garden.reading.reader import read_garden
from leafturn.season.garden_day import GardenDay

NUMBERS = Numbers({})
HERE = Point(0.0, 0.0)
spots = st.tuples(st.floats(-40, 40), st.floats(-40, 40))


@pytest.mark.parametrize(
    ("line", "radius", "metres"),
    [
        ([(-50, 6), (50, 6)], 10, 16.0),  # a chord: 2 sqrt(10^2 - 6^2)
        ([(-50, 0), (50, 0)], 10, 20.0),  # through the middle
        ([(-50, 10), (50, 10)], 10, 0.0),  # touching
        ([(0, 0), (50, 0)], 10, 10.0),  # from the middle outwards
        ([(-3, 0), (4, 0)], 10, 7.0),  # wholly inside
        ([(-50, 6), (0, 6), (0, 50)], 10, 8.0 + 4.0),  # round a corner
        ([(1, 1)], 10, 0.0),
        ([], 10, 0.0),
        ([(1, 1), (1, 1)], 10, 0.0),
    ],
)
def test_chords_of_a_circle(line: list[tuple[float, float]], radius: float, metres: float) -> None:
    assert metres_within(line, HERE, radius) == pytest.approx(metres)


@settings(max_examples=60, deadline=None)
@given(st.lists(spots, min_size=2, max_size=4), spots, st.floats(1, 30))
def test_a_fine_walk_counts_the_same(
    line: list[tuple[float, float]], centre: tuple[float, float], radius: float
) -> None:
    walked, closest = 0.0, math.inf
    for a, b in itertools.pairwise(line):
        along = (np.arange(4000) + 0.5)[:, None] / 4000
        at = np.array(a) + (np.array(b) - np.array(a)) * along
        away = np.hypot(*(at - np.array(centre)).T)
        walked += float((away <= radius).mean()) * math.dist(a, b)
        closest = min(closest, float(away.min()))
    assert metres_within(line, Point(*centre), radius) == pytest.approx(walked, abs=0.15)
    assert Path(line=tuple(line)).metres_to(Point(*centre)) == pytest.approx(closest, abs=0.05)


def test_the_ash_and_the_weir_path() -> None:
    """The design's prototype has 39.8 m; a walk in steps of a hundredth of a millimetre gives 39.74."""
    garden = read_garden(DEMO).garden
    ash = garden.plant("toll-ash")
    assert ash is not None
    found = falling(ash, 21.0, 33.0, garden, NUMBERS)
    assert found is not None
    (path,) = found.paths
    assert path.metres == pytest.approx(39.741, abs=0.001)
    assert path.metres == pytest.approx(39.8, abs=0.1)
    assert path.nearest_m == pytest.approx(6.0, abs=0.05)
    assert (path.used, path.public) == ("daily", True)
    assert found.brittle_m == pytest.approx(31.5)
    assert path.metres_brittle > path.metres
    assert found.stem_misses_m == pytest.approx(path.nearest_m)
    assert {"medlar", "next-oak", "found-lime"} <= set(found.plants)


def test_a_height_not_measured_reaches_further_and_a_living_crown_has_no_brittle_reach() -> None:
    garden = Garden(
        place=Place(lat=46, lon=15),
        paths=(Path(line=((30, -5), (30, 5)), name="far"),),
        helpers=(Helper(name="h", reach_point=Point(3, 4)),),
    )
    measured = falling(Plant(kind="ash", point=HERE, height_m=10), 10, None, garden, NUMBERS)
    guessed = falling(Plant(kind="ash", point=HERE), 10, 80, garden, NUMBERS)
    assert measured is not None
    assert guessed is not None
    assert (measured.reach_m, measured.brittle_m, measured.paths) == (10, None, ())
    assert measured.seats == (("where h works", 5.0),)
    assert guessed.reach_m == pytest.approx(12)
    assert not guessed.measured
    assert falling(Plant(kind="ash"), 10, None, garden, NUMBERS) is None


def test_seats_and_roofs_in_reach_and_what_a_stem_misses() -> None:
    """A wall 8 m off, by Pythagoras from its nearest corner 10 m; a bench 5 m off; both within 12 m."""
    garden = Garden(
        place=Place(lat=46, lon=15),
        seats=(
            Seat(name="bench", at=(3, 4), point=Point(3, 4), used="daily", public=True),
            Seat(name="far bench", at=(30, 4), point=Point(30, 4)),
        ),
        roofs=(
            Roof(name="shed", at=(10, 0), point=Point(10, 0), size_m=(4, 6)),
            Roof(name="barn", at=(-9, -12), point=Point(-9, -12), size_m=(6, 8)),
            Roof(name="house", at=(40, 0), point=Point(40, 0)),
        ),
    )
    found = falling(Plant(kind="ash", point=HERE, height_m=12), 12, None, garden, NUMBERS)
    assert found is not None
    assert found.seats == (("bench, used daily, public", 5.0),)
    assert found.roofs == (("shed", pytest.approx(8.0)), ("barn", pytest.approx(10.0)))
    assert found.stem_misses_m == pytest.approx(5.0)
    assert garden.roofs[0].metres_to(Point(11, 1)) == 0


def test_seats_and_roofs_are_read_with_places_in_words(tmp_path: FilePath) -> None:
    (tmp_path / "garden.toml").write_text(
        "[place]\nlat = 46\nlon = 15\n"
        '[[plant]]\nid = "ash"\nkind = "common ash"\nat = [10, 10]\n'
        '[[seat]]\nname = "bench"\nat = "5 m east of ash"\nused = "daily"\n'
        '[[roof]]\nname = "shed"\nat = "10 ft north of bench"\nsize_ft = [10, 20]\n'
        '[[seat]]\nname = "lost"\n'
        '[[roof]]\nname = "hut"\nat = "5 m east of ahs"\n',
        encoding="utf-8",
    )
    read = read_garden(tmp_path)
    assert read.garden.seats[0].point == Point(15, 10)
    assert read.garden.roofs[0].point == pytest.approx(Point(15, 10 + 3.048))
    assert read.garden.roofs[0].size_m == pytest.approx((3.048, 6.096))
    said = [fault.sentence() for fault in read.faults]
    assert any("at" in s and "seat" in s for s in said)
    assert any("ash" in s for s in said)
    assert len(read.garden.seats) == 1


def test_today_is_not_read_anywhere() -> None:
    """The day is always passed in: the same garden on two days has two first years."""
    from leafturn.canopy.review import CanopyReview
    from leafturn.canopy.stand.today import StandToday
    from leafturn.kinds.library import load_library

    garden, library = read_garden(DEMO).garden, load_library()[0]
    for year in (2027, 2031):
        canopy = CanopyReview(StandToday(GardenDay(garden, library, (), dt.date(year, 4, 19)))).canopy()
        assert min(canopy.plants[0].light) == year
        assert max(canopy.plants[0].light) == year + 30


def test_a_hill_in_the_south_takes_light_from_every_plant(tmp_path: FilePath) -> None:
    import shutil

    from leafturn.almanac import open_almanac

    text = (DEMO / "garden.toml").read_text(encoding="utf-8")
    hill = 'soil = "loam"\nslope_deg = 5\nfaces_deg = 0\nhorizon_deg = [0, 0, 20, 40, 50, 40, 20, 0]\n'
    copy = FilePath(shutil.copytree(DEMO, tmp_path / "garden"))
    (copy / "garden.toml").write_text(text.replace('soil = "loam"\n', hill, 1), encoding="utf-8")
    day = dt.date(2027, 4, 19)
    hilly, level = open_almanac(copy, day), opened(DEMO, day)
    assert hilly.faults == ()
    for shaded, open_ in zip(hilly.canopy().plants, level.canopy().plants, strict=True):
        assert shaded.light[2027] < 0.97 * open_.light[2027]
