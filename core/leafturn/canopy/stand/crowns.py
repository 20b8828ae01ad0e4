"""Crowns as solids that let part of the light through, and how far a ray runs inside each."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from typing import Literal, get_args

import numpy as np
from numpy.typing import ArrayLike

from leafturn.base.arrays import Float32Array, FloatArray, IndexArray
from leafturn.base.value import Value
from leafturn.kinds.fact import value_of
from leafturn.kinds.model import Kind

Solid = Literal["ellipsoid", "cone", "vase", "column"]
SOLIDS: tuple[Solid, ...] = get_args(Solid)

_SOLID_OF_SHAPE: dict[str, Solid] = {"pyramid": "cone", "cone": "cone", "column": "column", "vase": "vase"}
# Share of the height at which the crown begins: 0.2 to 0.35 is usual of trees (common practice, no source).
_BASE_SHARE = {"tree": 0.25, "climber": 0.2, "shrub": 0.1, "cane": 0.1}
_NEVER_SHUT, _NEVER_OPEN = 0.005, 0.999
_DEPTHS = 60 * np.linspace(0, 1, 101) ** 3  # closer where shares change fast
_CHORDS = 400  # of a solid, spread over all that were measured


class Crowns(Value):
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

    east: Float32Array
    north: Float32Array
    base: Float32Array
    top: Float32Array
    radius: Float32Array
    solid: IndexArray

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

    def take(self, which: IndexArray) -> Crowns:
        """The crowns with these numbers, in their order."""
        return Crowns(
            east=self.east[which],
            north=self.north[which],
            base=self.base[which],
            top=self.top[which],
            radius=self.radius[which],
            solid=self.solid[which],
        )

    def middle_path(self) -> Float32Array:
        """Mean way [m] through the middle: the diameter of the ball of the same volume."""
        share = np.array([4 / 3, 1 / 3, 1 / 3, 1.0], dtype=np.float32)[self.solid]
        depth = np.where(self.solid == 0, (self.top - self.base) / 2, self.top - self.base)
        volume = np.pi * share * self.radius**2 * depth
        return np.asarray(2 * (3 * volume / (4 * np.pi)) ** (1 / 3), dtype=np.float32)


def solid_of(kind: Kind) -> int:
    """The solid nearest to a kind's outline, as its place in `SOLIDS`."""
    shape = value_of(kind.size.shape, "round")
    return SOLIDS.index(_SOLID_OF_SHAPE.get(shape, "ellipsoid"))


def base_share(kind: Kind) -> float:
    """Share of the height at which a kind's crown begins."""
    return _BASE_SHARE.get(kind.habit, 0.0)


class Rays(Value, eq=False, kw_only=False):
    """Rays seen from the foot of the crown they may meet; all arrays broadcast against each other.

    `x`, `y`, `z` [m] are where a ray starts, east and north of the stem and above the ground; `east`,
    `north`, `up` its unit vector.
    """

    x: Float32Array
    y: Float32Array
    z: Float32Array
    east: Float32Array
    north: Float32Array
    up: Float32Array


class Shape(Value, eq=False, kw_only=False):
    """One solid's measures [m] as arrays that broadcast with the rays."""

    base: Float32Array
    top: Float32Array
    radius: Float32Array


