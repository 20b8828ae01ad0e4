"""How much of the open light reaches a place under and between crowns."""

from __future__ import annotations

import numpy as np

from leafturn.base.arrays import Float32Array, FloatArray, IndexArray
from leafturn.base.value import Value
from leafturn.canopy.stand.crowns import Crowns, ways
from leafturn.canopy.stand.sky import Sampling

_PAIRS_AT_ONCE = 16384  # keeps the work within a core's cache
_POINTS_AT_ONCE = 64  # the same, of all crowns beside so many points
_SLACK = 1e-4  # against rounding at a crown's edge
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
    depths = np.zeros(len(points.at) * len(rays), dtype=np.float64)
    if not len(crowns) or not len(points.at) or not len(rays):
        return depths.reshape(len(points.at), len(rays)).astype(np.float32)
    which_point, which_crown = _pairs(points, crowns, group, density, rays)
    fan = _Fan.of(rays)
    for begun in range(0, len(which_point), _PAIRS_AT_ONCE):
        point = which_point[begun : begun + _PAIRS_AT_ONCE]
        crown = which_crown[begun : begun + _PAIRS_AT_ONCE]
        pair, ray = fan.towards(points.at[point], crowns.take(crown))
        met = crown[pair]
        depth = ways(points.at[point[pair]], crowns.take(met), rays[ray]) * density[met]
        places = (point[pair] - point[0]) * len(rays) + ray
        found = np.bincount(places, weights=depth)
        start = point[0] * len(rays)
        depths[start : start + len(found)] += found
    return depths.reshape(len(points.at), len(rays)).astype(np.float32)


class _Fan(Value, eq=False):
    """Rays in the order of their bearing, so that those towards a crown stand together.

    `bearings` [rad] hold three turns of the circle, `order` the rays' numbers, `rise` the tangent of each
    ray's elevation.
    """

    bearings: FloatArray
    order: IndexArray
    rise: FloatArray

    @classmethod
    def of(cls, rays: Float32Array) -> _Fan:
        bearings = np.arctan2(rays[:, 0], rays[:, 1]).astype(float)
        order = np.argsort(bearings, kind="stable")
        turns = (bearings[order] - 2 * np.pi, bearings[order], bearings[order] + 2 * np.pi)
        flat = np.hypot(rays[:, 0], rays[:, 1]).astype(float)
        return cls(bearings=np.concatenate(turns), order=order, rise=rays[:, 2] / np.maximum(flat, 1e-9))

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


def _pairs(
    points: Points, crowns: Crowns, group: IndexArray, density: Float32Array, rays: Float32Array
) -> tuple[IndexArray, IndexArray]:
    """Points with the crowns that can shade them, sorted by point."""
    lowest = float(rays[:, 2].min())
    reach = np.sqrt(max(1 - lowest**2, 0)) / max(lowest, 1e-3)
    dims = density * 2 * np.maximum(crowns.radius, crowns.top - crowns.base) > _LEAST_DEPTH
    found = []
    for begun in range(0, len(points.at), _POINTS_AT_ONCE):
        at = points.at[begun : begun + _POINTS_AT_ONCE, :, None]
        away = np.hypot(at[:, 0] - crowns.east, at[:, 1] - crowns.north)
        above = crowns.top - at[:, 2]
        near = (above > 0) & (away - crowns.radius < above * reach) & dims
        near &= group != points.group[begun : begun + _POINTS_AT_ONCE, None]
        point, crown = np.nonzero(near)
        found.append((point + begun, crown))
    which_point, which_crown = (np.concatenate(one) for one in zip(*found, strict=True))
    return which_point, which_crown


def light_shares(depths: Float32Array, sampling: Sampling) -> Float32Array:
    """Share of the open light that arrives, 0 to 1, (n,), from depths (n, d) along the sampling's rays."""
    return np.asarray(np.exp(-depths) @ sampling.weights, dtype=np.float32)
