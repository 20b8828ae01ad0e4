"""How much of one tree's receptive time another tree's pollen covers, member by member of the ensemble.

Notes
-----
Trees that bear both sexes at once are receptive and shed pollen from first open to the end of bloom.
Of walnut kin, one half of the trees opens the female flowers first and sheds pollen afterwards, the
other half the reverse, with little time shared within a tree [1]_ [2]_. Where the change falls is not
in any table: half-way through the bloom is a guess that agrees with one observation [3]_.

References
----------
.. [1] Gleeson 1982, Amer. Naturalist: heterodichogamy in Juglans regia and J. hindsii.
.. [2] Frontiers in Plant Science 2021, 12:541163, J. mandshurica: minimal overlap of the two functions
   within a mating type.
.. [3] A Kansas pecan trial, 19 May 2017: half-way through the season all female-first cultivars shed
   pollen while the male-first ones were receptive.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

import numpy as np

from leafturn.base.arrays import Float32Array, FloatArray, IndexArray
from leafturn.base.closed_words import FlowerOrder

TURNS_AT = 0.5  # guess: share of the bloom after which a dichogamous tree changes its sex

OPPOSITE: Mapping[FlowerOrder | None, FlowerOrder] = {
    "female first": "male first",
    "male first": "female first",
}
"""Of the orders of flowering that part the sexes, the other."""


class Window(NamedTuple):
    """First and last day, (draws,) or (plants, draws) [day number]; inf where there is no bloom."""

    start: FloatArray
    end: FloatArray


def receptive(first_open: FloatArray, end: FloatArray, order: FlowerOrder | None) -> Window:
    """Days on which the female flowers take pollen.

    Parameters
    ----------
    first_open, end : (..., draws) [day number]
    order : str or None
        None and "together" mean the whole bloom.
    """
    if order == "female first":
        return Window(first_open, _turn(first_open, end))
    if order == "male first":
        return Window(_turn(first_open, end), end)
    return Window(first_open, end)


def shedding(first_open: FloatArray, end: FloatArray, order: FlowerOrder | None) -> Window:
    """Days on which pollen is given; parameters as for `receptive`."""
    return receptive(first_open, end, OPPOSITE.get(order))


def covered(taking: Window, giving: Window) -> tuple[FloatArray, FloatArray]:
    """Days covered and share of the taking days covered, draw by draw.

    Returns
    -------
    days, share : arrays of the windows' shape; share is nan where the recipient does not flower.
    """
    with np.errstate(invalid="ignore", divide="ignore"):
        days = np.minimum(taking.end, giving.end) - np.maximum(taking.start, giving.start)
        days = np.where(np.isfinite(giving.start) & np.isfinite(taking.start), np.maximum(days, 0.0), 0.0)
        length = taking.end - taking.start
        share = np.where(np.isfinite(length) & (length > 0), days / length, np.nan)
    return days, share


def enough(share: FloatArray, needed: float) -> FloatArray:
    """Chance that shares of the receptive days serve, shape kept: sure from `needed`, evenly less below."""
    return np.asarray(np.minimum(share / needed, 1.0))


def mean_overlaps(
    taking: Window, giving: Window, recipient: IndexArray, donor: IndexArray, needed: float
) -> tuple[FloatArray, FloatArray]:
    """Chance that donors cover enough of recipients' days, and mean days covered [d], over the draws.

    Draws in which the recipient does not flower are left out; both are 0 where it never does.

    Parameters
    ----------
    taking, giving : Window of (plants, draws) arrays
        Rows that never flower may be all inf.
    recipient, donor : (pairs,) int
        Row numbers in `taking` and in `giving`.
    needed : float
        Share of the recipient's days that is enough, see `enough`.

    Returns
    -------
    chance, days : (pairs,)
    """
    take_start, take_end, per_day = _recipients(taking)
    give_start, give_end = _donors(giving)
    by_recipient = np.argsort(recipient, kind="stable")
    ordered = recipient[by_recipient]
    firsts = np.flatnonzero(np.diff(ordered, prepend=-1))
    found = np.zeros((len(recipient), 2))
    for row, pairs in zip(ordered[firsts], np.split(by_recipient, firsts[1:]), strict=True):
        cols = donor[pairs]
        met = np.minimum(take_end[row], give_end[cols])
        met -= np.maximum(take_start[row], give_start[cols])
        np.maximum(met, 0.0, out=met)
        found[pairs, 1] = met @ per_day[row, :, 1]
        np.minimum(met, np.maximum(needed * (take_end[row] - take_start[row]), 0.0), out=met)
        found[pairs, 0] = met @ per_day[row, :, 0] / needed
    return np.minimum(found[:, 0], 1.0), found[:, 1]


def _turn(first_open: FloatArray, end: FloatArray) -> FloatArray:
    with np.errstate(invalid="ignore"):
        turn = first_open + TURNS_AT * (end - first_open)
    return np.where(np.isfinite(first_open), turn, np.inf)


def _recipients(taking: Window) -> tuple[Float32Array, Float32Array, Float32Array]:
    """Windows with years without bloom made empty, and what a day met adds to share and days.

    The last is (plants, draws, 2): one over length and years, and one over years.
    """
    with np.errstate(invalid="ignore", divide="ignore"):
        length = taking.end - taking.start
        flowers = np.isfinite(length) & (length > 0)
        per_day = np.where(flowers, 1.0 / length, 0.0)
    years = np.maximum(flowers.sum(axis=1), 1)[:, None]
    adds = np.stack([per_day / years, flowers / years], axis=2)
    start = np.where(flowers, taking.start, 1e6)
    end = np.where(flowers, taking.end, -1e6)
    return start.astype(np.float32), end.astype(np.float32), adds.astype(np.float32)


def _donors(giving: Window) -> tuple[Float32Array, Float32Array]:
    flowers = np.isfinite(giving.start) & np.isfinite(giving.end)
    start = np.where(flowers, giving.start, 1e6).astype(np.float32)
    end = np.where(flowers, giving.end, -1e6).astype(np.float32)
    return start, end
