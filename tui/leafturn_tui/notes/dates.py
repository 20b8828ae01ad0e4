"""Dates as people type them."""

from __future__ import annotations

import datetime as dt
import re

from leafturn.base.day_words import MONTHS, SHORT_MONTHS
from leafturn.base.faults import clipped
from leafturn.base.patterns import pattern
from leafturn.base.told_times import NUMBER_WORDS, part_of_month
from leafturn_tui.notes import NotUnderstood

WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_COUNTED = rf"an?|{'|'.join(NUMBER_WORDS[1:])}"
_IN_DAYS = rf"(?:\+|in)?\s*(\d{{1,4}}|(?:{_COUNTED})(?= (?:day|week)))\s*(d|days?|w|weeks?)?"
_AGO = rf"(\d{{1,4}}|{_COUNTED}) (day|week)s? ago"
_WEEKDAY = rf"(?:next |last |this )?({'|'.join(WEEKDAYS)})"
_MONTH = rf"(?:{'|'.join((*MONTHS, *SHORT_MONTHS, 'Sept'))})\b\.?"
_WRITTEN = (
    rf"\d{{1,2}}\.? ?{_MONTH}(?: \d{{4}})?|{_MONTH} \d{{1,2}}(?:,? \d{{4}})?"
    r"|\d{4}-\d{2}-\d{2}|\d{1,2}\.\d{1,2}\.\d{4}"
)
_THIS = "today|last night|this morning"  # what is seen in the morning is of that day
_SLASHED = r"(\d{1,2})/(\d{1,2})(?:/\d{2,4})?"
_PAST = rf"{_THIS}|yesterday|{_AGO}|{_WEEKDAY}|{_WRITTEN}|(?<=on ){_SLASHED}"
_AT_END = pattern(
    rf"(?P<before>.*?)(?P<between>^|(?<![\s,;])[\s,;]+)(?:on |since )?(?P<day>{_PAST})\.?\s*",
    re.IGNORECASE | re.DOTALL,
)

_AT_START = pattern(rf"(?:on )?(?P<day>{_PAST})\b[\s,;:]+(?P<after>\S.*)", re.IGNORECASE | re.DOTALL)
_OVER = pattern(rf"\b(?:yesterday|{_AGO}|last (?:{'|'.join(WEEKDAYS)}))\b", re.IGNORECASE)


class _Either(NotUnderstood):
    """Two days may be meant."""


MONTH_NUMBERS = range(1, 13)
EARLIEST, LATEST = dt.date(1900, 1, 1), dt.date(2200, 12, 31)


def day_asked(text: str, on: dt.date) -> dt.date:
    """The same as `date`, of a day that can be answered for."""
    day = date(text, on)
    if not EARLIEST <= day <= LATEST:
        raise NotUnderstood(f"{day.isoformat()} is too far off; dates from 1900 to 2200 are answered")
    return day


def date(text: str, on: dt.date) -> dt.date:
    """Read "2027-04-26", "26 Apr", "today", "yesterday", "Saturday", "+7" or "2 weeks".

    The year is that of `on`; a day of the week is the next one after it. "5/9" is two days, and refused.
    """
    text = " ".join(text.split())
    named = {"today": 0, "yesterday": -1, "tomorrow": 1, "a week": 7, "next week": 7, "": 0}
    try:
        if text.lower() in named:
            return on + dt.timedelta(days=named[text.lower()])
        if found := re.fullmatch(_IN_DAYS, text, re.IGNORECASE):
            return on + dt.timedelta(
                days=_whole(found[1]) * (7 if (found[2] or "").lower().startswith("w") else 1)
            )
        if found := re.fullmatch(_WEEKDAY, text, re.IGNORECASE):
            return on + dt.timedelta(days=(WEEKDAYS.index(found[1].lower()) - on.weekday() - 1) % 7 + 1)
        if found := re.fullmatch(r"(\d{4})([-/.])(\d{1,2})\2(\d{1,2})", text):
            return dt.date(int(found[1]), int(found[3]), int(found[4]))
        return _other_spelling(text, on)
    except _Either:
        raise
    except (ValueError, OverflowError, TypeError):
        raise NotUnderstood(f"{clipped(text)!r} is no date; write 2027-04-26, 26 Apr or +7") from None


def past_date(text: str, on: dt.date) -> dt.date:
    """The same of a day that is over: "Saturday" is the last one, "12 Dec" in April is of the year before."""
    text = " ".join(text.split())
    try:
        if re.fullmatch(_THIS, text, re.IGNORECASE):
            return on
        if found := re.fullmatch(_AGO, text, re.IGNORECASE):
            return on - dt.timedelta(days=_whole(found[1]) * (7 if found[2].lower() == "week" else 1))
        if found := re.fullmatch(_WEEKDAY, text, re.IGNORECASE):
            return on - dt.timedelta(days=(on.weekday() - WEEKDAYS.index(found[1].lower()) - 1) % 7 + 1)
        day = date(text, on)
        return day.replace(year=on.year - 1) if day > on and not re.search(r"\d{4}", text) else day
    except _Either:
        raise
    except (ValueError, OverflowError):
        raise NotUnderstood(f"{clipped(text)!r} is no date; write 2027-04-26 or 26 Apr") from None


def day_at_end(text: str, on: dt.date) -> tuple[str, dt.date]:
    """What is noted, and the day that stands behind it: "4 kg on 12 April"; `on` where none does.

    A day in words after a comma is one of theirs: "poor, frost on 5 Apr".

    Parameters
    ----------
    text : str
    on : date
        The day of asking.

    Raises
    ------
    NotUnderstood
        If what looks like a day is none: "31 Feb".
    """
    found = _AT_END.fullmatch(text)
    if found is None or (re.search(r"[,;]\s", found["before"]) and not re.search("[,;]", found["between"])):
        return text, on
    return found["before"], past_date(found["day"].rstrip("."), on)


def day_at_start(text: str, on: dt.date) -> tuple[str, dt.date]:
    """The same of a day that stands before it: "yesterday the pear was in full bloom"."""
    found = _AT_START.fullmatch(text)
    return (text, on) if found is None else (found["after"], past_date(found["day"].rstrip("."), on))


def day_within(text: str, on: dt.date) -> dt.date:
    """The day over that a sentence tells of, as "last Tuesday"; `on` where it tells of none or several."""
    days = {past_date(found[0], on) for found in _OVER.finditer(text)}
    return days.pop() if len(days) == 1 else on


def _whole(told: str) -> int:
    """A number in figures or words; "a" is one."""
    if told.isdecimal():
        return int(told)
    return NUMBER_WORDS.index(told.lower()) if told.lower() in NUMBER_WORDS else 1


def _other_spelling(text: str, on: dt.date) -> dt.date:
    from dateutil import parser  # type: ignore[import-untyped]

    if slashed := re.fullmatch(_SLASHED, text):
        one, other = int(slashed[1]), int(slashed[2])
        if one != other and one in MONTH_NUMBERS and other in MONTH_NUMBERS:
            either = f"{one} {SHORT_MONTHS[other - 1]} or {other} {SHORT_MONTHS[one - 1]}"
            raise _Either(f"{text!r} may be {either}; write which")
    if part := part_of_month(text):
        return dt.date(on.year, *part)
    found: dt.datetime = parser.parse(text, default=dt.datetime(on.year, on.month, 1), dayfirst=True)
    if (
        len(re.findall(r"\d+", text)) < (2 if re.search("[a-z]", text, re.IGNORECASE) else 3)
        and found.year != on.year
    ):
        raise ValueError(text)  # a number too great for a day, read as a year
    return found.date()
