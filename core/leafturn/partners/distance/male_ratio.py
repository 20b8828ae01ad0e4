"""How far the males go round: females that each has to serve, and how many it can."""

from __future__ import annotations

import numpy as np

from leafturn.base.arrays import FloatArray, IndexArray
from leafturn.partners.chance.pollen_plants import Bearer

NEAR_ENOUGH = 0.05  # nearness at which a female takes half of what a male has for one female


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


def shared_among(
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
