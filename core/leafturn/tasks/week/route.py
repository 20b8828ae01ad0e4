"""A short way round the garden from the gate past every job."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import combinations, pairwise

from leafturn.garden.model import Point

GATE = Point(0.0, 0.0)
LEAST_GAIN = 1e-9  # [m] less is the rounding of sums
BEGINNINGS = 6  # first stops that are tried, the nearest to the gate


def length(points: Sequence[Point]) -> float:
    """Length of the way from the gate through the points in order [m]."""
    way = [GATE, *points]
    return sum(a.metres_to(b) for a, b in pairwise(way))


def short_way(points: Sequence[Point]) -> list[int]:
    """An order of visiting points from the gate that is short, and never longer than the order given.

    The order given, and from some first stops on each time the nearest that is left; all shortened by turning
    stretches round and moving single stops (2-opt and or-opt). The shortest of them.

    Parameters
    ----------
    points : sequence of Point

    Returns
    -------
    list of int
        Indices into `points`.
    """
    way = _Way([GATE, *points])
    given = list(range(1, len(points) + 1))
    beginnings = [given, *(way.nearest_from(stop) for stop in way.nearest(given)[:BEGINNINGS])]
    chosen = min(map(way.shortened, beginnings), key=way.metres)
    return [stop - 1 for stop in chosen]


class _Way:
    """Distances between stops, of which the first is the gate [m]."""

    def __init__(self, stops: Sequence[Point]) -> None:
        self._apart = [[a.metres_to(b) for b in stops] for a in stops]

    def metres(self, order: Sequence[int]) -> float:
        """Length of the way from the gate through the stops in order [m]."""
        return sum(self._apart[a][b] for a, b in pairwise([0, *order]))

    def nearest(self, stops: Iterable[int], to: int = 0) -> list[int]:
        """Stops by how near they are to one of them, or to the gate."""
        return sorted(stops, key=lambda stop: (self._apart[to][stop], stop))

    def nearest_from(self, first: int) -> list[int]:
        """All stops from a first one on, each time going on to the nearest that is left."""
        order, left = [first], set(range(1, len(self._apart))) - {first}
        while left:
            order.append(self.nearest(left, order[-1])[0])
            left.remove(order[-1])
        return order

    def shortened(self, order: list[int]) -> list[int]:
        """Turn stretches round, and move single stops, while either makes the way shorter."""
        improved = True
        while improved:
            improved = False
            for first, last in combinations(range(len(order)), 2):
                if self._gain_of_turning(order, first, last) > LEAST_GAIN:
                    order[first : last + 1] = reversed(order[first : last + 1])
                    improved = True
            for stop in list(order):
                moved = self._moved(order, stop)
                if self.metres(order) - self.metres(moved) > LEAST_GAIN:
                    order, improved = moved, True
        return order

    def _gain_of_turning(self, order: Sequence[int], first: int, last: int) -> float:
        """Metres saved by going through a stretch of the order the other way round."""
        apart, before = self._apart, order[first - 1] if first else 0
        saved = apart[before][order[first]] - apart[before][order[last]]
        if last + 1 < len(order):
            after = order[last + 1]
            saved += apart[order[last]][after] - apart[order[first]][after]
        return saved

    def _moved(self, order: Sequence[int], stop: int) -> list[int]:
        """The order with one stop where it costs the fewest steps."""
        rest = [other for other in order if other != stop]
        apart, way = self._apart, [0, *rest]

        def detour(at: int) -> float:
            back = 0.0 if at == len(rest) else apart[stop][rest[at]] - apart[way[at]][rest[at]]
            return apart[way[at]][stop] + back

        at = min(range(len(rest) + 1), key=detour)
        return [*rest[:at], stop, *rest[at:]]
