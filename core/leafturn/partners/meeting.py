"""When the flowers of a group meet, pair by pair, also where an order or a date is not known."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from leafturn.partners.census import Bearer
from leafturn.partners.overlap import Order, Window, mean_overlaps, receptive, shedding
from leafturn.partners.settings import Settings

FloatArray = NDArray[np.float64]
IndexArray = NDArray[np.intp]

ORDERS: tuple[Order, ...] = ("female first", "male first", "together")


def overlaps(
    takers: list[Bearer],
    givers: list[Bearer],
    taker: IndexArray,
    giver: IndexArray,
    worth: NDArray[np.bool_],
    settings: Settings,
) -> tuple[FloatArray, FloatArray]:
    """Share of the taker's receptive days that the giver covers, for all pairs of a group.

    Parameters
    ----------
    takers, givers : list of Bearer
    taker, giver : (pairs,) int
        Positions in the two lists.
    worth : (pairs,) bool
        Only these are worked out; the others stay at 0.
    settings : Settings

    Returns
    -------
    overlap : (3, pairs)
        Low, likely and high; apart where a forecast or an order of flowering is not known.
    days : (pairs,) [d]
    """
    overlap, days = np.zeros((3, len(taker))), np.zeros(len(taker))
    known_taker = np.array([b.bloom is not None for b in takers], dtype=bool)
    known_giver = np.array([b.bloom is not None for b in givers], dtype=bool)
    known = known_taker[taker] & known_giver[giver]
    overlap[:, ~known & worth] = np.array([[0.0], [settings.unknown_overlap], [1.0]])
    some = np.flatnonzero(known & worth)
    if len(some):
        share, met = _by_order(takers, givers, taker[some], giver[some])
        fence = np.array([b.plant is None for b in givers], dtype=bool)[giver[some]]
        share[0, fence] *= 0.5  # a neighbour's bloom is taken to be that of a like plant here
        share[2, fence] = 1.0 - 0.5 * (1.0 - share[2, fence])
        overlap[:, some], days[some] = share, met
    return overlap, days


def _by_order(
    takers: list[Bearer], givers: list[Bearer], taker: IndexArray, giver: IndexArray
) -> tuple[FloatArray, FloatArray]:
    """Overlaps under every order of flowering that a pair may have: least, mean and most."""
    take_rows, give_rows = _rows(takers), _rows(givers)
    take_may, give_may = _may_be(takers), _may_be(givers)
    low, high = np.full(len(taker), np.inf), np.zeros(len(taker))
    total, met, ways = np.zeros(len(taker)), np.zeros(len(taker)), np.zeros(len(taker))
    for t, taking in enumerate(ORDERS):
        for g, giving in enumerate(ORDERS):
            which = np.flatnonzero(take_may[taker, t] & give_may[giver, g])
            if not len(which):
                continue
            share, days = mean_overlaps(
                receptive(*take_rows, taking), shedding(*give_rows, giving), taker[which], giver[which]
            )
            low[which] = np.minimum(low[which], share)
            high[which] = np.maximum(high[which], share)
            total[which] += share
            met[which] += days
            ways[which] += 1
    return np.stack([low, total / ways, high]), met / ways


def _rows(bearers: list[Bearer]) -> Window:
    """First-open and end days of all bearers as (bearers, draws); inf where there is no forecast."""
    draws = next((len(b.bloom[0]) for b in bearers if b.bloom is not None), 1)
    never = np.full(draws, np.inf)
    return Window(
        np.stack([b.bloom[0] if b.bloom is not None else never for b in bearers]),
        np.stack([b.bloom[1] if b.bloom is not None else never for b in bearers]),
    )


def _may_be(bearers: list[Bearer]) -> NDArray[np.bool_]:
    """Which of ORDERS each bearer may have: both halves where a dichogamous tree's is not noted."""
    may = np.zeros((len(bearers), len(ORDERS)), dtype=bool)
    for row, bearer in zip(may, bearers, strict=True):
        if bearer.genotype.system != "dichogamous":
            row[2] = True
        elif bearer.genotype.flower_order is None:
            row[:2] = True
        else:
            row[ORDERS.index(bearer.genotype.flower_order)] = True
    return may
