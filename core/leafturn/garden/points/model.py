"""Points as they were surveyed, and what they come to in a garden."""

from __future__ import annotations

from leafturn.base.value import Value
from leafturn.garden.model import Point


class Marked(Value):
    """A point as a file has it: its name and kind, empty where none is given, WGS 84 [deg]."""

    name: str
    kind: str
    latitude: float
    longitude: float


class Surveyed(Value):
    """The points of a file, and how many things of it were left out, as they are no points."""

    points: tuple[Marked, ...]
    left_out: int = 0


class Placed(Value):
    """A point in the garden: an id that no plant there has, its kind if one is given, and its place."""

    id: str
    kind: str
    point: Point
