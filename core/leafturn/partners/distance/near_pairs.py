"""Which givers may reach which takers: from a grid of squares, and of places not known a few of each."""

from __future__ import annotations

import numpy as np

from leafturn.base.arrays import BoolArray, FloatArray, IndexArray
from leafturn.base.tunables import Numbers
from leafturn.garden.model import Point
from leafturn.partners.chance.pollen_plants import Bearer
from leafturn.partners.distance.pollen_distance import (
    nearness,
    nearness_over_the_fence,
    nearness_unplaced,
    pairs_within,
    with_wind,
)

UNPLACED_OF_A_CLONE = 3  # of many plants without a place, so many of each genotype are looked at


def near_pairs(
    takers: list[Bearer], givers: list[Bearer], halves: FloatArray, numbers: Numbers, wind: Point | None
) -> tuple[IndexArray, IndexArray, FloatArray, FloatArray]:
    placed_takers = [i for i, b in enumerate(takers) if b.point is not None]
    placed_givers = [i for i, b in enumerate(givers) if b.point is not None]
    blown = (
        np.array([taker.kind.pollination.carried_by == "wind" for taker in takers])
        if wind is not None
        else np.zeros(len(takers))
    )
    farthest = halves * (1.0 + blown * numbers["partner_wind_lean"]) * numbers["partner_reach_halves"]
    radius = float(farthest.max(initial=0.0))
    at, of, metres = pairs_within(
        [takers[i].point for i in placed_takers],  # type: ignore[misc]
        [givers[i].point for i in placed_givers],  # type: ignore[misc]
        radius,
    )
    taker = np.asarray(placed_takers, dtype=np.intp)[at]
    giver = np.asarray(placed_givers, dtype=np.intp)[of]
    places = [_places(bearers) for bearers in (takers, givers)]
    half = halves[taker]
    if blown.any():
        away = places[0][taker] - places[1][giver]
        half = with_wind(half, away, metres, wind, numbers["partner_wind_lean"] * blown[taker])
    keep = (metres <= half * numbers["partner_reach_halves"]) & _different(takers, givers, taker, giver)
    taker, giver, metres = taker[keep], giver[keep], metres[keep]
    near = nearness(metres, half[keep])
    part = np.array([b.fellows or b.branch for b in givers], dtype=bool)
    together = part[giver] & (metres == 0)
    near[:, together] = 1.0
    loose = _loose_pairs(takers, givers, halves, numbers)
    if not loose:
        return taker, giver, metres, near
    loose_near = np.array([row[3] for row in loose]).T
    return (
        np.concatenate([taker, np.array([row[0] for row in loose], dtype=np.intp)]),
        np.concatenate([giver, np.array([row[1] for row in loose], dtype=np.intp)]),
        np.concatenate([metres, np.array([row[2] for row in loose])]),
        np.concatenate([near, loose_near], axis=1),
    )


def _places(bearers: list[Bearer]) -> FloatArray:
    nowhere = (np.nan, np.nan)
    return np.array([nowhere if b.point is None else b.point for b in bearers], dtype=float).reshape(-1, 2)


def _different(takers: list[Bearer], givers: list[Bearer], taker: IndexArray, giver: IndexArray) -> BoolArray:
    """Pairs that are not a crown with itself, nor a crown with the fellows of another plant."""
    ids = {id(b.plant): n for n, b in enumerate(takers)}
    own = np.array([ids.get(id(b.plant), -1) for b in givers], dtype=np.intp)
    same = own[giver] == taker
    part = np.array([b.branch or b.fellows for b in givers], dtype=bool)[giver]
    fellows = np.array([b.fellows for b in givers], dtype=bool)[giver]
    return np.asarray((~same | part) & ~(fellows & ~same))


def _loose_pairs(
    takers: list[Bearer], givers: list[Bearer], halves: FloatArray, numbers: Numbers
) -> list[tuple[int, int, float, tuple[float, float, float]]]:
    """Pairs whose distance is not measured: places not given, and plants over the fence known by a guess."""
    unplaced = nearness_unplaced(numbers)
    fence = [n for n, b in enumerate(givers) if b.plant is None and b.point is None]
    any_fence = [n for n, b in enumerate(givers) if b.plant is None]
    loose_givers = _few_of_each(givers, [n for n, b in enumerate(givers) if b.plant and b.point is None])
    some_givers = _few_of_each(givers, [n for n, b in enumerate(givers) if b.plant])
    parts: dict[int, list[int]] = {}
    for g, giver in enumerate(givers):
        if giver.branch or giver.fellows:
            parts.setdefault(id(giver.plant), []).append(g)
    pairs: list[tuple[int, int, float, tuple[float, float, float]]] = []
    for n, taker in enumerate(takers):
        for g in any_fence if taker.point is None else fence:
            metres = givers[g].metres
            assert metres is not None
            pairs.append((n, g, metres, nearness_over_the_fence(metres, float(halves[n]))))
        if taker.point is None:
            pairs.extend((n, g, 0.0, (1.0, 1.0, 1.0)) for g in parts.get(id(taker.plant), ()))
        for g in some_givers if taker.point is None else loose_givers:
            if givers[g].plant is not taker.plant and not givers[g].fellows:
                pairs.append((n, g, np.nan, unplaced))
    return pairs


def _few_of_each(givers: list[Bearer], which: list[int]) -> list[int]:
    """The givers likeliest to flower, a few of each genotype."""
    taken: dict[int, int] = {}
    chosen = []
    for n in sorted(which, key=lambda n: -float(givers[n].flowering[1, 0])):
        key = id(givers[n].genotype)
        taken[key] = taken.get(key, 0) + 1
        if taken[key] <= UNPLACED_OF_A_CLONE:
            chosen.append(n)
    return chosen
