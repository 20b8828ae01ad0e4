"""Where things stand, in words that help someone find them."""

from __future__ import annotations

import math

from leafturn.base import quantities
from leafturn.garden.model import Plant, Point
from leafturn.garden.reading.place_phrases import BETWEEN_POINTS, POINTS

NOT_GIVEN = "place not given"


def compass(start: Point, end: Point) -> tuple[str, str]:
    """The word and the letters, of sixteen, for the way from one point to another."""
    degrees = math.degrees(math.atan2(end.east - start.east, end.north - start.north))
    return point_at(degrees)


def point_at(bearing: float) -> tuple[str, str]:
    """The word and the letters of the compass point nearest to a bearing [degrees clockwise from north]."""
    return POINTS[round(bearing / BETWEEN_POINTS) % len(POINTS)]


def where(plant: Plant) -> str:
    """A plant's place: the steward's own words, else its host, the words of `at`, or metres from the gate."""
    return where_if_known(plant) or NOT_GIVEN


def where_if_known(plant: Plant) -> str:
    """The same; empty where no place is given."""
    if plant.words:
        return plant.words
    if plant.host:
        return f"on {plant.host}"
    if isinstance(plant.at, str) and plant.at not in ("gate", "datum"):
        return plant.at
    return "" if plant.point is None else from_gate(plant.point)


def from_gate(point: Point | None) -> str:
    """A point as metres and a compass word from the garden's datum, "the gate"."""
    if point is None:
        return NOT_GIVEN
    gate = Point(0.0, 0.0)
    metres = gate.metres_to(point)
    if metres < 1.0:
        return "at the gate"
    return f"{quantities.metres(metres, 0)} {compass(gate, point)[1]} of the gate"
