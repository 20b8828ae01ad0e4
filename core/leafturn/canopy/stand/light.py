"""How much of the open light reaches a place under and between crowns.

Most crowns of a garden shade a given place along no ray at all. Which may is found once for all years that
are asked for (`Shading`), by distance, height and bearing, from the largest crowns and the lowest points
among them; each year reckons the true shapes of these alone.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from leafturn.base.arrays import BoolArray, Float32Array, FloatArray, IndexArray
from leafturn.base.value import Value
from leafturn.canopy.stand.crowns import Crowns, ways
from leafturn.canopy.stand.sky import Sampling

_PAIRS_AT_ONCE = 16384  # keeps the work within a core's cache
_POINTS_AT_ONCE = 64  # the same, of all crowns beside so many points
_SLACK = 1e-4  # against rounding at a crown's edge
_LEAST_DEPTH = 0.01  # a crown that dims a single ray by less than 1 % is left out
_SECTORS = 720  # of the circle, in which the lowest ray is known


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
    points: Points, crowns: Crowns, group: IndexArray, density: Float32Array, rays: Float32Array
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
    rays : (d, 3)
        Unit vectors.

    Returns
    -------
    (n, d)
        ``exp(-depth)`` of the light along a ray arrives.
    """
    return Shading([(points, crowns)], group, rays).depths(points, crowns, density)


class Shading:
    """Which crowns may shade which points, in any of some years.

    Parameters
    ----------
    years : sequence of (Points, Crowns)
        The same n points and m crowns as they are in each year; only stems stay where they are.
    group : (m,) int
        The crowns' groups.
    rays : (d, 3)
        Unit vectors.
    """

    def __init__(self, years: Sequence[tuple[Points, Crowns]], group: IndexArray, rays: Float32Array) -> None:
        self._rays, self._fan = rays, _Fan.of(rays)
        none = np.zeros(0, dtype=np.intp)
        self._point, self._crown = none, none
        points, crowns = years[0]
        if not len(crowns) or not len(points.at) or not len(rays):
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
        depths = np.zeros(len(points.at) * len(self._rays), dtype=np.float64)
        dims = density * 2 * np.maximum(crowns.radius, crowns.top - crowns.base) > _LEAST_DEPTH
        near = dims[self._crown]
        which_point, which_crown = self._point[near], self._crown[near]
        for begun in range(0, len(which_point), _PAIRS_AT_ONCE):
            point = which_point[begun : begun + _PAIRS_AT_ONCE]
            crown = which_crown[begun : begun + _PAIRS_AT_ONCE]
            pair, ray = self._fan.towards(points.at[point], crowns.take(crown))
            met = crown[pair]
            depth = ways(points.at[point[pair]], crowns.take(met), self._rays[ray]) * density[met]
            places = (point[pair] - point[0]) * len(self._rays) + ray
            found = np.bincount(places, weights=depth)
            start = point[0] * len(self._rays)
            depths[start : start + len(found)] += found
        return depths.reshape(len(points.at), len(self._rays)).astype(np.float32)


class _Fan(Value, eq=False):
    """Rays in the order of their bearing, so that those towards a crown stand together.

    `bearings` [rad] hold three turns of the circle, `order` the rays' numbers, `rise` the tangent of each
    ray's elevation; `lowest` (sectors either side, sectors) the least rise of any ray in a sector of the
    circle and so many on both sides of it.
    """

    bearings: FloatArray
    order: IndexArray
    rise: FloatArray
    lowest: FloatArray

    @classmethod
    def of(cls, rays: Float32Array) -> _Fan:
        bearings = np.arctan2(rays[:, 0], rays[:, 1]).astype(float)
        order = np.argsort(bearings, kind="stable")
        turns = (bearings[order] - 2 * np.pi, bearings[order], bearings[order] + 2 * np.pi)
        flat = np.hypot(rays[:, 0], rays[:, 1]).astype(float)
        rise = rays[:, 2] / np.maximum(flat, 1e-9)
        lowest = np.full((_SECTORS // 2 + 1, _SECTORS), np.inf)
        np.minimum.at(lowest[0], _sector(bearings), rise)
        for either in range(1, len(lowest)):
            beside = np.minimum(np.roll(lowest[0], either), np.roll(lowest[0], -either))
            np.minimum(lowest[either - 1], beside, out=lowest[either])
        return cls(bearings=np.concatenate(turns), order=order, rise=rise, lowest=lowest)

    def meets(
        self, east: Float32Array, north: Float32Array, wide: Float32Array, above: Float32Array
    ) -> BoolArray:
        """Whether any ray towards a crown is low enough to pass below its top.

        The crowns lie `east` and `north` [m] of their points, have a radius `wide`, and top them by `above`.
        """
        away = np.hypot(east, north)
        beside = away > wide
        half = np.where(beside, np.arcsin(np.minimum(wide / np.maximum(away, 1e-6), 1)), np.pi)
        either = np.ceil((half + _SLACK) * (_SECTORS / (2 * np.pi))).astype(np.intp)
        low = self.lowest[np.minimum(either, _SECTORS // 2), _sector(np.arctan2(east, north))]
        return np.asarray(low <= np.where(beside, above / np.maximum(away - wide, 1e-6) + _SLACK, np.inf))

    def towards(self, at: Float32Array, crowns: Crowns) -> tuple[IndexArray, IndexArray]:
        """Numbers of pairs and of rays where a ray from a point may meet its crown: by bearing, then by rise.

        Few rays do, so this leaves little of the work to the true shapes.
        """
        east, north = (crowns.east - at[:, 0]).astype(float), (crowns.north - at[:, 1]).astype(float)
        away = np.hypot(east, north)
        beside = away > crowns.radius
        middle = np.arctan2(east, north)
        half = np.where(beside, np.arcsin(np.minimum(crowns.radius / np.maximum(away, 1e-9), 1)), np.pi)
        first = np.searchsorted(self.bearings, middle - half - _SLACK)
        last = np.searchsorted(self.bearings, middle + half + _SLACK, "right")
        many = np.minimum(last - first, len(self.order))
        pair = np.repeat(np.arange(len(at)), many)
        place = np.arange(len(pair)) - np.repeat(np.cumsum(many) - many, many) + np.repeat(first, many)
        ray = self.order[place % len(self.order)]
        least = (crowns.base - at[:, 2]) / (away + crowns.radius) - _SLACK
        most = np.where(
            beside, (crowns.top - at[:, 2]) / np.maximum(away - crowns.radius, 1e-6) + _SLACK, np.inf
        )
        rise = self.rise[ray]
        meets = (rise >= np.where(crowns.base > at[:, 2], least, -np.inf)[pair]) & (rise <= most[pair])
        return pair[meets], ray[meets]


def _sector(bearings: FloatArray) -> IndexArray:
    """The sector of the circle, from 0 on, in which each bearing [rad] lies."""
    return np.floor(bearings * (_SECTORS / (2 * np.pi))).astype(np.intp) % _SECTORS


def light_shares(depths: Float32Array, sampling: Sampling) -> Float32Array:
    """Share of the open light that arrives, 0 to 1, (n,), from depths (n, d) along the sampling's rays."""
    return np.asarray(np.exp(-depths) @ sampling.weights, dtype=np.float32)
