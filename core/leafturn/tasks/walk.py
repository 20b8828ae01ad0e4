"""The way round the garden: from the gate, past every job, by few steps."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from leafturn.garden.model import Point

GATE = Point(0.0, 0.0)


def length(points: Sequence[Point]) -> float:
    """Length of the way from the gate through the points in order [m]."""
    way = [GATE, *points]
    return sum(a.metres_to(b) for a, b in pairwise(way))


def short_way(points: Sequence[Point]) -> list[int]:
    """An order of visiting points from the gate that is short, and never longer than the order given.

    Nearest first, then stretches turned round while that shortens the way (2-opt on an open path).

    Parameters
    ----------
    points : sequence of Point

    Returns
    -------
    list of int
        Indices into `points`.
    """
    left = list(range(len(points)))
    order: list[int] = []
    here = GATE
    while left:
        nearest = min(left, key=lambda i: (here.metres_to(points[i]), i))
        left.remove(nearest)
        order.append(nearest)
        here = points[nearest]
    order = _untangled(order, points)
    given = list(range(len(points)))
    return order if length([points[i] for i in order]) <= length([points[i] for i in given]) else given


def _untangled(order: list[int], points: Sequence[Point]) -> list[int]:
    improved = True
    while improved:
        improved = False
        for i in range(len(order) - 1):
            for j in range(i + 1, len(order)):
                before = points[order[i - 1]] if i else GATE
                old = before.metres_to(points[order[i]])
                new = before.metres_to(points[order[j]])
                if j + 1 < len(order):
                    old += points[order[j]].metres_to(points[order[j + 1]])
                    new += points[order[i]].metres_to(points[order[j + 1]])
                if new < old - 1e-9:
                    order[i : j + 1] = reversed(order[i : j + 1])
                    improved = True
    return order
