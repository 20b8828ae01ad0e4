"""Words for a day that has passed or is to come, in the sentence of a moment."""

from __future__ import annotations

import datetime as dt

from leafturn.base import prose
from leafturn.base.date_range import Likely


def has_passed(when: Likely, on: dt.date) -> bool:
    """Whether the likely day lies before the day of asking; never does not."""
    return when.likely is not None and when.likely < on


def about_now(when: Likely, on: dt.date) -> str:
    """A range of dates in words; what may be today is "about now"."""
    return prose.about(when, on).replace("about today", "about now")
