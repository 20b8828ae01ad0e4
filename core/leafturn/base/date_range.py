"""A date with its range."""

from __future__ import annotations

import datetime as dt
from typing import NamedTuple

SHARES = (0.1, 0.5, 0.9)
"""Of the years, those by which the early, the likely and the late day of a range have come."""


class Likely(NamedTuple):
    """A date with its range: one year in ten before `early`, one in ten after `late`.

    A part is None where in that share of years the thing does not happen at all.
    """

    early: dt.date | None
    likely: dt.date | None
    late: dt.date | None

    def has_passed(self, on: dt.date) -> bool:
        """Whether the likely day lies before `on`; never does not."""
        return self.likely is not None and self.likely < on
