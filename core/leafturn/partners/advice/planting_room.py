"""Where in a garden there is room for one plant more."""

from __future__ import annotations

import math

import numpy as np

from leafturn.base.arrays import FloatArray
from leafturn.base.kept import kept
from leafturn.garden.model import Point
from leafturn.season.garden_day import GardenDay

CLOSE = 0.8  # guess: of the two crown radii together, how near two stems may stand
PATH_CLEAR_M = 1.0  # guess: from a path to a new stem
STEP_M = 1.0  # how finely room is looked for, and in how many ways below
WAYS = 8
SQUARE_M = 20.0  # of the grid by which stems nearby are found
GROUND_LAYERS = ("herb", "ground")


class PlantingRoom:
    """Stems and crowns of a garden, kept by squares so that only near ones are looked at.

    Parameters
    ----------
    day : GardenDay
        Its library is asked for the crowns of grown plants. Plants of the ground layer are in nobody's way.
    """

    def __init__(self, day: GardenDay) -> None:
        self._squares: dict[tuple[int, int], list[tuple[float, float, float]]] = {}
        self._widest = 0.0
        for plant in day.garden.plants:
            kind = day.kind(plant)
            if plant.point is None or plant.state == "gone" or kind.layer in GROUND_LAYERS:
                continue
            crown = kind.size.grown_radius
            self._widest = max(self._widest, crown)
            self._squares.setdefault(_square(plant.point), []).append((*plant.point, crown))
        self._paths = day.garden.paths

    @kept
    def spot(self, near: Point, crown: float, within: float) -> Point | None:
        """The nearest place with room for a grown plant, to whole metres' distance.

        Parameters
        ----------
        near : Point
            Where the pollen is wanted.
        crown : float [m]
            Radius of the crown to come.
        within : float [m]
            Farthest that serves.

        Returns
        -------
        Point or None
            None if there is no room within that distance.
        """
        occupied = self._around(near, within + (crown + self._widest) * CLOSE)
        angles = np.arange(WAYS) * (2 * math.pi / WAYS)
        ways = np.stack([np.sin(angles), np.cos(angles)], axis=1)
        for metres in np.arange(STEP_M, within + 1e-9, STEP_M):
            spots = np.asarray(near) + metres * ways
            away = np.hypot(*(spots[:, None, :] - occupied[None, :, :2]).transpose(2, 0, 1))
            room = (away - (occupied[:, 2] + crown) * CLOSE).min(axis=1, initial=np.inf)
            for n in np.argsort(-np.round(room, 6), kind="stable"):
                if room[n] < 0:
                    break
                spot = Point(float(spots[n, 0]), float(spots[n, 1]))
                if not self._on_path(spot):
                    return spot
        return None

    def _around(self, point: Point, metres: float) -> FloatArray:
        """East, north and crown radius of plants no farther off, and some farther, (plants, 3) [m]."""
        east, north = _square(point)
        reach = math.ceil(metres / SQUARE_M)
        found = [
            one
            for e in range(east - reach, east + reach + 1)
            for n in range(north - reach, north + reach + 1)
            for one in self._squares.get((e, n), ())
        ]
        return np.array(found, dtype=float).reshape(-1, 3)

    def _on_path(self, spot: Point) -> bool:
        return any(path.metres_to(spot) < PATH_CLEAR_M for path in self._paths)


def _square(point: Point) -> tuple[int, int]:
    return math.floor(point.east / SQUARE_M), math.floor(point.north / SQUARE_M)
