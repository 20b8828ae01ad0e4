"""Crowns as solids that let part of the light through, and how far a ray runs inside each."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from leafturn.kinds.model import Kind

FloatArray = NDArray[np.float32]
Solid = Literal["ellipsoid", "cone", "vase", "column"]
SOLIDS: tuple[Solid, ...] = ("ellipsoid", "cone", "vase", "column")

_SOLID_OF_SHAPE: dict[str, Solid] = {"pyramid": "cone", "cone": "cone", "column": "column", "vase": "vase"}
# Share of the height at which the crown begins: 0.2 to 0.35 is usual of trees (common practice, no source).
_BASE_SHARE = {"tree": 0.25, "climber": 0.2, "shrub": 0.1, "cane": 0.1}
_NEVER_SHUT, _NEVER_OPEN = 0.005, 0.999


@dataclass(frozen=True, kw_only=True)
class Crowns:
    """Many crowns at once; every array has one value a crown.

    Parameters
    ----------
    east, north : (n,) [m]
        The stem.
    base, top : (n,) [m]
        Where the crown begins and ends above the ground.
    radius : (n,) [m]
        At its widest.
    solid : (n,) int
        Place in `SOLIDS`.
    """

    east: FloatArray
    north: FloatArray
    base: FloatArray
    top: FloatArray
    radius: FloatArray
    solid: NDArray[np.intp]

    @classmethod
    def of(
        cls,
        east: ArrayLike,
        north: ArrayLike,
        base: ArrayLike,
        top: ArrayLike,
        radius: ArrayLike,
        solid: ArrayLike,
    ) -> Crowns:
        """Crowns from anything like arrays, broadcast against each other."""
        arrays = np.broadcast_arrays(
            *(np.atleast_1d(np.asarray(a, dtype=np.float32)) for a in (east, north, base, top, radius))
        )
        return cls(
            east=arrays[0],
            north=arrays[1],
            base=arrays[2],
            top=arrays[3],
            radius=arrays[4],
            solid=np.broadcast_to(np.atleast_1d(np.asarray(solid, dtype=np.intp)), arrays[0].shape),
        )

    def __len__(self) -> int:
        return len(self.east)

    def take(self, which: NDArray[np.intp]) -> Crowns:
        """The crowns with these numbers, in their order."""
        return Crowns(
            east=self.east[which],
            north=self.north[which],
            base=self.base[which],
            top=self.top[which],
            radius=self.radius[which],
            solid=self.solid[which],
        )

    def middle_path(self) -> FloatArray:
        """Mean way [m] through the middle: the diameter of the ball of the same volume."""
        share = np.array([4 / 3, 1 / 3, 1 / 3, 1.0], dtype=np.float32)[self.solid]
        depth = np.where(self.solid == 0, (self.top - self.base) / 2, self.top - self.base)
        volume = np.pi * share * self.radius**2 * depth
        return np.asarray(2 * (3 * volume / (4 * np.pi)) ** (1 / 3), dtype=np.float32)


def solid_of(kind: Kind) -> int:
    """The solid nearest to a kind's outline, as its place in `SOLIDS`."""
    shape = kind.size.shape.value if kind.size.shape else "round"
    return SOLIDS.index(_SOLID_OF_SHAPE.get(shape, "ellipsoid"))


def base_share(kind: Kind) -> float:
    """Share of the height at which a kind's crown begins."""
    return _BASE_SHARE.get(kind.habit, 0.0)


def density(through: ArrayLike, middle_path: ArrayLike) -> FloatArray:
    """Extinction [1/m] of a crown that passes the share `through` along the way through its middle [m].

    Notes
    -----
    Light falls off as ``exp(-density path)`` (Monsi and Saeki 1953, recalled), so that a full crown
    passes the published share through its middle and more towards its rim.
    """
    shares = np.clip(np.asarray(through, dtype=np.float32), _NEVER_SHUT, _NEVER_OPEN)
    ways = np.maximum(np.asarray(middle_path, dtype=np.float32), 1e-3)
    return np.asarray(-np.log(shares) / ways, dtype=np.float32)


