"""How much of the open light reaches a place under and between crowns."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from leafturn.canopy.crowns import Crowns, FloatArray, paths
from leafturn.canopy.sky import Sampling

_PAIRS_AT_ONCE = 1024  # keeps the work within a core's cache
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
    depths = np.zeros((len(points.at), len(rays)), dtype=np.float32)
    if not len(crowns) or not len(points.at):
        return depths
    which_point, which_crown = _pairs(points, crowns, group, density, rays)
    starts = np.flatnonzero(np.diff(which_point, prepend=-1))
    edges = np.append(starts, len(which_point))
    begun = 0
    while begun < len(starts):
        ended = max(begun + 1, int(np.searchsorted(edges, edges[begun] + _PAIRS_AT_ONCE, "right")) - 1)
        some = slice(edges[begun], edges[ended])
        crown = which_crown[some]
        way = paths(points.at[which_point[some]], crowns.take(crown), rays)
        way *= density[crown][:, None]
        owners = which_point[starts[begun:ended]]
        depths[owners] = np.add.reduceat(way, edges[begun:ended] - edges[begun], axis=0)
        begun = ended
    return depths


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
