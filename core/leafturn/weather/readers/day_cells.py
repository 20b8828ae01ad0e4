"""Dates in a weather file, in whichever way it writes them.

Year-month-day, with or without a time of day, is read as it stands; so are 20260419, "20 Apr 2027",
"20. März 2027", "1er mai 2027" and 2027年4月20日. Of 20.4.2027, 4/20/2027 and the like the file as a whole
tells whether the day or the month stands first: by a number over 12, else by which of the two lets the rows
follow one another day by day. Of years in two figures (27/4/20, 20.4.27), as spreadsheets show them, only the
latter tells. Where nothing does, nothing is guessed.
"""

from __future__ import annotations

import datetime as dt
import math
import re
import unicodedata
from collections.abc import Sequence
from itertools import pairwise
from typing import Literal

from leafturn.base.day_words import MONTHS
from leafturn.base.patterns import pattern
from leafturn.base.value import Value

Order = Literal["year first", "day first", "month first", "not told"]
SHORT_YEARS_FROM = 69  # 69 to 99 are of the 20th century, 00 to 68 of the 21st: POSIX, strptime, %y

_TIME = (
    r"(?:(?:T|\s+)(?P<hour>\d{1,2})(?::?(?P<minute>\d{2})(?::?\d{2}(?:\.\d+)?)?)?"
    r"\s*(?P<half>[ap]m)?\s*(?:Z|UTC|[+-]\d{2}:?\d{2})?)?"
)
_YEAR_FIRST = rf"(?P<year>\d{{4}})(?P<by>[-/.]?)(?P<month>\d{{1,2}})(?P=by)(?P<day>\d{{1,2}}){_TIME}"
_YEAR_LAST = rf"(\d{{1,2}})([-/.])\s*(\d{{1,2}})\2\s*(?P<year>\d{{4}}){_TIME}"
_SHORT = rf"(\d{{1,2}})([-/.])\s*(\d{{1,2}})\2\s*(\d{{1,2}}){_TIME}"
_SHORT_PLACES: dict[Order, tuple[int, int, int]] = {  # of year, month and day among the three numbers
    "year first": (0, 1, 2),
    "day first": (2, 1, 0),
    "month first": (2, 0, 1),
}
_NAME = r"[^\W\d_]{3,9}"
_NAMED = (
    rf"(?:(?P<day>\d{{1,2}})(?:er)?[-.\s]+(?P<name>{_NAME})|(?P<name2>{_NAME})\.?\s+(?P<day2>\d{{1,2}}))"
    rf"[-.,\s]+(?P<year>\d{{4}}){_TIME}"
)
_PLAIN = {"年": "-", "月": "-", "日": ""}  # year, month and day as China and Japan write them
_CHARACTERS = pattern("[年月日]")
_MONTH_NAMES = tuple(  # English, German and French, without accents
    {name.lower(), *more.split()}
    for name, more in zip(
        MONTHS,
        (
            "januar janner janvier", "februar fevrier", "marz maerz mars mrz", "avril", "mai", "juni juin",
            "juli juillet", "aout", "", "oktober octobre", "novembre", "dezember decembre",
        ),
        strict=True,
    )
)  # fmt: skip


class Moment(Value, kw_only=False):
    """A day, and the hour of it; `hour` is NaN where none is written."""

    day: dt.date
    hour: float


def order_of(cells: Sequence[str]) -> Order:
    """In which order the dates of a file are written.

    Parameters
    ----------
    cells : sequence of str
        Every date of the file, in its order.
    """
    pairs = [
        (int(m[1]), int(m[3]), int(m["year"]))
        for c in cells
        if (m := re.fullmatch(_YEAR_LAST, c.strip(), re.IGNORECASE))
    ]
    if not pairs:
        return _short_order(cells)
    day_first, month_first = sum(a > 12 for a, _, _ in pairs), sum(b > 12 for _, b, _ in pairs)
    if day_first == month_first:
        day_first = _follow([_date(year, b, a) for a, b, year in pairs])
        month_first = _follow([_date(year, a, b) for a, b, year in pairs])
    if day_first == month_first:
        return "not told"
    return "day first" if day_first > month_first else "month first"


def _short_order(cells: Sequence[str]) -> Order:
    """The order in which most rows follow one another, where years have two figures."""
    found = [m for c in cells if (m := re.fullmatch(_SHORT, c.strip(), re.IGNORECASE))]
    if not found:
        return "year first"
    follow = {order: _follow([_short_day(m, order) for m in found]) for order in _SHORT_PLACES}
    best = max(follow, key=lambda order: follow[order])
    return best if list(follow.values()).count(follow[best]) == 1 else "not told"


def _short_day(found: re.Match[str], order: Order) -> dt.date | None:
    if order not in _SHORT_PLACES:
        return None
    year, month, day = ([found[1], found[3], found[4]][place] for place in _SHORT_PLACES[order])
    century = 1900 if int(year) >= SHORT_YEARS_FROM else 2000
    return _date(century + int(year), int(month), int(day)) if len(year) == 2 else None


def moment_in(cell: str, order: Order) -> Moment | None:
    """The day, and hour, that a cell holds; None if it holds none."""
    cell = _CHARACTERS.sub(lambda m: _PLAIN[m[0]], cell.strip())
    if found := re.fullmatch(_YEAR_FIRST, cell, re.IGNORECASE):
        if not found["by"] and len(found["month"] + found["day"]) != 4:
            return None
        day = _date(int(found["year"]), int(found["month"]), int(found["day"]))
    elif found := re.fullmatch(_YEAR_LAST, cell, re.IGNORECASE):
        first, second = int(found[1]), int(found[3])
        month, number = (second, first) if order == "day first" else (first, second)
        day = None if order == "not told" else _date(int(found["year"]), month, number)
    elif found := re.fullmatch(_SHORT, cell, re.IGNORECASE):
        day = _short_day(found, order)
    elif found := re.fullmatch(_NAMED, cell, re.IGNORECASE):
        month = _month(found["name"] or found["name2"])
        day = _date(int(found["year"]), month, int(found["day"] or found["day2"]))
    else:
        return None
    hour = _hour(found)
    return None if day is None or hour is None else Moment(day=day, hour=hour)


def _month(written: str) -> int:
    """The number of the one month whose name begins so; 0 where none does, or several do."""
    bare = "".join(c for c in unicodedata.normalize("NFD", written.lower()) if not unicodedata.combining(c))
    meant = [n for n, names in enumerate(_MONTH_NAMES, 1) if any(name.startswith(bare) for name in names)]
    return meant[0] if len(meant) == 1 else 0


def _hour(found: re.Match[str]) -> float | None:
    if found["hour"] is None:
        return math.nan
    hour = int(found["hour"]) + int(found["minute"] or 0) / 60
    if found["half"]:
        hour = hour % 12 + (12 if found["half"].lower() == "pm" else 0)
    return hour if hour <= 24 else None


def _date(year: int, month: int, day: int) -> dt.date | None:
    try:
        return dt.date(year, month, day)
    except ValueError:
        return None


def _follow(days: Sequence[dt.date | None]) -> int:
    """How often a row's day is the one before's next."""
    return sum(a is not None and b is not None and (b - a).days == 1 for a, b in pairwise(days))
