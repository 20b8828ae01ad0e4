"""Speed of light: against a plain loop, and how it grows with the plants; and that it can be stopped."""

from __future__ import annotations

import datetime as dt
import math

import numpy as np
import pytest
from tests.bench.timing import seconds

from leafturn.base.tunables import Numbers
from leafturn.canopy.review import CanopyReview
from leafturn.canopy.stand.growing_season import growing_months
from leafturn.canopy.stand.light import optical_depths
from leafturn.canopy.stand.sky import Sampling, Site, sampling
from leafturn.canopy.stand.stand import Stand
from leafturn.garden.model import Garden, Place, Plant, Point
from leafturn.kinds.library import Library, load_library
from leafturn.season.garden_day import GardenDay

pytestmark = pytest.mark.bench

KINDS = (
    "apple",
    "pear",
    "european plum",
    "hazel",
    "redcurrant",
    "comfrey",
    "sessile oak",
    "medlar",
    "ramsons",
)
NUMBERS = Numbers({})


def garden(plants: int) -> Garden:
    """Plants five metres apart in a square."""
    side = math.ceil(plants**0.5)
    return Garden(
        place=Place(lat=46.9, lon=15.9),
        plants=tuple(
            Plant(
                id=f"p{n}", kind=KINDS[n % len(KINDS)], year=1990 + n % 30,
                point=Point(5.0 * (n % side), 5.0 * (n // side)),
            )
            for n in range(plants)
        ),
    )  # fmt: skip


@pytest.fixture(scope="module")
def library() -> Library:
    return load_library()[0]


@pytest.fixture(scope="module")
def rays() -> Sampling:
    return sampling(Site(latitude=46.9), growing_months(46.9), 0.55, 60, 6, 16)


def test_thirty_years_of_two_hundred_plants_against_a_plain_loop(library: Library, rays: Sampling) -> None:
    """The loop is one year of some of the points, each ray asked of each crown, scaled to the whole."""
    stand = Stand(GardenDay(garden(200), library, (), dt.date(2027, 4, 19)), {})
    years = len(list(stand.light_ahead(rays, 30, {})))
    ours = seconds(lambda: list(stand.light_ahead(rays, 30, {})))

    crowns, points = stand.crowns(2027), stand.points(2027)
    dense = stand.density(crowns, stand.live, np.ones(200, dtype=bool))
    some = np.arange(0, len(points.at), len(points.at) // 8)
    tall, low = ((crowns.top - crowns.base) / 2).tolist(), ((crowns.top + crowns.base) / 2).tolist()
    wide, east, north = crowns.radius.tolist(), crowns.east.tolist(), crowns.north.tolist()
    places, groups, all_rays, thick = (
        points.at.tolist(),
        points.group.tolist(),
        rays.rays.tolist(),
        dense.tolist(),
    )

    def loop() -> np.ndarray:
        found = np.zeros((len(some), len(all_rays)))
        for i, p in enumerate(some):
            x, y, z = places[p]
            for c in range(200):
                if stand.group[c] == groups[p]:
                    continue
                dx, dy, dz = (x - east[c]) / wide[c], (y - north[c]) / wide[c], (z - low[c]) / tall[c]
                for r, (ux, uy, uz) in enumerate(all_rays):
                    vx, vy, vz = ux / wide[c], uy / wide[c], uz / tall[c]
                    a = vx * vx + vy * vy + vz * vz
                    b = dx * vx + dy * vy + dz * vz
                    inside = b * b - a * (dx * dx + dy * dy + dz * dz - 1)
                    if inside > 0:
                        root = math.sqrt(inside)
                        found[i, r] += thick[c] * (max(root - b, 0) - max(-root - b, 0)) / a
        return found

    plain = seconds(loop, rounds=1) * len(places) / len(some) * years
    round_ones = crowns.take(np.arange(200))
    np.copyto(round_ones.solid, 0)
    checked = optical_depths(points, round_ones, stand.group, dense, rays.fan)[some]
    np.testing.assert_allclose(checked, loop(), atol=0.02)
    print(f"30 years of 200 plants: {ours * 1e3:.0f} ms, {plain / ours:.0f} x a plain loop")
    assert plain / ours >= 40


def test_light_grows_gently_with_the_plants(library: Library, rays: Sampling) -> None:
    counts = (100, 200, 400)
    took = []
    for count in counts:
        stand = Stand(GardenDay(garden(count), library, (), dt.date(2027, 4, 19)), {})
        took.append(seconds(lambda stand=stand: list(stand.light_ahead(rays, 30, {}))))
    exponent = float(np.polyfit(np.log(counts), np.log(took), 1)[0])
    print(f"light: {', '.join(f'{c} plants {t * 1e3:.0f} ms' for c, t in zip(counts, took, strict=True))}")
    print(f"exponent {exponent:.2f}")
    assert exponent <= 1.4


def test_the_whole_review_costs_about_as_much_as_its_light(library: Library) -> None:
    """Old trees, heirs and seedlings of 200 plants take less than the light of thirty years does."""

    def light() -> None:
        CanopyReview(GardenDay(garden(200), library, (), dt.date(2027, 4, 19))).light_years()

    def whole() -> None:
        CanopyReview(GardenDay(garden(200), library, (), dt.date(2027, 4, 19))).canopy()

    alone, all_of_it = seconds(light), seconds(whole)
    print(f"200 plants: light {alone * 1e3:.0f} ms, whole review {all_of_it * 1e3:.0f} ms")
    assert all_of_it <= 2 * alone


class Enough(Exception):
    """What a page raises that wants no more."""


def test_it_tells_how_far_it_has_come_and_stops_when_asked(library: Library) -> None:
    review = CanopyReview(GardenDay(garden(60), library, (), dt.date(2027, 4, 19)))
    seen: list[int] = []

    def progress(year: int, last: int) -> None:
        seen.append(year)
        assert last == 2057
        if len(seen) == 3:
            raise Enough

    with pytest.raises(Enough):
        review.canopy(progress=progress)
    assert len(seen) == 3
    assert seen == sorted(seen)
