"""How much of the open light reaches a place under and between crowns."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from leafturn.canopy.crowns import Crowns, FloatArray, ways
from leafturn.canopy.sky import Sampling

_PAIRS_AT_ONCE = 2048  # keeps the work within a core's cache
_LEAST_DEPTH = 0.01  # a crown that dims a single ray by less than 1 % is left out


@dataclass(frozen=True, kw_only=True)
class Points:
    """Places whose light is asked for.

    Parameters
    ----------
    at : (n, 3) [m]
        East, north, up.
    group : (n,) int
        A crown of the same group does not shade the point: its own, and that of the tree it climbs on.
    """

    at: FloatArray
    group: NDArray[np.intp]


def optical_depths(
    points: Points, crowns: Crowns, group: NDArray[np.intp], density: FloatArray, rays: FloatArray
) -> FloatArray:
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
    across = np.ascontiguousarray(rays.T)
    for begun in range(0, len(which_point), _PAIRS_AT_ONCE):
        point = which_point[begun : begun + _PAIRS_AT_ONCE]
        crown = which_crown[begun : begun + _PAIRS_AT_ONCE]
        pair, ray = _hits(points.at[point], crowns, crown, across)
        met = crown[pair]
        depth = ways(points.at[point[pair]], crowns.take(met), rays[ray]) * density[met]
        places = (point[pair] - point[0]) * len(rays) + ray
        found = np.bincount(places, weights=depth)
        start = point[0] * len(rays)
        depths[start : start + len(found)] += found
    return depths.reshape(len(points.at), len(rays)).astype(np.float32)


def _hits(
    at: FloatArray, crowns: Crowns, which: NDArray[np.intp], across: FloatArray
) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """Which rays (3, d) pass through the ball round each crown: numbers of pairs and of rays.

    Few do, so this leaves little of the work to the true shapes.
    """
    middle = (crowns.top[which] + crowns.base[which]) / 2
    half = (crowns.top[which] - crowns.base[which]) / 2
    to = np.stack([crowns.east[which] - at[:, 0], crowns.north[which] - at[:, 1], middle - at[:, 2]], axis=1)
    ball = _ball_squared(crowns.solid[which], crowns.radius[which], half)
    away = np.einsum("ij,ij->i", to, to) - ball
    # a ray meets the ball if it leads towards it and passes within its radius; from inside every ray does
    least = np.sqrt(np.maximum(away, 0)).astype(np.float32)
    least[away <= 0] = -np.inf
    hit = np.flatnonzero(to @ across >= least[:, None])
    return np.divmod(hit, across.shape[1])


def _ball_squared(solid: NDArray[np.intp], radius: FloatArray, half: FloatArray) -> FloatArray:
    """Square of the radius of the ball about the middle that holds the whole solid."""
    return np.where(solid == 0, np.maximum(radius, half) ** 2, radius**2 + half**2)


def _pairs(
    points: Points, crowns: Crowns, group: NDArray[np.intp], density: FloatArray, rays: FloatArray
) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """Points with the crowns that can shade them, sorted by point."""
    lowest = float(rays[:, 2].min())
    reach = np.sqrt(max(1 - lowest**2, 0)) / max(lowest, 1e-3)
    away = np.hypot(
        points.at[:, None, 0] - crowns.east[None, :], points.at[:, None, 1] - crowns.north[None, :]
    )
    above = crowns.top[None, :] - points.at[:, None, 2]
    near = (above > 0) & (away - crowns.radius[None, :] < above * reach)
    near &= group[None, :] != points.group[:, None]
    near &= (density * 2 * np.maximum(crowns.radius, crowns.top - crowns.base) > _LEAST_DEPTH)[None, :]
    return np.nonzero(near)


def light_shares(depths: FloatArray, sampling: Sampling) -> FloatArray:
    """Share of the open light that arrives, 0 to 1, (n,), from depths (n, d) along the sampling's rays."""
    return np.asarray(np.exp(-depths) @ sampling.weights, dtype=np.float32)
