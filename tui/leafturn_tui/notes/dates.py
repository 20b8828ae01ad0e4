"""Dates as people type them."""

from __future__ import annotations

import datetime as dt
import re

from leafturn.base.faults import clipped
from leafturn_tui.notes import NotUnderstood

_IN_DAYS = r"\s*\+?\s*(\d{1,4})\s*(d|days?|w|weeks?)?\s*"

EARLIEST, LATEST = dt.date(1900, 1, 1), dt.date(2200, 12, 31)


def day_asked(text: str, on: dt.date) -> dt.date:
    """The same as `date`, of a day that can be answered for."""
    day = date(text, on)
    if not EARLIEST <= day <= LATEST:
        raise NotUnderstood(f"{day.isoformat()} is too far off; dates from 1900 to 2200 are answered")
    return day


def date(text: str, on: dt.date) -> dt.date:
    """Read "2027-04-26", "26 Apr", "today", "yesterday", "+7" or "2 weeks"; the year is that of `on`."""
    text = text.strip()
    named = {"today": 0, "yesterday": -1, "tomorrow": 1, "a week": 7, "": 0}
    try:
        if text.lower() in named:
            return on + dt.timedelta(days=named[text.lower()])
        if found := re.fullmatch(_IN_DAYS, text):
            return on + dt.timedelta(days=int(found[1]) * (7 if (found[2] or "").startswith("w") else 1))
        if re.fullmatch(r"\d{4}-\d{2}-\d{2}", text):
            return dt.date.fromisoformat(text)
        return _other_spelling(text, on)
    except (ValueError, OverflowError, TypeError):
        raise NotUnderstood(f"{clipped(text)!r} is no date; write 2027-04-26, 26 Apr or +7") from None


def _other_spelling(text: str, on: dt.date) -> dt.date:
    from dateutil import parser  # type: ignore[import-untyped]

    found: dt.datetime = parser.parse(text, default=dt.datetime(on.year, on.month, 1), dayfirst=True)
    return found.date()
