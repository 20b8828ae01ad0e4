"""Light against closed forms."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from leafturn.canopy.stand.crowns import SOLIDS, Crowns, density, paths
from leafturn.canopy.stand.fan import Fan
from leafturn.canopy.stand.growing_season import growing_months
from leafturn.canopy.stand.light import Points, Shading, light_shares, optical_depths
from leafturn.canopy.stand.sky import Site, in_leaf, sampling, unit

SUMMER = growing_months(46.9)
OPAQUE = np.float32(1e6)


def points(*at: tuple[float, float, float]) -> Points:
    return Points(at=np.array(at, dtype=np.float32), group=np.full(len(at), -1))


def light(at: Points, crowns: Crowns, thick: float, site: Site, direct: float, **fine: int) -> np.ndarray:
    rays = sampling(site, SUMMER, direct, **fine)
    thickness = np.full(len(crowns), thick, dtype=np.float32)
    return light_shares(optical_depths(at, crowns, np.arange(len(crowns)), thickness, rays.fan), rays)


NOTHING = Crowns.of([], [], [], [], [], [])


@pytest.mark.parametrize(
    "site", [Site(latitude=46.9), Site(latitude=-40, slope=15, faces=30), Site(latitude=70)]
)
@pytest.mark.parametrize("direct", [0.0, 0.55, 1.0])
def test_without_crowns_all_light_arrives(site: Site, direct: float) -> None:
    assert light(points((0, 0, 0)), NOTHING, 1, site, direct)[0] == pytest.approx(1, abs=1e-5)


def test_half_an_opaque_sky_leaves_half_of_the_diffuse_light() -> None:
    """A wall to the zenith from north over east to south: by symmetry half of any ring is gone."""
    wall = (45.0, *[90.0] * 179, 45.0, *[0.0] * 179)
    assert light(points((0, 0, 0)), NOTHING, 1, Site(latitude=46.9, horizon=wall), 0.0)[0] == pytest.approx(
        0.5
    )
    both = light(points((0, 0, 0)), NOTHING, 1, Site(latitude=46.9, horizon=wall), 0.55)[0]
    assert both == pytest.approx(0.5, abs=0.01)  # the sun is before noon as long as after it


@pytest.mark.parametrize("horizon", [10.0, 30.0, 60.0])
def test_an_even_horizon_leaves_the_square_of_its_cosine(horizon: float) -> None:
    """Level ground under an evenly bright sky above an angle h gets cos(h) ** 2: the view factor."""
    site = Site(latitude=46.9, horizon=(horizon,) * 4)
    share = light(points((0, 0, 0)), NOTHING, 1, site, 0.0, rings=200)[0]
    assert share == pytest.approx(math.cos(math.radians(horizon)) ** 2, abs=0.005)


@pytest.mark.parametrize(("radius", "height"), [(1.0, 2.0), (2.0, 3.0), (3.0, 8.0)])
def test_an_opaque_ball_overhead_takes_its_view_factor(radius: float, height: float) -> None:
    """Disc element facing a sphere on its axis: F = (r / h) ** 2, any textbook of radiative transfer."""
    ball = Crowns.of(0, 0, height - radius, height + radius, radius, 0)
    share = light(points((0, 0, 0)), ball, OPAQUE, Site(latitude=46.9), 0.0, rings=100, bearings=72)[0]
    assert 1 - share == pytest.approx((radius / height) ** 2, abs=0.01)


def test_the_shadow_of_a_ball_is_where_geometry_puts_it() -> None:
    """A ball of radius 1 at height 5, sun at 45 degrees in the south: the shadow is round (0, 5), an ellipse
    with half axes 1 across and sqrt(2) along."""
    ball = Crowns.of(0, 0, 4, 6, 1, 0)
    sun = unit(np.array([45.0]), np.array([180.0])).astype(np.float32)
    for east, north, shaded in [
        (0, 5, True), (0.95, 5, True), (1.05, 5, False), (0, 6.40, True), (0, 6.43, False),
        (0, 3.60, True), (0, 3.57, False), (0, -5, False),
    ]:  # fmt: skip
        way = paths(np.array([[east, north, 0]], dtype=np.float32), ball, sun)[0, 0]
        assert bool(way > 0) == shaded
    middle = paths(np.array([[0, 5, 0]], dtype=np.float32), ball, sun)[0, 0]
    assert middle == pytest.approx(2, abs=1e-3)


@pytest.mark.parametrize("solid", range(4), ids=SOLIDS)
@settings(max_examples=40, deadline=None)
@given(
    east=st.floats(-6, 6), north=st.floats(-6, 6), up=st.floats(0, 9),
    high=st.floats(2, 89), bearing=st.floats(0, 360),
)  # fmt: skip
def test_ways_through_solids_are_what_small_steps_count(
    solid: int, east: float, north: float, up: float, high: float, bearing: float
) -> None:
    crown = Crowns.of(0, 0, 2, 8, 3, solid)
    ray = unit(np.array([high]), np.array([bearing]))
    way = paths(np.array([[east, north, up]], np.float32), crown, ray.astype(np.float32))[0, 0]
    step = 0.002
    at = np.array([east, north, up]) + (np.arange(0, 40, step) + step / 2)[:, None] * ray
    flat = np.hypot(at[:, 0], at[:, 1])
    inside = (
        {
            "ellipsoid": (flat / 3) ** 2 + ((at[:, 2] - 5) / 3) ** 2 <= 1,
            "cone": flat <= 3 * (8 - at[:, 2]) / 6,
            "vase": flat <= 3 * (at[:, 2] - 2) / 6,
            "column": flat <= 3,
        }[SOLIDS[solid]]
        & (at[:, 2] >= 2)
        & (at[:, 2] <= 8)
    )
    assert way == pytest.approx(inside.sum() * step, abs=0.06)


@pytest.mark.parametrize("through", [0.11, 0.22, 0.53])
def test_light_falls_off_by_beer_s_law_and_a_ball_passes_its_share_over_its_disc(through: float) -> None:
    ball = Crowns.of(0, 0, 2, 8, 3, 0)
    assert ball.middle_path()[0] == pytest.approx(6)
    ray = unit(np.array([90.0]), np.array([0.0])).astype(np.float32)
    thick = float(density([through], ball.middle_path(), 0)[0])
    out = np.sqrt((np.arange(600) + 0.5) / 600) * 3  # rings of the same area
    starts = points(*[(float(x), 0.0, 0.0) for x in out])
    arrives = np.exp(
        -optical_depths(starts, ball, np.array([0]), np.array([thick], np.float32), Fan.of(ray))
    )[:, 0]
    np.testing.assert_allclose(arrives, np.exp(-thick * 2 * np.sqrt(9 - out**2)), atol=1e-3)
    assert arrives.mean() == pytest.approx(through, abs=0.01)  # told of one a little deeper than wide


@pytest.mark.parametrize("solid", range(4), ids=SOLIDS)
def test_the_middle_way_is_that_of_the_ball_of_the_same_volume(solid: int) -> None:
    """Volumes counted by throwing a fine grid of points."""
    crown = Crowns.of(0, 0, 0, 6, 2, solid)
    grid = (np.arange(120) + 0.5) / 120
    x, y = np.meshgrid(4 * grid - 2, 4 * grid - 2)
    starts = np.stack([x.ravel(), y.ravel(), np.full(x.size, -1.0)], axis=1).astype(np.float32)
    many = crown.take(np.zeros(len(starts), dtype=np.intp))
    volume = paths(starts, many, np.array([[0, 0, 1]], np.float32)).sum() * (4 / 120) ** 2
    assert crown.middle_path()[0] == pytest.approx(2 * (3 * volume / (4 * math.pi)) ** (1 / 3), rel=0.01)


def test_two_crowns_in_a_row_multiply() -> None:
    one, two = Crowns.of(0, 0, 2, 4, 1, 0), Crowns.of([0, 0], [0, 0], [2, 5], [4, 7], 1, 0)
    up = unit(np.array([90.0]), np.array([0.0])).astype(np.float32)
    thick = np.full(2, 0.4, np.float32)
    single = np.exp(-optical_depths(points((0, 0, 0)), one, np.array([0]), thick[:1], Fan.of(up)))[0, 0]
    both = np.exp(-optical_depths(points((0, 0, 0)), two, np.array([0, 1]), thick, Fan.of(up)))[0, 0]
    assert both == pytest.approx(single**2, rel=1e-4)


def test_a_garden_alike_in_east_and_west_has_light_alike() -> None:
    crowns = Crowns.of([-6, 6, 0], [3, 3, -4], [2, 2, 1], [9, 9, 5], [3, 3, 2], [0, 0, 1])
    shares = light(
        points((-2, 1, 0.5), (2, 1, 0.5), (-7, -3, 1), (7, -3, 1)), crowns, 0.3, Site(latitude=46.9), 0.55
    )
    assert shares[0] == pytest.approx(shares[1], abs=1e-4)
    assert shares[2] == pytest.approx(shares[3], abs=1e-4)


def test_north_and_south_change_places_across_the_equator() -> None:
    months = {lat: growing_months(lat) for lat in (40.0, -40.0)}
    assert months[-40.0] == (11, 12, 1, 2, 3)
    found = {}
    for latitude, north in ((40.0, 4.0), (-40.0, -4.0)):
        crown = Crowns.of(0, -north, 2, 8, 3, 0)
        rays = sampling(Site(latitude=latitude), months[latitude], 0.55)
        thick = np.full(1, 0.3, np.float32)
        found[latitude] = light_shares(
            optical_depths(points((0, 0, 0)), crown, np.array([0]), thick, rays.fan), rays
        )[0]
    assert found[40.0] == pytest.approx(found[-40.0], abs=0.01)  # the seasons differ by a few days
    assert in_leaf(7, 40) == in_leaf(1, -40) == 1
    assert in_leaf(1, 40) == in_leaf(7, -40) == 0


def test_a_crown_in_the_south_shades_more_than_one_in_the_north() -> None:
    crowns = [Crowns.of(0, north, 2, 8, 3, 0) for north in (-5, 5)]
    south, north = (light(points((0, 0, 0)), c, 0.3, Site(latitude=46.9), 0.55)[0] for c in crowns)
    assert south < north < 1


@settings(max_examples=30, deadline=None)
@given(st.lists(st.tuples(st.floats(-15, 15), st.floats(-15, 15), st.floats(2, 20)), min_size=1, max_size=5))
def test_more_crowns_never_mean_more_light_and_shares_stay_between(
    trees: list[tuple[float, float, float]],
) -> None:
    east, north, top = (np.array(v) for v in zip(*trees, strict=True))
    shares = [
        light(
            points((0, 0, 1)),
            Crowns.of(east[:n], north[:n], top[:n] / 4, top[:n], top[:n] / 4, np.arange(n) % 4),
            0.2, Site(latitude=46.9), 0.55,
        )[0]
        for n in range(1, len(trees) + 1)
    ]  # fmt: skip
    assert all(0 <= share <= 1 + 1e-6 for share in shares)
    assert all(more <= fewer + 1e-6 for fewer, more in itertools.pairwise(shares))


@pytest.mark.long
@settings(max_examples=30, deadline=None)
@given(seed=st.integers(0, 10_000), many=st.integers(2, 40))
def test_what_is_left_out_by_distance_height_and_bearing_shades_nothing(seed: int, many: int) -> None:
    """Crowns that grow over three years, their points with them, against each ray asked of each crown."""
    draw = np.random.default_rng(seed)
    east, north = draw.uniform(-60, 60, (2, many))
    solid, grows = draw.integers(0, len(SOLIDS), many), draw.uniform(0.5, 9, many)
    fan, group = sampling(Site(latitude=46.9), SUMMER, 0.55, 60, 6, 16).fan, np.arange(many)
    thick = np.full(many, 0.5, dtype=np.float32)
    years = []
    for height in (grows, 1.5 * grows, 2 * grows):
        crowns = Crowns.of(east, north, 0.2 * height, height, 0.4 * height, solid)
        at = np.stack([east + 0.2 * height, north - 0.2 * height, 0.7 * height], axis=1).astype(np.float32)
        years.append((Points(at=at, group=group), crowns))
    shading = Shading(years, group, fan)
    for places, crowns in years:
        plain = np.zeros((many, len(fan.rays)))
        for n in range(many):
            ways = paths(places.at, crowns.take(np.full(many, n)), fan.rays)
            ways[n] = 0  # its own crown
            plain += 0.5 * ways
        np.testing.assert_allclose(shading.depths(places, crowns, thick), plain, atol=1e-3)


def test_a_coarse_sky_agrees_with_a_fine_one() -> None:
    crowns = Crowns.of([-5, 3, 8], [0, -6, 4], [2, 3, 5], [10, 12, 21], [3, 4, 7], 0)
    at = points((0, 0, 1), (2, 3, 2), (-8, 1, 0.3))
    site = Site(latitude=46.9)
    coarse = light(at, crowns, 0.25, site, 0.55)
    fine = light(at, crowns, 0.25, site, 0.55, minutes=5, rings=40, bearings=120)
    np.testing.assert_allclose(coarse, fine, atol=0.015)


def test_points_of_a_plant_are_first_looked_at_as_one(monkeypatch: pytest.MonkeyPatch) -> None:
    """Twenty by twenty trees, each with four points: of the bearings that would be asked point
    by point, those of higher tops within reach of the lowest ray, more than half are left out."""
    place = np.arange(400)
    east, north, grown = 6.0 * (place % 20), 6.0 * (place // 20), 2.0 + place % 7
    crowns = Crowns.of(east, north, 0.2 * grown, grown, 0.4 * grown, 0)
    corners = [(dx * grown, dy * grown) for dx in (0.2, -0.2) for dy in (0.2, -0.2)]
    at = np.stack([np.stack([east + dx, north + dy, 0.7 * grown], axis=1) for dx, dy in corners], axis=1)
    where = Points(at=at.reshape(-1, 3).astype(np.float32), group=np.repeat(place, 4))
    asked = []
    meets = Fan.meets
    monkeypatch.setattr(Fan, "meets", lambda fan, *round: asked.append(len(round[0])) or meets(fan, *round))
    fan = sampling(Site(latitude=46.9), SUMMER, 0.55, 60, 6, 16).fan
    Shading([(where, crowns)], place, fan)
    above = crowns.top - where.at[:, 2, None]
    away = np.hypot(crowns.east - where.at[:, 0, None], crowns.north - where.at[:, 1, None])
    by_point = (above > 0) & (away < crowns.radius + above / fan.rise.min())
    assert 0 < sum(asked) < by_point.sum() / 2
