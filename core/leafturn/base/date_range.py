"""A date with its range."""

from __future__ import annotations

import datetime as dt
from typing import NamedTuple


class Likely(NamedTuple):
    """A date with its range: one year in ten before `early`, one in ten after `late`.

    A part is None where in that share of years the thing does not happen at all.
    """

    early: dt.date | None
    likely: dt.date | None
    late: dt.date | None
