"""Points of GPX and GeoJSON files, and plants as points again."""

from __future__ import annotations

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from leafturn.base.faults import Unreadable
from leafturn.garden.model import Garden, Place, Plant, Point
from leafturn.garden.points.degrees_to_metres import to_degrees, to_metres
from leafturn.garden.points.geojson import features
from leafturn.garden.points.model import Marked
from leafturn.garden.points.placing import placed, read_points

HERE = Place(lat=46.93, lon=15.87, height_m=360.0)
GPX = (
    '<gpx xmlns="http://www.topografix.com/GPX/1/1"><wpt lat="46.93" lon="15.87"><name>old pear</name>'
    '<type>pear</type></wpt><wpt lat="north" lon="15.87"/><trk><trkseg>'
    '<trkpt lat="46" lon="15"/></trkseg></trk></gpx>'
)


def collection(*found: object) -> bytes:
    return json.dumps({"type": "FeatureCollection", "features": found}).encode()


def feature(coordinates: object, kind: str = "Point", **said: object) -> dict[str, object]:
    return {"type": "Feature", "geometry": {"type": kind, "coordinates": coordinates}, "properties": said}


def test_waypoints_are_read_and_tracks_are_counted_as_left_out() -> None:
    found = read_points(GPX.encode(), "walk.gpx")
    assert found.points == (Marked(name="old pear", kind="pear", latitude=46.93, longitude=15.87),)
    assert found.left_out == 2


def test_points_are_read_and_lines_are_counted_as_left_out() -> None:
    found = read_points(
        collection(feature([15.87, 46.93], name="old pear", species="pear"), feature([[1, 2]], "LineString"),
                   feature([15.87, "46"]), feature([15.87])),
        "map.geojson",
    )  # fmt: skip
    assert found.points == (Marked(name="old pear", kind="pear", latitude=46.93, longitude=15.87),)
    assert found.left_out == 3


@pytest.mark.parametrize(
    ("file", "data", "said"),
    [("a.gpx", b"<gpx", "this is not XML"), ("a.gpx", b"<kml/>", "outermost part is 'kml'"),
     ("a.gpx", b'<!DOCTYPE x [<!ENTITY a "b">]><gpx/>', "defines names of its own"),
     ("a.geojson", b"{", "this is not JSON"), ("a.geojson", b"[" * 100_000, "nested too deeply"),
     ("a.geojson", b'{"type": "Topology"}', "no GeoJSON with features"), ("a.kmz", b"", "no kind of file"),
     ("points", b"", "its name has no ending")],
)  # fmt: skip
def test_what_is_no_such_file_is_refused_in_a_sentence(file: str, data: bytes, said: str) -> None:
    with pytest.raises(Unreadable) as refused:
        read_points(data, file)
    assert said in refused.value.fault.message
    assert refused.value.fault.hint


@pytest.mark.parametrize(
    ("longitude", "latitude", "said"),
    [(46.93, 95.0, "no place on Earth"), (16.02, 46.93, "more than 10 km from the datum")],
)
def test_a_point_that_cannot_be_meant_is_refused(longitude: float, latitude: float, said: str) -> None:
    surveyed = read_points(collection(feature([longitude, latitude], name="far")), "map.json")
    with pytest.raises(Unreadable) as refused:
        placed(surveyed, Garden(place=HERE), "map.json")
    assert refused.value.fault.message.startswith("point 1 (far)")
    assert said in refused.value.fault.message


def test_plants_become_points_that_come_back_to_their_places() -> None:
    plants = (
        Plant(id="pear", kind="pear", cultivar="Comice", year=2012, point=Point(12.0, -7.5)),
        Plant(id="nowhere", kind="quince"),
    )
    garden = Garden(place=HERE, plants=plants)
    whole = features(garden)
    (told,) = whole["features"]
    said = {"kind": "pear", "cultivar": "Comice", "year": 2012, "count": 1, "state": "well"}
    assert (told["id"], told["properties"]) == ("pear", said)
    (found,) = placed(read_points(json.dumps(whole).encode(), "a.json"), garden, "a.json")
    assert (found.id, found.kind) == ("pear-2", "pear")  # the garden has a pear already
    assert found.point == pytest.approx((12.0, -7.5), abs=0.001)


@given(
    st.floats(-2000, 2000), st.floats(-2000, 2000), st.floats(-65, 70), st.floats(-179.9, 179.9),
    st.floats(0, 3000),
)  # fmt: skip
def test_metres_and_degrees_are_each_others_inverse(
    east: float, north: float, lat: float, lon: float, height: float
) -> None:
    datum = Place(lat=lat, lon=lon, height_m=height)
    assert to_metres(*to_degrees(Point(east, north), datum), datum) == pytest.approx((east, north), abs=0.001)
