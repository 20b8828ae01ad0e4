"""Soil water balance: how much of the water within reach of its roots each plant has used.

Notes
-----
FAO Irrigation and Drainage Paper 56 (Allen, Pereira, Raes and Smith 1998), chapter 8, read: equations 82 to
88, table 22 and its footnote, and examples 36 to 38, whose order of the day is kept: rain and water come
early, then the plant drinks. Runoff and water rising from below are left out; rain of less than a fifth of
the day's demand dries off the leaves and the ground.
"""

from __future__ import annotations

import numpy as np
from msgspec.structs import replace
from numpy.typing import ArrayLike

from leafturn.base.arrays import BoolArray, Float32Array, FloatArray, IndexArray, medians
from leafturn.base.value import Value

# Water a metre of soil holds for plants [mm/m]: middle of the ranges of FAO-56 table 19, read.
AVAILABLE_MM_PER_M = {"sand": 80.0, "loam": 155.0, "clay": 160.0}
# The share that may be used is 5 to 10 % higher in sand and lower in clay (FAO-56 chapter 8, read).
SHARE_BY_SOIL = {"sand": 1.075, "loam": 1.0, "clay": 0.925}
LEAST_SHARE, MOST_SHARE = 0.1, 0.8  # FAO-56 figure 41
LOST_RAIN = 0.2  # of the day's demand
MOST = 0.5  # of the members
TOGETHER = 30  # days of which what does not hang on the day before is reckoned in one go

# Lengths of the growing stages of deciduous orchards [d], FAO-56 table 11, recalled; that they count from
# leaf-out, and back from leaf fall, is a guess.
DEVELOPMENT_DAYS, LATE_DAYS = 70.0, 30.0


class Buckets(Value, eq=False):
    """The root zones of several plants.

    Parameters
    ----------
    total_mm : (plants,) [mm]
        Water between what the soil holds and wilting.
    share : (plants,)
        Of that, what may be used without stress at a demand of 5 mm a day.
    bare, leafy : (plants,)
        Crop factor without leaves, and what full leaf adds to it.
    leaf_out, leaf_fall : (plants, members) [day number]
        inf or -inf for evergreens.
    """

    total_mm: FloatArray
    share: FloatArray
    bare: FloatArray
    leafy: FloatArray
    leaf_out: FloatArray
    leaf_fall: FloatArray

    def each_member(self) -> Buckets:
        """The same with every array (plants, members)."""
        shape = self.leaf_out.shape
        spread = {
            name: np.repeat(getattr(self, name), shape[1]).reshape(shape)
            for name in ("total_mm", "share", "bare", "leafy")
        }
        return replace(self, **spread)


class Used(Value, eq=False):
    """Water used and water that may be used without stress, at the end of each day.

    `depletion` and `ready` are (days, plants, members) [mm]; index 0 is day number `first`.
    """

    first: int
    depletion: Float32Array
    ready: Float32Array

    def on(self, day: int) -> tuple[FloatArray, FloatArray]:
        """Used and ready on the evening of a day, the middle of the members, (plants,) each [mm]."""
        at = min(max(day - self.first, 0), len(self.depletion) - 1)
        return medians(self.depletion[at], axis=1), medians(self.ready[at], axis=1)

    def dry_days(self, after: int, today: int, filled: float = 1.0) -> FloatArray:
        """Day on which the plant became short of water, or will, (plants, members); inf: never.

        Parameters
        ----------
        after : int [day number]
            Days up to this one do not count.
        today : int [day number]
            A shortage that rain has ended by then does not count either. Of days up to it the most of the
            members tell: rain that nobody noted fell in some of them alone, on other days in each.
        filled : float
            A shortage has ended once less than this share of what may be used without stress is used.
        """
        short, lasting, begin = self._shortage(after, today, filled)
        morrow = begin + len(short)
        ahead = _first(self.depletion[morrow - self.first :] > self.ready[morrow - self.first :], morrow)
        since = _first(short & lasting, begin)[:, None]
        return np.where(np.isfinite(since), since, ahead)

    def ended_days(self, after: int, today: int, filled: float) -> FloatArray:
        """Last day of a shortage that rain has ended by today, (plants,); -inf where none has.

        Parameters are those of `dry_days`.
        """
        short, lasting, begin = self._shortage(after, today, filled)
        if not len(short):
            return np.full(self.depletion.shape[1], -np.inf)
        ended = short.any(axis=0) & ~(short & lasting).any(axis=0)
        return np.where(ended, begin + len(short) - 1 - short[::-1].argmax(axis=0), -np.inf)

    def _shortage(self, after: int, today: int, filled: float) -> tuple[BoolArray, BoolArray, int]:
        """Days up to today on which most members are short, those since which nothing has filled them.

        (days, plants) each, and the first of these days.
        """
        begin = max(after + 1 - self.first, 0)
        end = max(today + 1 - self.first, begin)
        used, ready = self.depletion[begin:end], self.ready[begin:end]
        short = (used > ready).mean(axis=2) >= MOST
        unfilled = (used >= filled * ready).mean(axis=2) >= MOST
        lasting = np.logical_and.accumulate(unfilled[::-1], axis=0)[::-1]
        return short, lasting, self.first + begin


def _first(holds: BoolArray, begin: int) -> FloatArray:
    """Day number of the first day on which something holds, (days, ...) from `begin` on; inf: none."""
    if not len(holds):
        return np.full(holds.shape[1:], np.inf)
    return np.where(holds.any(axis=0), begin + holds.argmax(axis=0), np.inf)


