"""Degrees in metres from a datum against PROJ 9.5.1 (pyproj 3.7.2): its topocentric conversion on WGS 84.

The frozen figures run always; the live comparison needs the `reference` extra.
"""

from __future__ import annotations

import math
import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from leafturn.garden.model import Place, Point
from leafturn.garden.points.degrees_to_metres import to_degrees, to_metres

CENTIMETRE = 0.01
# Datum (latitude, longitude, height), place (latitude, longitude), metres east and north of the datum.
PROJ = (
    (46.93, 15.87, 360.0, 46.931, 15.87, 0.0, 111.1758),
    (46.93, 15.87, 360.0, 46.93, 15.872, 152.3191, 0.0019),
    (46.93, 15.87, 360.0, 46.89, 15.92, 3810.8118, -4445.7997),
    (-41.2, 174.9, 20.0, -41.19, 174.88, -1677.8675, 1110.3874),
    (-41.2, 174.9, 20.0, -41.24, 174.95, 4191.4755, -4443.5448),
    (0.5, -78.0, 2800.0, 0.51, -78.02, -2227.2795, 1106.2357),
    (69.6, 18.9, 0.0, 69.61, 18.88, -777.9844, 1115.6972),
)


def datum(latitude: float, longitude: float, height: float = 0.0) -> Place:
    return Place(lat=latitude, lon=longitude, height_m=height)


@pytest.mark.parametrize("row", PROJ)
def test_metres_are_those_of_proj(row: tuple[float, ...]) -> None:
    lat0, lon0, height, latitude, longitude, east, north = row
    found = to_metres(latitude, longitude, datum(lat0, lon0, height))
    assert (found.east, found.north) == pytest.approx((east, north), abs=0.0002)


@given(
    latitude=st.floats(-85, 85),
    longitude=st.floats(-180, 180),
    height=st.floats(-400, 5000),
    east=st.floats(-20_000, 20_000),
    north=st.floats(-20_000, 20_000),
)
def test_there_and_back_is_the_same_place(
    latitude: float, longitude: float, height: float, east: float, north: float
) -> None:
    place, point = datum(latitude, longitude, height), Point(east, north)
    degrees = to_degrees(point, place)
    assert -180 <= degrees[1] < 180
    # Near the poles, 28 km from the datum, it is a millimetre and a half.
    assert to_metres(*degrees, place).metres_to(point) < CENTIMETRE / (500 if abs(latitude) <= 75 else 5)


@pytest.mark.reference
def test_metres_and_degrees_are_those_of_proj_anywhere() -> None:
    transformer = pytest.importorskip("pyproj").Transformer
    chance = random.Random(1)
    for _ in range(200):
        lat0, lon0, height = chance.uniform(-80, 80), chance.uniform(-179, 179), chance.uniform(0, 3000)
        proj = transformer.from_pipeline(
            "+proj=pipeline +step +proj=unitconvert +xy_in=deg +xy_out=rad +step +proj=cart +ellps=WGS84 "
            f"+step +proj=topocentric +ellps=WGS84 +lat_0={lat0} +lon_0={lon0} +h_0={height}"
        )
        latitude = lat0 + chance.uniform(-0.05, 0.05)
        longitude = lon0 + chance.uniform(-0.05, 0.05)
        east, north, _ = proj.transform(longitude, latitude, height)
        found = to_metres(latitude, longitude, datum(lat0, lon0, height))
        assert math.hypot(found.east - east, found.north - north) < CENTIMETRE / 10
        back = to_degrees(Point(east, north), datum(lat0, lon0, height))
        assert back == pytest.approx((latitude, longitude), abs=1e-8)
