"""Years, lengths and places as a garden file may give them; what lies beyond is a slip, and said."""

from __future__ import annotations

from typing import Annotated

from msgspec import Meta

from leafturn.base.bounds import FARTHEST_M

Year = Annotated[int, Meta(ge=1000, le=2999)]
Metres = Annotated[float, Meta(ge=0, le=10_000)]
Coordinate = Annotated[float, Meta(ge=-FARTHEST_M, le=FARTHEST_M)]
Side = Annotated[float, Meta(gt=0, le=100)]  # of a heap
Wall = Annotated[float, Meta(gt=0, le=500)]
At = str | tuple[Coordinate, Coordinate]
