"""A share between 0 and 1 that is not known exactly."""

from __future__ import annotations

from typing import NamedTuple


class Share(NamedTuple):
    """Lowest, likeliest and highest share, each between 0 and 1 and in this order."""

    low: float
    likely: float
    high: float

    @classmethod
    def exactly(cls, value: float) -> Share:
        """A share taken as known."""
        return cls(value, value, value)


NONE = Share(0.0, 0.0, 0.0)
FULL = Share(1.0, 1.0, 1.0)