def paths(points: FloatArray, crowns: Crowns, rays: FloatArray) -> FloatArray:
    """Way of rays inside crowns.

    Parameters
    ----------
    points : (n, 3) [m]
        East, north, up: where each ray starts.
    crowns : Crowns
        One for each point.
    rays : (d, 3)
        Unit vectors towards the sky.

    Returns
    -------
    (n, d) [m]
        Way inside `crowns[i]` of a ray from `points[i]` along `rays[j]`; 0 where it misses.
    """
    result = np.zeros((len(points), len(rays)), dtype=np.float32)
    for number, solid in enumerate(SOLIDS):
        mine = np.flatnonzero(crowns.solid == number)
        if len(mine):
            some = crowns if len(mine) == len(crowns) else crowns.take(mine)
            result[mine] = _PATHS[solid](points[mine], some, rays)
    return result


def _ellipsoid(points: FloatArray, crowns: Crowns, rays: FloatArray) -> FloatArray:
    """Roots of a quadratic in the ray's length, all as products of matrices."""
    half = np.maximum((crowns.top - crowns.base) / 2, 1e-3)
    wide, tall = 1 / np.maximum(crowns.radius, 1e-3) ** 2, 1 / half**2
    x = points[:, 0] - crowns.east
    y = points[:, 1] - crowns.north
    z = points[:, 2] - (crowns.top + crowns.base) / 2
    up_squared = rays[:, 2] ** 2
    a = np.stack([wide, tall], axis=1) @ np.stack([1 - up_squared, up_squared])
    b = np.stack([x * wide, y * wide, z * tall], axis=1) @ rays.T
    c = (x * x + y * y) * wide + z * z * tall - 1
    root = b * b
    root -= a * c[:, None]
    np.maximum(root, 0, out=root)
    np.sqrt(root, out=root)
    # from behind the point nothing counts: both ends are cut at the start of the ray
    far = np.maximum(root - b, 0)
    near = np.maximum(-root - b, 0)
    far -= near
    far /= a
    return np.asarray(far, dtype=np.float32)


def _slab(points: FloatArray, crowns: Crowns, rays: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Where rays enter and leave the layer between a crown's base and its top [m]."""
    up = np.where(np.abs(rays[:, 2]) < 1e-6, 1e-6, rays[:, 2])[None, :]
    low = (crowns.base - points[:, 2])[:, None] / up
    high = (crowns.top - points[:, 2])[:, None] / up
    return np.maximum(np.minimum(low, high), 0), np.maximum(np.maximum(low, high), 0)


def _column(points: FloatArray, crowns: Crowns, rays: FloatArray) -> FloatArray:
    nothing = np.zeros_like(crowns.radius)
    return _round_solid(points, crowns, rays, crowns.radius, nothing)


def _cone(points: FloatArray, crowns: Crowns, rays: FloatArray) -> FloatArray:
    slope = crowns.radius / np.maximum(crowns.top - crowns.base, 1e-3)
    return _round_solid(points, crowns, rays, slope * (crowns.top - points[:, 2]), -slope)


def _vase(points: FloatArray, crowns: Crowns, rays: FloatArray) -> FloatArray:
    slope = crowns.radius / np.maximum(crowns.top - crowns.base, 1e-3)
    return _round_solid(points, crowns, rays, slope * (points[:, 2] - crowns.base), slope)


def _round_solid(
    points: FloatArray, crowns: Crowns, rays: FloatArray, radius: FloatArray, slope: FloatArray
) -> FloatArray:
    """Way inside a solid of turning: its radius at the point's height, and what that changes per metre up."""
    x, y = points[:, 0] - crowns.east, points[:, 1] - crowns.north
    grows = slope[:, None] * rays[None, :, 2]
    a = (1 - rays[:, 2] ** 2)[None, :] - grows**2
    a = np.where(np.abs(a) < 1e-6, 1e-6, a)
    b = np.stack([x, y], axis=1) @ rays[:, :2].T - radius[:, None] * grows
    c = (x * x + y * y - radius**2)[:, None]
    inside = b * b - a * c
    root = np.sqrt(np.maximum(inside, 0))
    first, second = (-b - root) / a, (-b + root) / a
    start, end = _slab(points, crowns, rays)
    between = np.maximum(np.minimum(end, second) - np.maximum(start, first), 0)
    # a ray steeper than the side is inside before the first root and after the last, never between
    outside = np.maximum(np.minimum(end, second) - start, 0) + np.maximum(end - np.maximum(start, first), 0)
    whole = np.maximum(end - start, 0)
    steep = np.where(inside > 0, np.minimum(outside, whole), whole)
    return np.asarray(np.where(a > 0, np.where(inside > 0, between, 0), steep), dtype=np.float32)


_PATHS = {"ellipsoid": _ellipsoid, "cone": _cone, "vase": _vase, "column": _column}
