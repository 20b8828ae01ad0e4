"""Plants as GeoJSON (RFC 7946), and the points of such a file."""

from __future__ import annotations

import json
from typing import Any

from leafturn.base.faults import Fault, Unreadable
from leafturn.garden.model import Garden, Plant
from leafturn.garden.points.degrees_to_metres import to_degrees
from leafturn.garden.points.model import Marked, Surveyed

DIGITS = 8  # of a degree: 1 mm
MOST = 1e9  # no coordinate is larger, in whatever unit it was meant


def features(garden: Garden) -> dict[str, Any]:
    """The plants that have a place, as a FeatureCollection: a point each, with what the garden file says.

    Parameters
    ----------
    garden : Garden
    """
    found = [_feature(plant, garden) for plant in garden.plants if plant.point is not None]
    return {"type": "FeatureCollection", "features": found}


def _feature(plant: Plant, garden: Garden) -> dict[str, Any]:
    assert plant.point is not None
    latitude, longitude = to_degrees(plant.point, garden.place)
    told = (
        "kind",
        "name",
        "cultivar",
        "rootstock",
        "year",
        "count",
        "state",
        "guild",
        "host",
        "height_m",
        "crown_m",
    )
    properties = {key: value for key in told if (value := getattr(plant, key)) is not None}
    return {
        "type": "Feature",
        "id": plant.id,
        "geometry": {"type": "Point", "coordinates": [round(longitude, DIGITS), round(latitude, DIGITS)]},
        "properties": properties,
    }


def read_geojson(data: bytes, file: str) -> Surveyed:
    """The points of a GeoJSON text; lines and areas are counted as left out.

    Raises
    ------
    Unreadable
        If it is no GeoJSON.
    """
    try:
        whole = json.loads(data)
    except ValueError as why:
        line = getattr(why, "lineno", None)
        raise _refused(file, line, "this is not JSON.", "Save it again as GeoJSON.") from None
    except RecursionError:
        raise _refused(
            file, None, "it is nested too deeply to be a map.", "Save it again as GeoJSON."
        ) from None
    listed = whole.get("features") if isinstance(whole, dict) else None
    listed = listed if isinstance(listed, list) else [whole]
    if not all(isinstance(one, dict) and one.get("type") == "Feature" for one in listed):
        hint = 'It wants {"type": "FeatureCollection", "features": [...]} (RFC 7946).'
        raise _refused(file, None, "this is JSON, but no GeoJSON with features.", hint)
    points = tuple(marked for one in listed if (marked := _marked(one)) is not None)
    return Surveyed(points=points, left_out=len(listed) - len(points))


def _marked(feature: dict[str, Any]) -> Marked | None:
    geometry, said = feature.get("geometry"), feature.get("properties")
    said = said if isinstance(said, dict) else {}
    place = (
        geometry.get("coordinates")
        if isinstance(geometry, dict) and geometry.get("type") == "Point"
        else None
    )
    if not isinstance(place, list) or len(place) < 2 or not all(_is_number(one) for one in place[:2]):
        return None
    name = next(
        (v for v in (feature.get("id"), said.get("id"), said.get("name"), said.get("title")) if v), ""
    )
    kind = next((v for v in (said.get("kind"), said.get("species")) if isinstance(v, str)), "")
    return Marked(name=str(name), kind=kind, latitude=float(place[1]), longitude=float(place[0]))


def _is_number(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool) and abs(value) < MOST


def _refused(file: str, line: int | None, message: str, hint: str) -> Unreadable:
    return Unreadable(Fault(file=file, line=line, message=message, hint=hint))
