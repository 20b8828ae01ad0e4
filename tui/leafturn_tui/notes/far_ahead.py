"""A note of a day that is far ahead: most likely a slip of the year, so it is asked about."""

from __future__ import annotations

import datetime as dt

from leafturn.base.day_words import long_day

FAR_DAYS = 366  # what is nearer may be tried out, as a spring to come


def far_ahead(on: dt.date, today: dt.date) -> str | None:
    """A question to ask before something is noted of a day far ahead; None for any other day."""
    ahead = (on - today).days
    if ahead <= FAR_DAYS:
        return None
    years = round(ahead / 365.25)
    return f"{long_day(on)} is {years} {'year' if years == 1 else 'years'} ahead. Note it of that day?"
