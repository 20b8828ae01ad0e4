"""Years, lengths and places as a garden file may give them; what lies beyond is a slip, and said."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from typing import Annotated

from msgspec import Meta

from leafturn.base.bounds import FARTHEST_M

Year = Annotated[int, Meta(ge=1000, le=2999)]
Metres = Annotated[float, Meta(ge=0, le=10_000)]
Coordinate = Annotated[float, Meta(ge=-FARTHEST_M, le=FARTHEST_M)]
Side = Annotated[float, Meta(gt=0, le=100)]  # of a heap
Wall = Annotated[float, Meta(gt=0, le=500)]
At = str | tuple[Coordinate, Coordinate]


def metres_to_line(at: tuple[float, float], line: Sequence[tuple[float, float]]) -> float:
    """Distance [m] from a place to the nearest place of a line of straight pieces; inf for an empty line.

    Places are east and north [m].
    """
    pieces = itertools.pairwise(line if len(line) > 1 else (*line, *line))
    return min((_metres_to_piece(at, *ends) for ends in pieces), default=math.inf)


def _metres_to_piece(at: tuple[float, float], start: tuple[float, float], end: tuple[float, float]) -> float:
    east, north = end[0] - start[0], end[1] - start[1]
    along = (at[0] - start[0]) * east + (at[1] - start[1]) * north
    share = min(max(along / (east**2 + north**2 or 1.0), 0.0), 1.0)
    return math.hypot(at[0] - start[0] - share * east, at[1] - start[1] - share * north)
