"""What lies within reach of a tree that falls: metres of path by exact geometry, seats, roofs, plants."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from leafturn.base.tunables import Numbers
from leafturn.canopy.model import Falling, PathReach
from leafturn.garden.model import Garden, Path, Plant, Point


def metres_within(line: Sequence[tuple[float, float]], centre: Point, radius: float) -> float:
    """Length [m] of a line of straight pieces that lies within a circle.

    Parameters
    ----------
    line : sequence of (east, north) [m]
    centre : Point
    radius : float [m]
    """
    return sum(
        _piece_within(a, b, centre, radius) for a, b in itertools.pairwise(line)
    )  # an empty line and a single point have no length


def _piece_within(a: tuple[float, float], b: tuple[float, float], centre: Point, radius: float) -> float:
    """Solve for where the straight line through a and b cuts the circle, and cut that to the piece."""
    along = (b[0] - a[0], b[1] - a[1])
    length = math.hypot(*along)
    if length == 0:
        return 0.0
    unit = (along[0] / length, along[1] / length)
    to = (centre.east - a[0], centre.north - a[1])
    foot = to[0] * unit[0] + to[1] * unit[1]
    aside = to[0] * unit[1] - to[1] * unit[0]
    if abs(aside) >= radius:
        return 0.0
    half = math.sqrt(radius**2 - aside**2)
    return max(min(length, foot + half) - max(0.0, foot - half), 0.0)


def falling(
    plant: Plant, height_m: float, live_percent: float | None, garden: Garden, numbers: Numbers
) -> Falling | None:
    """What a tree may reach as it falls any way; None where its place is not known.

    Parameters
    ----------
    plant : Plant
    height_m : float [m]
        As measured or grown.
    live_percent : float or None [%]
        Of its crown. With less than half alive pieces of the crown are taken to break and go further.
    garden : Garden
    numbers : Numbers
        `brittle_reach`, `unmeasured_reach`.

    Notes
    -----
    One height is where a whole tree can come to lie on level ground; it can slide, roll and throw pieces.
    """
    if plant.point is None:
        return None
    at, measured = plant.point, plant.height_m is not None
    reach = height_m * (1.0 if measured else numbers["unmeasured_reach"])
    dead = plant.state == "dead standing" or (live_percent is not None and live_percent < 50)
    brittle = reach * numbers["brittle_reach"] if dead else None
    farthest = brittle or reach
    seats = [(name, at.metres_to(point)) for name, point in _seats(garden)]
    roofs = [(roof.name or "a roof", roof.metres_to(at)) for roof in garden.roofs if roof.point is not None]
    return Falling(
        reach_m=reach,
        brittle_m=brittle,
        measured=measured,
        paths=tuple(
            _path(path, at, reach, farthest) for path in garden.paths if path.metres_to(at) <= farthest
        ),
        seats=_within(seats, farthest),
        roofs=_within(roofs, farthest),
        plants=tuple(
            p.id
            for p in garden.plants
            if p.point is not None and p.id != plant.id and p.host is None and at.metres_to(p.point) <= reach
        ),
    )


def _within(places: Sequence[tuple[str, float]], metres: float) -> tuple[tuple[str, float], ...]:
    """Those that are no farther off, the nearest first."""
    return tuple(sorted((place for place in places if place[1] <= metres), key=lambda place: place[1]))


def _path(path: Path, at: Point, reach: float, farthest: float) -> PathReach:
    return PathReach(
        name=path.name or "path",
        used=path.used,
        public=path.public,
        nearest_m=path.metres_to(at),
        metres=metres_within(path.line, at, reach),
        metres_brittle=metres_within(path.line, at, farthest),
    )


def _seats(garden: Garden) -> list[tuple[str, Point]]:
    """Places where people stay: seats, where helpers park and where heaps are worked."""
    seats = [(f"{s.name or 'a seat'}, used {s.used}{', public' * s.public}", s.point) for s in garden.seats]
    helpers = [(f"where {h.name} works", h.reach_point) for h in garden.helpers]
    heaps = [(f"heap {h.id}", h.point) for h in garden.heaps]
    return [(name, point) for name, point in (*seats, *helpers, *heaps) if point is not None]
