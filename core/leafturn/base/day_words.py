"""Days and stretches of days in words, the same in sentences, on pages and on paper.

English month names throughout, never the order of one country's figures; a year only where it differs from
that of the day of asking.
"""

from __future__ import annotations

import datetime as dt
import re

from leafturn.base.date_range import Likely

MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
    "November", "December",
)  # fmt: skip
SHORT_MONTHS = tuple(month[:3] for month in MONTHS)
_DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
_MONTH = re.compile(rf"\b({'|'.join(MONTHS)})\b")
WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")


def day(date: dt.date | None, on: dt.date | None = None) -> str:
    """A day as "19 Apr"; with the year where it is not that of `on`; "never" for None."""
    if date is None:
        return "never"
    words = f"{date.day} {SHORT_MONTHS[date.month - 1]}"
    return words if on is None or on.year == date.year else f"{words} {date.year}"


def near_day(date: dt.date | None, on: dt.date) -> str:
    """The same within a sentence: "today" for the day of asking itself."""
    return "today" if date == on else day(date, on)


def full_day(date: dt.date) -> str:
    """A day with its year, "19 Apr 2027"."""
    return f"{day(date)} {date.year}"


def long_day(date: dt.date) -> str:
    """A day as "Mon 19 Apr 2027"."""
    return f"{WEEKDAYS[date.weekday()]} {full_day(date)}"


def month_year(date: dt.date) -> str:
    """The month of a day as "Apr 2027"."""
    return f"{SHORT_MONTHS[date.month - 1]} {date.year}"


def stretch(early: dt.date | None, late: dt.date | None, on: dt.date | None = None) -> str:
    """From one day to another as "10 to 22 Apr" or "28 Mar to 5 Apr"; None is said as "or never"."""
    if early is None:
        return "hardly ever" if late is None else f"up to {day(late, on)}, or never"
    if late is None:
        return f"from {day(early, on)}, or never"
    if early == late:
        return day(early, on)
    if (early.year, early.month) == (late.year, late.month):
        return f"{early.day} to {day(late, on)}"
    if early.year == late.year:
        return f"{day(early)} to {day(late, on)}"
    return f"{day(early, on)} to {day(late, early)}"


def likely(when: Likely, on: dt.date | None = None) -> str:
    """A likely date with its range, "16 Apr (10 to 22 Apr)"."""
    if when.likely is None:
        chance = "" if when.early is None else f", at best from {day(when.early, on)}"
        return "not in most years" + chance
    if when.early == when.late:
        return day(when.likely, on)
    return f"{day(when.likely, on)} ({_round(when, when.likely, on)})"


def about(when: Likely, on: dt.date | None = None) -> str:
    """A likely date within a sentence: "about 16 Apr (10 to 22 Apr)"; "about now" for the day of asking.

    Without `on` no day is called now: for papers, which are read on another day.
    """
    is_now = on is not None and when.likely == on
    if when.likely is None or when.early == when.late:
        return "today" if is_now else likely(when, on)
    middle = "now" if is_now else day(when.likely, on)
    return f"about {middle} ({_round(when, when.likely, on)})"


def _round(when: Likely, middle: dt.date, on: dt.date | None) -> str:
    """The range of a date that is said before it: a year that all of it shares is not said again."""
    one_year = all(end is None or end.year == middle.year for end in (when.early, when.late))
    return stretch(when.early, when.late, middle if one_year else on)


def days_ago(date: dt.date, on: dt.date) -> str:
    """ "today", "yesterday", "17 days ago" or "in 3 days"."""
    days = (on - date).days
    if days < 0:
        return f"in {-days} day{'s' if days < -1 else ''}"
    return ("today", "yesterday")[days] if days < 2 else f"{days} days ago"


def day_of_the_south(month: int, day: int) -> tuple[int, int]:
    """Month and day half a year off: 10 June is 10 December, and 31 August the last of February."""
    other = (month + 5) % 12 + 1
    return other, min(day, _DAYS[other - 1])


def months_of_the_south(text: str) -> str:
    """A sentence with the months it names moved by half a year: "by April" is "by October"."""
    return _MONTH.sub(lambda found: MONTHS[(MONTHS.index(found[1]) + 6) % 12], text)
