"""Files of points, whole and broken: a place in metres, or one sentence."""

from __future__ import annotations

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from leafturn.base.faults import Unreadable
from leafturn.garden.model import Garden, Place
from leafturn.garden.points.placing import READERS, placed, read_points

GARDEN = Garden(place=Place(lat=46.93, lon=15.87))
JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=20) | st.just(10**400),
    lambda inner: (
        st.lists(inner, max_size=4)
        | st.dictionaries(
            st.sampled_from(["type", "features", "geometry", "coordinates", "properties", "id", "name"]),
            inner,
            max_size=5,
        )
    ),
    max_leaves=20,
)
FEATURES = st.lists(
    st.fixed_dictionaries(
        {
            "type": st.just("Feature"),
            "geometry": st.fixed_dictionaries({"type": st.just("Point"), "coordinates": JSON}),
        },
        optional={"properties": JSON, "id": JSON},
    ),
    max_size=4,
)


def read(data: bytes, file: str) -> None:
    """Read points and place them; a sentence is an answer too."""
    try:
        surveyed = read_points(data, file)
        found = placed(surveyed, GARDEN, file)
    except Unreadable:
        return
    assert len(found) == len(surveyed.points)
    assert len({plant.id for plant in found}) == len(found)


@given(data=st.binary(max_size=300), ending=st.sampled_from(sorted(READERS)))
def test_any_bytes_give_points_or_a_sentence(data: bytes, ending: str) -> None:
    read(data, f"survey{ending}")


@pytest.mark.long
@given(whole=JSON | st.fixed_dictionaries({"type": st.just("FeatureCollection"), "features": FEATURES}))
def test_any_json_gives_points_or_a_sentence(whole: object) -> None:
    read(json.dumps(whole).encode(), "survey.geojson")


@given(
    cells=st.lists(st.lists(st.text(alphabet='0123456789.,;-e"\tna ', max_size=9), max_size=4), max_size=6)
)
def test_any_table_gives_points_or_a_sentence(cells: list[list[str]]) -> None:
    body = "\n".join(",".join(row) for row in cells)
    read(f"name,lat,lon\n{body}".encode(), "survey.csv")


@pytest.mark.parametrize("value", ["1e999", "-1e999", "NaN", "1" * 400])
def test_degrees_beyond_all_numbers_are_no_place(value: str) -> None:
    feature = '{"type": "Feature", "geometry": {"type": "Point", "coordinates": [%s, 1]}, "properties": null}'
    surveyed = read_points((feature % value).encode(), "survey.geojson")
    assert (surveyed.points, surveyed.left_out) == ((), 1)