def total_available(mm_per_m: ArrayLike, root_m: ArrayLike) -> FloatArray:
    """Water the root zone holds for the plant [mm], FAO-56 equation 82.

    Parameters
    ----------
    mm_per_m : array_like [mm/m]
        1000 times field capacity less wilting point.
    root_m : array_like [m]
    """
    return np.asarray(np.asarray(mm_per_m, dtype=float) * np.asarray(root_m, dtype=float))


def share_at(share: ArrayLike, demand: ArrayLike) -> FloatArray:
    """The share that may be used at a demand [mm/d] other than 5: ``share + 0.04 (5 - demand)``."""
    moved = np.asarray(share, dtype=float) + 0.04 * (5.0 - np.asarray(demand, dtype=float))
    return np.minimum(np.maximum(moved, LEAST_SHARE), MOST_SHARE)


def stress(used: ArrayLike, total_mm: ArrayLike, ready_mm: ArrayLike) -> FloatArray:
    """Share of its demand that a plant can still draw, 0 to 1: FAO-56 equation 84.

    Parameters
    ----------
    used, total_mm, ready_mm : array_like [mm]
        Depletion, total and readily available water of the root zone.
    """
    left = np.subtract(total_mm, used) / np.subtract(total_mm, ready_mm)
    return np.minimum(np.maximum(left, 0.0), 1.0)


def after_a_day(
    used: ArrayLike, wet: ArrayLike, wanted: ArrayLike, total_mm: ArrayLike, ready_mm: ArrayLike
) -> FloatArray:
    """Water used by the evening [mm]: FAO-56 equations 84 to 88, what comes early and then what is drawn.

    Parameters
    ----------
    used : array_like [mm]
        Of the evening before.
    wet, wanted : array_like [mm]
        Rain and water poured, and what the plant draws where it can.
    total_mm, ready_mm : array_like [mm]
    """
    evening = np.maximum(np.subtract(used, wet), 0.0)
    evening = evening + np.multiply(stress(evening, total_mm, ready_mm), wanted)
    return np.minimum(evening, total_mm)


def thin_cover(full: ArrayLike, bare: ArrayLike, cover: ArrayLike, height_m: ArrayLike) -> FloatArray:
    """Crop factor of plants that do not cover their ground: FAO-56 equation 98.

    Parameters
    ----------
    full, bare : array_like
        Factor at full cover, and of the ground between.
    cover : array_like
        Share of the ground below leaves, 0 to 1.
    height_m : array_like [m]
    """
    share, height = np.asarray(cover, dtype=float), np.asarray(height_m, dtype=float)
    least, most = np.asarray(bare, dtype=float), np.asarray(full, dtype=float)
    felt = np.minimum(np.minimum(1.0, 2.0 * share), share ** (1.0 / (1.0 + height)))
    return np.asarray(least + (most - least) * felt)


def factor_by_height(height_m: ArrayLike) -> FloatArray:
    """Crop factor of closed leaves by height [m], where no table lists the kind: 1 + 0.1 height, at most 1.2.

    FAO-56 equation 101.
    """
    return np.minimum(1.0 + 0.1 * np.asarray(height_m, dtype=float), 1.2)


def crop_factor(buckets: Buckets, day: int | IndexArray) -> FloatArray:
    """The crop factor of each bucket on a day number: bare, rising from leaf-out, falling to leaf fall."""
    leaves = (day - buckets.leaf_out) * (1.0 / DEVELOPMENT_DAYS)
    np.minimum(leaves, (buckets.leaf_fall - day) * (1.0 / LATE_DAYS), out=leaves)
    np.minimum(np.maximum(leaves, 0.0, out=leaves), 1.0, out=leaves)
    leaves *= buckets.leafy
    leaves += buckets.bare
    return np.asarray(leaves)


def water_balance(
    buckets: Buckets, demand: FloatArray, rain: FloatArray, poured: FloatArray | None, first: int
) -> Used:
    """Follow every bucket from the evening before `first`, when all are full.

    Parameters
    ----------
    buckets : Buckets
    demand, rain : (members, days) [mm]
        Reference evapotranspiration and rain from day `first` on.
    poured : (plants, days) [mm] or None
        Water given by hand, inf for as much as fills the bucket.
    first : int [day number]
    """
    days = demand.shape[1]
    each = buckets.each_member()  # one shape for all: numpy is twice as quick without broadcasting
    depletion = np.empty((days, *each.leaf_out.shape), dtype=np.float32)
    ready = np.empty_like(depletion)
    soaks = np.where(rain >= LOST_RAIN * demand, rain, 0.0).T.copy()
    wants = demand.T.copy()
    used = np.zeros(each.leaf_out.shape)
    for begin in range(0, days, TOGETHER):
        some = np.arange(begin, min(begin + TOGETHER, days))
        wanted = crop_factor(each, (first + some)[:, None, None]) * wants[some, None]
        easy = share_at(each.share, wanted) * each.total_mm
        ready[some] = easy
        for step in some:
            wet = soaks[step] if poured is None else soaks[step] + poured[:, step, None]
            used = after_a_day(used, wet, wanted[step - begin], each.total_mm, easy[step - begin])
            depletion[step] = used
    return Used(first=first, depletion=depletion, ready=ready)
