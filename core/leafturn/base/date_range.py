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

    def no_later_than(self, last: dt.date) -> Likely:
        """The same within an end: no day of it is later than the last one."""
        return Likely(*(None if one is None else min(one, last) for one in self))

    def has_passed(self, on: dt.date) -> bool:
        """Whether the likely day lies before `on`; never does not."""
        return self.likely is not None and self.likely < on
