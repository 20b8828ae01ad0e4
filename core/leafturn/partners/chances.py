"""The chance that each giver serves each taker: five shares multiplied, for all pairs of a group at once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from leafturn.garden.model import Point
from leafturn.partners.census import Bearer, CrossGroup
from leafturn.partners.compatibility import NO_CROSSES, Crosses, Verdict, judge
from leafturn.partners.genotype import Genotype
from leafturn.partners.meeting import Meetings
from leafturn.partners.reach import (
    half_metres,
    nearness,
    nearness_over_the_fence,
    nearness_unplaced,
    pairs_within,
    with_wind,
)
from leafturn.partners.settings import Settings
from leafturn.partners.shares import NONE

FloatArray = NDArray[np.float64]
IndexArray = NDArray[np.intp]

UNPLACED_OF_A_CLONE = 3  # of many plants without a place, so many of each genotype are looked at
NEAR_ENOUGH = 0.05  # nearness at which a female takes half of what a male has for one female


class Link(NamedTuple):
    """One pair as plain numbers: its place among the pairs, the giver's in the group, chances and shares.

    `metres` is nan where a place is not given; `spare` is above 1 where the giver has pollen to spare.
    """

    pair: int
    giver: int
    low: float
    chance: float
    high: float
    compatible: float
    pollen: float
    flowering: float
    nearness: float
    overlap: float
    days: float
    metres: float
    spare: float


@dataclass(frozen=True, eq=False, kw_only=True)
class Pairs:
    """All pairs of one group, sorted by taker.

    Shares are (3, pairs): low, likely, high; `flowering` is this year's. `metres` is nan where a place is
    not given. `judged` holds each verdict once, `judgement` which of them is a pair's.
    """

    taker: IndexArray
    giver: IndexArray
    metres: FloatArray
    compatible: FloatArray
    pollen: FloatArray
    nearness: FloatArray
    overlap: FloatArray
    days: FloatArray
    flowering: FloatArray
    judged: list[Verdict]
    judgement: IndexArray
    shared_among: FloatArray

    def chances(self) -> FloatArray:
        """Low, likely and high chance of each pair this year, (3, pairs)."""
        return np.asarray(self.without_age() * self.flowering)

    def without_age(self) -> FloatArray:
        """What each pair would give if the giver surely flowered, (3, pairs)."""
        return np.asarray(self.compatible * self.pollen * self.nearness * self.overlap)

    def verdict(self, pair: int) -> Verdict:
        """What was judged of one pair."""
        return self.judged[int(self.judgement[pair])]

    def links(self, which: IndexArray, chances: FloatArray) -> list[Link]:
        """Some of the pairs as plain numbers.

        Parameters
        ----------
        which : (some,) int
        chances : (3, pairs)
        """
        shares = (
            self.compatible[1],
            self.pollen[1],
            self.flowering[1],
            self.nearness[1],
            self.overlap[1],
        )
        columns = (*chances, *shares, self.days, self.metres, self.shared_among)
        numbers = np.stack([column[which] for column in columns], axis=1).tolist()
        givers = self.giver[which].tolist()
        return [Link(*row) for row in zip(which.tolist(), givers, *zip(*numbers, strict=True), strict=True)]


def pair_up(
    group: CrossGroup,
    meetings: Meetings,
    settings: Settings,
    *,
    crosses: Crosses = NO_CROSSES,
    wind: Point | None = None,
) -> Pairs:
    """Every taker of a group with every giver that may reach it.

    Parameters
    ----------
    group : CrossGroup
    meetings : Meetings
        Of the group's takers and givers.
    settings : Settings
    crosses : mapping
        What pollen of other groups is worth, see `compatibility.judge`.
    wind : Point or None
        The way the wind goes, see `reach.downwind`.

    Returns
    -------
    Pairs
        Nothing of size takers x givers is ever made: pairs come from a grid of squares.
    """
    takers, givers = group.takers, group.givers
    halves = np.array([half_metres(taker.kind, settings) for taker in takers])
    taker, giver, metres, near = _near_pairs(takers, givers, halves, settings, wind)
    order = np.argsort(taker, kind="stable")
    taker, giver, metres, near = taker[order], giver[order], metres[order], near[:, order]
    compatible, pollen, judged, judgement = _verdicts(takers, givers, taker, giver, settings, crosses)
    flowering = np.stack([b.flowering[:, 0] for b in givers], axis=1)[:, giver]
    overlap, days = meetings.overlaps(taker, giver, compatible[2] > 0)
    among = _shared_among(takers, givers, taker, giver, near[1], compatible[1])
    pollen = pollen * np.minimum(among, 1.0)
    return Pairs(
        taker=taker, giver=giver, metres=metres, compatible=compatible, pollen=pollen, nearness=near,
        overlap=overlap, days=days, flowering=flowering, judged=judged, judgement=judgement,
        shared_among=among,
    )  # fmt: skip


def combined(chances: FloatArray, starts: IndexArray, alone: FloatArray) -> FloatArray:
    """One less the chance that neither own pollen nor any partner serves.

    Parameters
    ----------
    chances : (pairs,)
        Sorted by taker.
    starts : (takers + 1,)
        Where each taker's pairs begin; the last is the number of pairs.
    alone : (takers,)
        Share that own pollen gives.

    Returns
    -------
    (takers,)
    """
    fails = np.ones(len(alone))
    some = np.flatnonzero(np.diff(starts))
    if len(some):
        fails[some] = np.multiply.reduceat(1.0 - chances, starts[some])
    return np.asarray(1.0 - fails * (1.0 - alone))


def _near_pairs(
    takers: list[Bearer], givers: list[Bearer], halves: FloatArray, settings: Settings, wind: Point | None
) -> tuple[IndexArray, IndexArray, FloatArray, FloatArray]:
    placed_takers = [i for i, b in enumerate(takers) if b.point is not None]
    placed_givers = [i for i, b in enumerate(givers) if b.point is not None]
    blown = np.array([_by_wind(taker) for taker in takers]) if wind is not None else np.zeros(len(takers))
    farthest = halves * (1.0 + blown * settings.wind_lean) * settings.reach_halves
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
        half = with_wind(half, away, metres, wind, settings.wind_lean * blown[taker])
    keep = (metres <= half * settings.reach_halves) & _different(takers, givers, taker, giver)
    taker, giver, metres = taker[keep], giver[keep], metres[keep]
    near = nearness(metres, half[keep])
    part = np.array([b.fellows or b.branch for b in givers], dtype=bool)
    together = part[giver] & (metres == 0)
    near[:, together] = 1.0
    loose = _loose_pairs(takers, givers, halves, settings)
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


def _by_wind(taker: Bearer) -> bool:
    carrier = taker.kind.pollination.carrier
    return carrier is not None and carrier.value == "wind"


def _different(
    takers: list[Bearer], givers: list[Bearer], taker: IndexArray, giver: IndexArray
) -> NDArray[np.bool_]:
    """Pairs that are not a crown with itself, nor a crown with the fellows of another plant."""
    ids = {id(b.plant): n for n, b in enumerate(takers)}
    own = np.array([ids.get(id(b.plant), -1) for b in givers], dtype=np.intp)
    same = own[giver] == taker
    part = np.array([b.branch or b.fellows for b in givers], dtype=bool)[giver]
    fellows = np.array([b.fellows for b in givers], dtype=bool)[giver]
    return np.asarray((~same | part) & ~(fellows & ~same))


def _loose_pairs(
    takers: list[Bearer], givers: list[Bearer], halves: FloatArray, settings: Settings
) -> list[tuple[int, int, float, tuple[float, float, float]]]:
    """Pairs whose distance is not measured: places not given, and plants over the fence."""
    unplaced = nearness_unplaced(settings)
    fence = [n for n, b in enumerate(givers) if b.plant is None]
    loose_givers = _few_of_each(givers, [n for n, b in enumerate(givers) if b.plant and b.point is None])
    some_givers = _few_of_each(givers, [n for n, b in enumerate(givers) if b.plant])
    parts: dict[int, list[int]] = {}
    for g, giver in enumerate(givers):
        if giver.branch or giver.fellows:
            parts.setdefault(id(giver.plant), []).append(g)
    pairs: list[tuple[int, int, float, tuple[float, float, float]]] = []
    for n, taker in enumerate(takers):
        for g in fence:
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


def _verdicts(
    takers: list[Bearer],
    givers: list[Bearer],
    taker: IndexArray,
    giver: IndexArray,
    settings: Settings,
    crosses: Crosses,
) -> tuple[FloatArray, FloatArray, list[Verdict], IndexArray]:
    """Judge each pair of genotypes once and hand the verdict to every pair of plants."""
    genotypes: dict[int, tuple[int, Genotype]] = {}
    for bearer in (*takers, *givers):
        genotypes.setdefault(id(bearer.genotype), (len(genotypes), bearer.genotype))
    by_number = [genotype for _, genotype in genotypes.values()]
    of_taker = np.array([genotypes[id(b.genotype)][0] for b in takers], dtype=np.intp)
    of_giver = np.array([genotypes[id(b.genotype)][0] for b in givers], dtype=np.intp)
    code = of_taker[taker] * len(by_number) + of_giver[giver] if len(taker) else taker
    unique, inverse = np.unique(code, return_inverse=True)
    each = len(by_number)
    judged = [judge(by_number[c // each], by_number[c % each], settings, crosses) for c in unique]
    compatible = np.array([v.compatible for v in judged] or [NONE])
    pollen = np.array([v.pollen for v in judged] or [NONE])
    return compatible[inverse].T, pollen[inverse].T, judged, inverse


def wants(
    taker: IndexArray, giver: IndexArray, serves: FloatArray, females: FloatArray, givers: int
) -> FloatArray:
    """How many females each giver has to serve, (givers,); each female's wants are shared out by nearness.

    Parameters
    ----------
    taker, giver : (pairs,) int
    serves : (pairs,)
        Nearness, 0 where pollen is refused.
    females : (takers,)
        Plants that each taker stands for.
    givers : int
    """
    wanted = np.bincount(taker, weights=serves, minlength=len(females))
    share = serves / (wanted[taker] + NEAR_ENOUGH) * females[taker]
    return np.bincount(giver, weights=share, minlength=givers).astype(float)


def _shared_among(
    takers: list[Bearer],
    givers: list[Bearer],
    taker: IndexArray,
    giver: IndexArray,
    near: FloatArray,
    compatible: FloatArray,
) -> FloatArray:
    """How many females each male could serve for each that it has to; above 1 there is pollen to spare."""
    most = np.array([most_females(b) * b.count for b in givers])
    if not np.isfinite(most).any():
        return np.full(len(taker), np.inf)
    females = np.array([b.count for b in takers], dtype=float)
    load = wants(taker, giver, near * (compatible > 0), females, len(givers))
    with np.errstate(divide="ignore", invalid="ignore"):
        spare = np.where(load > 0, most / load, np.inf)
    return np.asarray(spare[giver])


def most_females(giver: Bearer) -> float:
    """Females that one plant serves; without limit where the library names none."""
    limit = giver.kind.pollination.females_per_male
    return limit.value if limit and giver.genotype.system == "dioecious" else np.inf