def paths(points: Float32Array, crowns: Crowns, rays: Float32Array) -> Float32Array:
    """Way of every ray inside the crown of every point.

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
    n, d = np.indices((len(points), len(rays))).reshape(2, -1)
    return ways(points[n], crowns.take(n), rays[d]).reshape(len(points), len(rays))


def ways(points: Float32Array, crowns: Crowns, rays: Float32Array) -> Float32Array:
    """Way [m] of each ray inside its own crown, (n,), for n points (n, 3), crowns and rays (n, 3)."""
    result = np.zeros(len(points), dtype=np.float32)
    for number, solid in enumerate(SOLIDS):
        mine = np.flatnonzero(crowns.solid == number)
        if len(mine):
            start, ray = points[mine].T, rays[mine].T
            seen = Rays(start[0] - crowns.east[mine], start[1] - crowns.north[mine], start[2], *ray)
            result[mine] = _WAYS[solid](seen, Shape(crowns.base[mine], crowns.top[mine], crowns.radius[mine]))
    return result


def density(through: ArrayLike, middle_path: ArrayLike, solid: ArrayLike) -> Float32Array:
    """Extinction [1/m] of crowns of which the share `through` of the sky behind them is seen.

    Parameters
    ----------
    through : (n,)
        Share of the light that passes a crown, as a mean over its outline.
    middle_path : (n,) [m]
        As `Crowns.middle_path`.
    solid : (n,) int
        Place in `SOLIDS`.

    Notes
    -----
    Light falls off as ``exp(-density path)`` along each ray (Monsi and Saeki 1953, recalled). The published
    shares (Wilkinson 1992: sky seen through the crown; Gardner and Sydnor 1984, Heisler 1986: light in its
    shade) are means over a whole outline, thin rim and all, not values of the middle. So the density is the
    one with which Beer's law, summed over the outline, comes to the published share; of a ball of depth t
    across its middle that sum is ``2 (1 - (1 + t) exp(-t)) / t ** 2``. Had the shares been set to the middle
    ray, a round crown in leaf would pass nearly twice too much: 0.39 for 0.22.
    """
    shares = np.clip(np.asarray(through, dtype=np.float64), _NEVER_SHUT, _NEVER_OPEN)
    which = np.broadcast_to(np.asarray(solid), shares.shape)
    depths = np.zeros_like(shares)
    for number in set(which.ravel().tolist()):
        depths[which == number] = np.interp(-shares[which == number], -_passed(number), _DEPTHS)
    ways = np.maximum(np.asarray(middle_path, dtype=np.float32), 1e-3)
    return np.asarray(depths / ways, dtype=np.float32)


@cache
def _passed(solid: int) -> FloatArray:
    """Share that a solid passes as a mean over its outline, for each of `_DEPTHS` along its middle path."""
    shape = Crowns.of(0, 0, 0, 2.4, 1, solid)  # a crown a little deeper than wide, as most trees have
    across = np.linspace(-1.6, 1.6, 33)
    u, v = (a.ravel()[:, None] for a in np.meshgrid(across, across))
    chords = []
    for high in np.radians([5, 20, 35, 50, 65, 80]):
        ray = np.array([0.0, np.cos(high), np.sin(high)])
        starts = (
            np.array([0, 0, 1.2]) - 9 * ray + u * [1.0, 0.0, 0.0] + v * [0.0, -np.sin(high), np.cos(high)]
        )
        many = np.zeros(len(starts), dtype=np.intp)
        rays = np.broadcast_to(ray.astype(np.float32), starts.shape)
        way = ways(starts.astype(np.float32), shape.take(many), rays)
        chords.append(way[way > 0] / shape.middle_path()[0])
    lengths = np.sort(np.concatenate(chords))
    some = lengths[(np.arange(0.5, _CHORDS) * len(lengths) / _CHORDS).astype(int)]
    return np.asarray(np.exp(-_DEPTHS[:, None] * some).mean(axis=1))


def _ellipsoid(ray: Rays, shape: Shape) -> Float32Array:
    """Between the roots of a quadratic in the ray's length."""
    half = np.maximum((shape.top - shape.base) / 2, 1e-3)
    wide, tall = 1 / np.maximum(shape.radius, 1e-3) ** 2, 1 / half**2
    z = ray.z - (shape.top + shape.base) / 2
    a = (ray.east**2 + ray.north**2) * wide + ray.up**2 * tall
    b = (ray.x * ray.east + ray.y * ray.north) * wide + z * ray.up * tall
    c = (ray.x**2 + ray.y**2) * wide + z**2 * tall - 1
    root = np.sqrt(np.maximum(b * b - a * c, 0))
    # what lies behind the point does not count: both ends are cut at the start of the ray
    return np.asarray((np.maximum(root - b, 0) - np.maximum(-root - b, 0)) / a, dtype=np.float32)


def _slab(ray: Rays, shape: Shape) -> tuple[Float32Array, Float32Array]:
    """Where rays enter and leave the layer between a crown's base and its top [m]."""
    up = np.where(np.abs(ray.up) < 1e-6, 1e-6, ray.up)
    low, high = (shape.base - ray.z) / up, (shape.top - ray.z) / up
    return np.maximum(np.minimum(low, high), 0), np.maximum(np.maximum(low, high), 0)


def _column(ray: Rays, shape: Shape) -> Float32Array:
    return _round_solid(ray, shape, shape.radius, np.zeros_like(shape.radius))


def _cone(ray: Rays, shape: Shape) -> Float32Array:
    slope = shape.radius / np.maximum(shape.top - shape.base, 1e-3)
    return _round_solid(ray, shape, slope * (shape.top - ray.z), -slope)


def _vase(ray: Rays, shape: Shape) -> Float32Array:
    slope = shape.radius / np.maximum(shape.top - shape.base, 1e-3)
    return _round_solid(ray, shape, slope * (ray.z - shape.base), slope)


def _round_solid(ray: Rays, shape: Shape, radius: Float32Array, slope: Float32Array) -> Float32Array:
    """Way inside a solid of turning: its radius at the point's height, and what that changes per metre up."""
    grows = slope * ray.up
    a = ray.east**2 + ray.north**2 - grows**2
    a = np.where(np.abs(a) < 1e-6, 1e-6, a)
    b = ray.x * ray.east + ray.y * ray.north - radius * grows
    c = ray.x**2 + ray.y**2 - radius**2
    inside = b * b - a * c
    root = np.sqrt(np.maximum(inside, 0))
    first, second = (-b - root) / a, (-b + root) / a
    start, end = _slab(ray, shape)
    between = np.maximum(np.minimum(end, second) - np.maximum(start, first), 0)
    # a ray steeper than the side is inside before one root and after the other, never between them
    outside = np.maximum(np.minimum(end, second) - start, 0) + np.maximum(end - np.maximum(start, first), 0)
    whole = np.maximum(end - start, 0)
    steep = np.where(inside > 0, np.minimum(outside, whole), whole)
    return np.asarray(np.where(a > 0, np.where(inside > 0, between, 0), steep), dtype=np.float32)


_WAYS: dict[Solid, Callable[[Rays, Shape], Float32Array]] = {
    "ellipsoid": _ellipsoid, "cone": _cone, "vase": _vase, "column": _column,
}  # fmt: skip
