"""Rays from a place to the sky, sorted so that those which may meet a crown are found at once."""

from __future__ import annotations

import numpy as np

from leafturn.base.arrays import BoolArray, Float32Array, FloatArray, IndexArray
from leafturn.base.value import Value
from leafturn.canopy.stand.crowns import Crowns

_SLACK = 1e-4  # against rounding at a crown's edge
_SECTORS = 720  # of the circle, in which the lowest ray is known


class Fan(Value, eq=False):
    """Rays in the order of their bearing, so that those towards a crown stand together.

    `rays` (d, 3) are unit vectors east, north, up;
    `bearings` [rad] hold three turns of the circle, `order` the rays' numbers, `rise` the tangent of each
    ray's elevation; `lowest` (sectors either side, sectors) the least rise of any ray in a sector of the
    circle and so many on both sides of it.
    """

    rays: Float32Array
    bearings: FloatArray
    order: IndexArray
    rise: FloatArray
    lowest: FloatArray

    @classmethod
    def of(cls, rays: Float32Array) -> Fan:
        """The fan of some rays, (d, 3)."""
        bearings = np.arctan2(rays[:, 0], rays[:, 1]).astype(float)
        order = np.argsort(bearings, kind="stable")
        turns = (bearings[order] - 2 * np.pi, bearings[order], bearings[order] + 2 * np.pi)
        flat = np.hypot(rays[:, 0], rays[:, 1]).astype(float)
        rise = rays[:, 2] / np.maximum(flat, 1e-9)
        of_sector = np.full(_SECTORS, np.inf)
        np.minimum.at(of_sector, _sector(bearings), rise)
        sector, either = np.arange(_SECTORS), np.arange(_SECTORS // 2 + 1)[:, None]
        left, right = of_sector[sector - either], of_sector[(sector + either) % _SECTORS]
        lowest = np.minimum.accumulate(np.minimum(left, right))
        return cls(rays=rays, bearings=np.concatenate(turns), order=order, rise=rise, lowest=lowest)

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
