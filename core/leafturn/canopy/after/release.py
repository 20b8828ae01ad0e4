"""Light of each plant with an old tree's crown full, as now, gone and later, and how the plant responds."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import NamedTuple, get_args

import numpy as np

from leafturn.base.arrays import Float32Array
from leafturn.canopy.model import Release, Reply
from leafturn.canopy.stand.sky import Sampling
from leafturn.canopy.stand.stand import Stand
from leafturn.garden.reading.place_phrases import BETWEEN_POINTS, POINTS
from leafturn.kinds.fact import value_of
from leafturn.kinds.model import Kind

REPLIES: tuple[Reply, ...] = get_args(Reply)
_WINDS = [letters for _, letters in POINTS[::2]]
_WORTH_A_WORD = 3.0  # points of light below which nothing is said; a guess
_LEAST_POINTS = 2.5  # between full and gone, below which a plant is not listed; a guess


class LaterLight(NamedTuple):
    """Light by plant [% of open, (plants,)] of every later year, and the least and most of some of them."""

    years: Mapping[int, Float32Array]
    ranges: Mapping[int, tuple[Float32Array, Float32Array]]


def releases(
    stand: Stand, old_tree: int, sampling: Sampling, later: LaterLight, successors: set[str]
) -> tuple[Release, ...]:
    """A row for every plant whose light the old tree takes, most points first, scorch after gain.

    Parameters
    ----------
    stand : Stand
    old_tree : int
        Number of the old tree.
    sampling : Sampling
        Of the growing season.
    later : LaterLight
    successors : set of str
        Ids of trees that may fill the gap.

    Notes
    -----
    Crops answer about in proportion to light (Monteith 1977, Philosophical Transactions B 281: 277-294,
    recalled), so gainers are sorted by light gone against now, those grown for a crop first.
    """
    full, now, gone = _three_lights(stand, old_tree, sampling)
    rows = [
        _row(stand, old_tree, n, (float(full[n]), float(now[n]), float(gone[n])), later, successors)
        for n in range(len(stand.plants))
        if stand.group[n] != stand.group[old_tree] and gone[n] - full[n] >= _LEAST_POINTS
    ]
    return tuple(sorted(rows, key=_rank))


def _three_lights(
    stand: Stand, old_tree: int, sampling: Sampling
) -> tuple[Float32Array, Float32Array, Float32Array]:
    """With the crown of the old tree full, as it is, and gone; all else as it is now.

    Depths add up, so the old tree's own are taken off those of all crowns.
    """
    crowns, stands = stand.crowns(stand.year), np.ones(len(stand.plants), dtype=bool)
    way = stand.depths_of(old_tree, stand.year, sampling)
    whole = stand.live.copy()
    whole[old_tree] = 1.0
    full, now = (float(stand.density(crowns, live, stands)[old_tree]) for live in (whole, stand.live))
    without = np.maximum(stand.depths_now(sampling) - now * way, 0)
    return (
        stand.mean_light(without + full * way, sampling),
        stand.mean_light(without + now * way, sampling),
        stand.mean_light(without, sampling),
    )


def _row(
    stand: Stand,
    old_tree: int,
    n: int,
    light: tuple[float, float, float],
    later: LaterLight,
    successors: set[str],
) -> Release:
    full, now, gone = light
    plant, kind = stand.plants[n], stand.kinds[n]
    need = value_of(kind.light.need_percent, None)
    scorch = value_of(kind.light.scorch_percent, None)
    east, north = stand.east[n] - stand.east[old_tree], stand.north[n] - stand.north[old_tree]
    by_year = {year: round(float(values[n]), 1) for year, values in later.years.items()}
    short = [year for year, percent in by_year.items() if need is not None and percent < need]
    return Release(
        plant=plant.id,
        kind=kind.name,
        metres=math.hypot(east, north),
        bearing=bearing(float(east), float(north)),
        full=full,
        now=now,
        gone=gone,
        later=by_year,
        reply=_reply(kind, now, gone, scorch, plant.id in successors),
        response=gone / max(now, 1.0),
        need=need,
        scorch=scorch,
        below_need_from=short[0] if short else None,
        guessed=stand.growth[n].guessed or kind.guessed,
        later_range={
            year: (round(float(least[n]), 1), round(float(most[n]), 1))
            for year, (least, most) in later.ranges.items()
        },
    )


def bearing(east: float, north: float) -> str:
    """The wind from which a place lies, of eight."""
    return _WINDS[round(math.degrees(math.atan2(east, north)) / (2 * BETWEEN_POINTS)) % len(_WINDS)]


def _reply(kind: Kind, now: float, gone: float, scorch: float | None, successor: bool) -> Reply:
    if scorch is not None and gone > scorch:
        return "scorch: move" if now <= scorch else "scorch already: move"
    if successor:
        return "takes the gap"
    if gone - now < _WORTH_A_WORD:
        return "little change"
    return "crops more" if kind.harvest.is_food else "grows more"


def _rank(row: Release) -> tuple[int, float, str]:
    return REPLIES.index(row.reply), -row.response, row.plant
