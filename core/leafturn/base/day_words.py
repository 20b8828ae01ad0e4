"""Days and stretches of days in words, the same in sentences, on pages and on paper.

English month names throughout, never the order of one country's figures; a year only where it differs from
that of the day of asking.
"""

from __future__ import annotations

import datetime as dt
import re

from leafturn.base import prose
from leafturn.base.date_range import SHARES, Likely

MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
    "November", "December",
)  # fmt: skip
SHORT_MONTHS = tuple(month[:3] for month in MONTHS)
IN_RANGE = prose.in_ten(SHARES[-1] - SHARES[0])  # the share of years whose day lies within its range
DAYS_IN_MONTHS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
_MONTH = rf"\b({'|'.join(MONTHS)})\b"
WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")


def day(date: dt.date | None, on: dt.date | None = None) -> str:
    """A day as "19 Apr"; with the year where it is not that of `on`; "no day" for None."""
    if date is None:
        return "no day"
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
    """From one day to another as "10 to 22 Apr" or "28 Mar to 5 Apr"; an unknown end is left open."""
    return _between(early, late, on, " to ")


def span(early: dt.date | None, late: dt.date | None, on: dt.date | None = None) -> str:
    """The same in a column: "10-22 Apr", "28 Mar-5 Apr"."""
    return _between(early, late, on, "-")


def likely(when: Likely, on: dt.date | None = None) -> str:
    """A likely date with its range for a column, "16 Apr (10-22 Apr)".

    With the day of asking `on` a range that has begun tells its end alone: "16 Apr (by 22 Apr)".
    """
    early, middle, late = when
    if middle is None:
        return NOT_IN_MOST_YEARS
    if early == late:
        return day(middle, on)
    year = _year_said(when, on)
    if early is None or _has_come(early, late, on):
        end = f"by {day(late, year)}" if late else ""
    else:
        end = f"from {day(early, year)}" if late is None else span(early, late, year)
    open_end = "" if early and late else _no_end(when, on)
    return f"{day(middle, on)} ({', '.join(part for part in (end, open_end) if part)})"


def about(when: Likely, on: dt.date | None = None) -> str:
    """A likely date within a sentence: "about 23 Apr, between 18 and 27 Apr in 8 of 10 years".

    With the day of asking `on` a day that has come is no bound: "any day now, most likely 23 Apr, by 27 Apr";
    and of a likely day that is past only the end is told: "about 18 Apr; if not yet, by 24 Apr". Papers,
    which are read on another day, give no `on`.
    """
    early, middle, late = when
    if middle is None:
        return NOT_IN_MOST_YEARS
    if early == late:
        return "today" if middle == on else day(middle, on)
    year = _year_said(when, on)
    by = f"by {day(late, year)}" if late else _no_end(when, on)
    if on is not None and late is not None and late < on:
        return f"about {day(middle, on)}"
    if on is not None and middle < on:
        return f"about {day(middle, on)}; if not yet, {by}"
    if _has_come(early, late, on):
        likely_day = "" if middle == on else f"most likely {day(middle, on)}, "
        return f"any day now, {likely_day}{by}"
    if early is None or late is None:
        bound = f"from {day(early, year)}, " if early else f"{by}, " if late else ""
        return f"about {day(middle, on)}, {bound}{NOT_EVERY_YEAR}"
    return f"about {day(middle, on)}, between {_between(early, late, year, ' and ')} {IN_RANGE}"


def without_range(when: Likely, on: dt.date, *, unseen: bool = False) -> str:
    """A likely date by its day alone: "about 16 Apr", or "16 Apr" of what is known to the day.

    What nobody sees or notes (`unseen`) is not known to the day, though the reckoning comes to a single one.
    """
    if when.likely is None:
        return NOT_IN_MOST_YEARS
    return f"{'about ' if unseen or when.early != when.late else ''}{day(when.likely, on)}"


def comes(will: str, did: str, when: Likely, on: dt.date) -> str:
    """What comes, with its day, told as past where its likely day is: "began 2 Apr"."""
    return f"{did if when.has_passed(on) else will} {about(when, on)}"


NOT_IN_MOST_YEARS, NOT_EVERY_YEAR = "not in most years", "not in every year"
PERHAPS_NOT = "perhaps not this year"


def _no_end(when: Likely, on: dt.date | None) -> str:
    """That it may not come at all: of a year whose day is near or past, that this may be such a year."""
    come = on is not None and (when.has_passed(on) or _has_come(when.early, when.late, on))
    return PERHAPS_NOT if come and when.late is None else NOT_EVERY_YEAR


def _has_come(early: dt.date | None, late: dt.date | None, on: dt.date | None) -> bool:
    """Whether a range has begun on the day of asking and is not over."""
    return on is not None and early is not None and early <= on and (late is None or on <= late)


def _year_said(when: Likely, on: dt.date | None) -> dt.date | None:
    """The day whose year need not be said in a range after its likely day: a year all share is said once."""
    middle = when.likely
    shared = middle and all(end is None or end.year == middle.year for end in (when.early, when.late))
    return middle if shared else on


def _between(early: dt.date | None, late: dt.date | None, on: dt.date | None, join: str) -> str:
    """Two days with a word or sign between them, each month and year named once."""
    if early is None:
        return "hardly ever" if late is None else f"up to {day(late, on)}"
    if late is None:
        return f"from {day(early, on)}"
    if early == late:
        return day(early, on)
    if (early.year, early.month) == (late.year, late.month):
        return f"{early.day}{join}{day(late, on)}"
    if early.year == late.year:
        return f"{day(early)}{join}{day(late, on)}"
    return f"{day(early, on)}{join}{day(late, early)}"


def with_day(event: str, when: Likely, on: dt.date, *, unseen: bool = False) -> str:
    """An event with its day behind it, "leaf-out of hazel-b (about 9 Apr)"; empty if rare."""
    return "" if when.likely is None else f"{event} ({without_range(when, on, unseen=unseen)})"


def some_days(number: int) -> str:
    """A number of days as one says it, whatever its sign: "two weeks", "four days", "a week"."""
    weeks, rest = divmod(abs(number), 7)
    many, noun = (abs(number), "day") if rest or not weeks else (weeks, "week")
    return f"{_NUMBERS[many - 1] if many <= len(_NUMBERS) else many} {noun}{'s' if many != 1 else ''}"


_NUMBERS = ("a", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")


def days_ago(date: dt.date, on: dt.date) -> str:
    """ "today", "yesterday", "17 days ago" or "in 3 days"."""
    days = (on - date).days
    if days < 0:
        return f"in {-days} day{'s' if days < -1 else ''}"
    return ("today", "yesterday")[days] if days < 2 else f"{days} days ago"


def day_of_the_south(month: int, day: int) -> tuple[int, int]:
    """Month and day half a year off: 10 June is 10 December, and 31 August the last of February."""
    other = (month + 5) % 12 + 1
    return other, min(day, DAYS_IN_MONTHS[other - 1])


def months_of_the_south(text: str) -> str:
    """A sentence with the months it names moved by half a year: "by April" is "by October"."""
    return re.sub(_MONTH, lambda found: MONTHS[(MONTHS.index(found[1]) + 6) % 12], text)
