"""How much of the open light reaches a place under and between crowns.

Most crowns of a garden shade a given place along no ray at all. Which may is found once for all years that
are asked for (`Shading`), by distance, height and bearing, from the largest crowns and the lowest points
among them, first for points that lie together and then for each; each year reckons the true shapes of these
alone.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from leafturn.base.arrays import BoolArray, Float32Array, IndexArray
from leafturn.base.value import Value
from leafturn.canopy.stand.crowns import Crowns, ways
from leafturn.canopy.stand.fan import Fan
from leafturn.canopy.stand.sky import Sampling

_PAIRS_AT_ONCE = 16384  # keeps the work within a core's cache
_POINTS_AT_ONCE = 256  # the same, of all crowns beside so many points
_TOGETHER = 4  # points in a row that are first looked at as one: those of a plant stand so
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


class _Rounds(NamedTuple):
    """Rounds by their middle, how wide they are and how high they lie, (n,) each [m]."""

    east: Float32Array
    north: Float32Array
    wide: Float32Array
    up: Float32Array

    def of(self, which: IndexArray | slice) -> _Rounds:
        """Some of them."""
        return _Rounds(*(values[which] for values in self))

    def together(self) -> _Rounds:
        """Each few in a row as one that holds them, as low as the lowest."""
        first = np.arange(0, len(self.up), _TOGETHER)
        whose = np.arange(len(self.up)) // _TOGETHER
        many = np.bincount(whose)
        east, north = (
            (np.add.reduceat(values, first) / many).astype(np.float32) for values in (self.east, self.north)
        )
        reach = np.hypot(self.east - east[whose], self.north - north[whose]) + self.wide
        return _Rounds(east, north, np.maximum.reduceat(reach, first), np.minimum.reduceat(self.up, first))


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
        spots = _Rounds(middle[:, 0], middle[:, 1], strays, at[:, :, 2].min(axis=0))
        together = spots.together()
        widest = np.max([of_year.radius for _, of_year in years], axis=0)
        highest = np.max([of_year.top for _, of_year in years], axis=0)
        tops = _Rounds(crowns.east, crowns.north, widest, highest)
        found = []
        for begun in range(0, len(strays), _POINTS_AT_ONCE):
            some = together.of(slice(begun // _TOGETHER, (begun + _POINTS_AT_ONCE) // _TOGETHER))
            near = self._near(some, tops).repeat(_TOGETHER, axis=0)[: len(strays) - begun]
            point, crown = np.nonzero(near)
            point += begun
            others = points.group[point] != group[crown]
            point, crown = point[others], crown[others]
            meets = self._meets(spots.of(point), tops.of(crown))
            found.append((point[meets], crown[meets]))
        self._point, self._crown = (np.concatenate(one) for one in zip(*found, strict=True))

    def _near(self, spots: _Rounds, tops: _Rounds) -> BoolArray:
        """Whether each of some crowns may shade each of some spots, (spots, crowns)."""
        farthest = 1 / max(float(self._fan.rise.min()), 1e-3)  # metres away for each metre above
        above = tops.up - spots.up[:, None]
        east, north = tops.east - spots.east[:, None], tops.north - spots.north[:, None]
        far = tops.wide + spots.wide[:, None] + above * farthest
        near = (above > 0) & (east**2 + north**2 < far**2)
        spot, top = np.nonzero(near)
        near[spot, top] = self._meets(spots.of(spot), tops.of(top))
        return near

    def _meets(self, spots: _Rounds, tops: _Rounds) -> BoolArray:
        """Whether each of some crowns may shade the spot beside it in the list, (pairs,)."""
        east, north, above = tops.east - spots.east, tops.north - spots.north, tops.up - spots.up
        return self._fan.meets(east, north, tops.wide + spots.wide, above) & (above > 0)

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
