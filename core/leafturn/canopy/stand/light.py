"""How much of the open light reaches a place under and between crowns.

Most crowns of a garden shade a given place along no ray at all. Which may is found once for all years that
are asked for (`Shading`), by distance, height and bearing, from the largest crowns and the lowest points
among them; each year reckons the true shapes of these alone.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from leafturn.base.arrays import Float32Array, IndexArray
from leafturn.base.value import Value
from leafturn.canopy.stand.crowns import Crowns, ways
from leafturn.canopy.stand.fan import Fan
from leafturn.canopy.stand.sky import Sampling

_PAIRS_AT_ONCE = 16384  # keeps the work within a core's cache
_POINTS_AT_ONCE = 64  # the same, of all crowns beside so many points
_LEAST_DEPTH = 0.01  # a crown that dims a single ray by less than 1 % is left out


class Points(Value):
    """Places whose light is asked for.

    Parameters
    ----------
    at : (n, 3) [m]
        East, north, up.
    group : (n,) int
        A crown of the same group does not shade the point: its own, and that of the tree it climbs on.
    """

    at: Float32Array
    group: IndexArray


def optical_depths(
    points: Points, crowns: Crowns, group: IndexArray, density: Float32Array, fan: Fan
) -> Float32Array:
    """Sum of density times way over all crowns that rays from the points pass.

    Parameters
    ----------
    points : Points
        n of them.
    crowns : Crowns
        m of them.
    group : (m,) int
        The crowns' groups.
    density : (m,) [1/m]
    fan : Fan
        d rays.

    Returns
    -------
    (n, d)
        ``exp(-depth)`` of the light along a ray arrives.
    """
    return Shading([(points, crowns)], group, fan).depths(points, crowns, density)


class Shading:
    """Which crowns may shade which points, in any of some years.

    Parameters
    ----------
    years : sequence of (Points, Crowns)
        The same n points and m crowns as they are in each year; only stems stay where they are.
    group : (m,) int
        The crowns' groups.
    fan : Fan
        d rays.
    """

    def __init__(self, years: Sequence[tuple[Points, Crowns]], group: IndexArray, fan: Fan) -> None:
        self._fan = fan
        none = np.zeros(0, dtype=np.intp)
        self._point, self._crown = none, none
        points, crowns = years[0]
        if not len(crowns) or not len(points.at) or not len(fan.rays):
            return
        at = np.array([places.at for places, _ in years])
        middle = at[:, :, :2].mean(axis=0)
        strays = np.hypot(*np.moveaxis(at[:, :, :2] - middle, -1, 0)).max(axis=0)
        lowest = at[:, :, 2].min(axis=0)
        top = np.max([of_year.top for _, of_year in years], axis=0)
        radius = np.max([of_year.radius for _, of_year in years], axis=0)
        farthest = 1 / max(float(self._fan.rise.min()), 1e-3)  # metres away for each metre above
        found = []
        for begun in range(0, len(lowest), _POINTS_AT_ONCE):
            some = slice(begun, begun + _POINTS_AT_ONCE)
            above = top - lowest[some, None]
            east = crowns.east - middle[some, 0, None]
            north = crowns.north - middle[some, 1, None]
            far = radius + strays[some, None] + above * farthest
            near = (above > 0) & (group != points.group[some, None]) & (east**2 + north**2 < far**2)
            point, crown = np.nonzero(near)
            wide = radius[crown] + strays[begun + point]
            meets = self._fan.meets(east[near], north[near], wide, above[near])
            found.append((point[meets] + begun, crown[meets]))
        self._point, self._crown = (np.concatenate(one) for one in zip(*found, strict=True))

    def depths(self, points: Points, crowns: Crowns, density: Float32Array) -> Float32Array:
        """Depths (n, d) in one of the years, as `optical_depths` gives them."""
        depths = np.zeros(len(points.at) * len(self._fan.rays), dtype=np.float64)
        dims = density * 2 * np.maximum(crowns.radius, crowns.top - crowns.base) > _LEAST_DEPTH
        near = dims[self._crown]
        which_point, which_crown = self._point[near], self._crown[near]
        for begun in range(0, len(which_point), _PAIRS_AT_ONCE):
            point = which_point[begun : begun + _PAIRS_AT_ONCE]
            crown = which_crown[begun : begun + _PAIRS_AT_ONCE]
            pair, ray = self._fan.towards(points.at[point], crowns.take(crown))
            met = crown[pair]
            depth = ways(points.at[point[pair]], crowns.take(met), self._fan.rays[ray]) * density[met]
            places = (point[pair] - point[0]) * len(self._fan.rays) + ray
            found = np.bincount(places, weights=depth)
            start = point[0] * len(self._fan.rays)
            depths[start : start + len(found)] += found
        return depths.reshape(len(points.at), len(self._fan.rays)).astype(np.float32)


def light_shares(depths: Float32Array, sampling: Sampling) -> Float32Array:
    """Share of the open light that arrives, 0 to 1, (n,), from depths (n, d) along the sampling's rays."""
    return np.asarray(np.exp(-depths) @ sampling.weights, dtype=np.float32)
