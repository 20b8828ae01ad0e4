"""The way round the garden: from the gate, past every job, by few steps."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from leafturn.garden.model import Point

GATE = Point(0.0, 0.0)


def length(points: Sequence[Point]) -> float:
    """Length of the way from the gate through the points in order [m]."""
    way = [GATE, *points]
    return sum(a.metres_to(b) for a, b in pairwise(way))


def short_way(points: Sequence[Point]) -> list[int]:
    """An order of visiting points from the gate that is short, and never longer than the order given.

    Nearest first, then shortened by turning stretches round and moving single stops (2-opt and or-opt).

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
    order = _shortened(order, points)
    given = list(range(len(points)))
    return order if _along(order, points) <= _along(given, points) else given


def _shortened(order: list[int], points: Sequence[Point]) -> list[int]:
    """Turn stretches round, and move single stops, while either makes the way shorter."""
    best = _along(order, points)
    improved = True
    while improved:
        improved = False
        for other in _neighbours(order):
            metres = _along(other, points)
            if metres < best - 1e-9:
                order, best, improved = other, metres, True
                break
    return order


def _neighbours(order: list[int]) -> Iterator[list[int]]:
    for i in range(len(order)):
        for j in range(i + 1, len(order)):
            yield [*order[:i], *reversed(order[i : j + 1]), *order[j + 1 :]]
    for i in range(len(order)):
        rest = [*order[:i], *order[i + 1 :]]
        for j in range(len(order)):
            if j != i:
                yield [*rest[:j], order[i], *rest[j:]]


def _along(order: Sequence[int], points: Sequence[Point]) -> float:
    return length([points[i] for i in order])
