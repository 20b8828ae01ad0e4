"""A frost date as the garden file may give it: a day, how far it strays, how seldom it comes, or never."""

from __future__ import annotations

import datetime as dt
import re
from typing import Any

from leafturn.base.day_words import MONTHS
from leafturn.base.faults import nearest_word
from leafturn.base.told_times import NUMBER_WORDS, part_of_month
from leafturn.garden.reading.tables import Spot
from leafturn.toml.messages import as_written

NEVER = "never"
_MOST_YEARS = 1000  # of how many years a share may be told; more is a slip of the pen
_MEANS_NEVER = ("no", "none", "no frost", "not at all", "frost free", "frost-free", "nil", "False")
_MEANS_RARE = ("rarely", "seldom", "sometimes", "rare", "occasionally", "hardly ever", "almost never")
_YEARS = r"(?:years?|winters?|springs?|autumns?)"
_SHARE = rf"(\d+|[a-z]+)(?: {_YEARS})? (?:in|of|out of)(?: every)? (\d+|[a-z]+)(?: {_YEARS})?"
_PARTS = ("usual", "one_year_in_ten_after", "one_year_in_ten_before")


def month_and_day(value: object) -> str | None:
    """A frost date as "MM-DD".

    Parameters
    ----------
    value : object
        "04-24", "4-24", "24 April", "Apr 24", "mid April", or a whole date, whose year is dropped.

    Returns
    -------
    str or None
        None if no such day is meant.
    """
    if isinstance(value, dt.date):
        return f"{value.month:02}-{value.day:02}"
    if not isinstance(value, str):
        return None
    words = value.strip().lower()
    if found := re.fullmatch(r"(?:\d{4}-)?(\d{1,2})-(\d{1,2})", words, re.ASCII):
        month, day = int(found[1]), int(found[2])
    elif found := re.fullmatch(r"(\d{1,2})\.? ([a-z]{3,9})|([a-z]{3,9})\.? (\d{1,2})", words, re.ASCII):
        begins = found[2] or found[3]
        months = [place for place, name in enumerate(MONTHS, start=1) if name.lower().startswith(begins)]
        month, day = months[0] if months else 0, int(found[1] or found[4])
    elif part := part_of_month(words):
        month, day = part
    else:
        return None
    try:
        dt.date(2024, month, day)  # a leap year, so that 29 February passes
    except ValueError:
        return None
    return f"{month:02}-{day:02}"


def share_of_years(value: object) -> float | None:
    """In what share of the years frost comes, from words.

    Parameters
    ----------
    value : object
        "never", "1 year in 5", "2 years in 10", "one winter in five", "1 in 5", "3 of 10".

    Returns
    -------
    float or None
        From 0, never, to 1, every year; None if no share is meant.
    """
    if not isinstance(value, str):
        return None
    words = " ".join(value.lower().split())
    if words == NEVER:
        return 0.0
    found = re.fullmatch(_SHARE, words)
    few, of = (_whole(found[1]), _whole(found[2])) if found else (None, None)
    if few is None or of is None or not 0 <= few <= of <= _MOST_YEARS or of == 0:
        return None
    return few / of


def _whole(word: str) -> int | None:
    if word.isascii() and word.isdigit():
        return int(word) if len(word) <= len(str(_MOST_YEARS)) else None
    return NUMBER_WORDS.index(word) if word in NUMBER_WORDS else None


def frost_table(value: object, spot: Spot, frost: str) -> dict[str, Any] | None:
    """What a garden file says of one frost, as the fields of a FrostDate.

    Parameters
    ----------
    value : object
        A day, a share of years, "never", or a table of `usual`, `years` and the tenths.
    spot : Spot
        Of the value.
    frost : str
        Its key: "last_frost" or "first_frost".

    Returns
    -------
    dict or None
        None if neither the usual day nor the share of years is to be had.
    """
    table: dict[str, Any] = dict(value) if isinstance(value, dict) else {"usual": value}
    if "years" in table:
        _read_years(table, spot, frost)
    for part in _PARTS:
        if part in table:
            _read_part(table, part, spot, frost)
    if "usual" not in table and "years" not in table:
        if isinstance(value, dict) and not {"usual", "years"} & set(value):
            spot.add_fault(
                f"{frost} has no usual day; it is left out.", f'Write {frost} = {{ usual = "04-24" }}'
            )
        return None
    if table.get("years", 1.0) < 1:
        _drop_days_of_rare_frost(table, spot, frost)
    _drop_wrong_side(table, spot, frost)
    return table


def _read_part(table: dict[str, Any], part: str, spot: Spot, frost: str) -> None:
    """One day of the table as "MM-DD", or left out; a share of years in place of the usual day is taken."""
    date = month_and_day(table[part])
    if date is not None:
        table[part] = date
        return
    share = share_of_years(table[part]) if part == "usual" else None
    if share is not None:
        table.setdefault("years", share)
    else:
        spot.add_fault(
            f"{frost} = {as_written(table[part])} is not a day of the year; it is left out.",
            _hint(table[part], part, frost),
            part,
        )
    del table[part]


def _read_years(table: dict[str, Any], spot: Spot, frost: str) -> None:
    share = share_of_years(table["years"])
    if share is not None:
        table["years"] = share
        return
    written = as_written(table.pop("years"))
    spot.add_fault(
        f"years = {written} of {frost} is no share of years; it is left out.",
        'Write years = "1 in 5", or "never".',
        "years",
    )


def _hint(value: object, part: str, frost: str) -> str:
    """What to write instead of what is no day."""
    if isinstance(value, list):
        tenth = '{ usual = "04-24", one_year_in_ten_after = "05-12" }'
        if frost == "first_frost":
            tenth = '{ usual = "10-16", one_year_in_ten_before = "09-28" }'
        return f"Write {frost} = {tenth}"
    swapped = _swapped(value)
    month_first = month_and_day(value.strip().replace("/", "-")) if isinstance(value, str) else None
    if swapped and month_first and swapped != month_first:
        return f'Write "{swapped}" or "{month_first}", whichever it is (month-day).'
    if part != "usual" or swapped or month_first:
        return f'Write "{swapped or month_first or "04-24"}" (month-day).'
    words = " ".join(str(value).split())
    if words in _MEANS_NEVER or words.lower() in _MEANS_NEVER or nearest_word(words, (NEVER,)):
        return 'Write "never" where it does not freeze.'
    if nearest_word(words, _MEANS_RARE) or re.search(r"\d.*(?:year|winter|in|of|%|/)", words, re.IGNORECASE):
        return 'Write how often it freezes: "1 year in 5".'
    return 'Write "04-24" (month-day), or "1 year in 5", or "never".'


def _swapped(value: object) -> str | None:
    """A day written before its month, the right way round."""
    found = re.fullmatch(r"\s*(\d{1,2})[-./ ](\d{1,2})\.?\s*", value) if isinstance(value, str) else None
    return month_and_day(f"{found[2]}-{found[1]}") if found else None


def _drop_days_of_rare_frost(table: dict[str, Any], spot: Spot, frost: str) -> None:
    """Leave out days of a frost that never comes, and tenths of one that does not come every year."""
    left = _PARTS if table["years"] == 0 else _PARTS[1:]
    for part in left:
        if part in table:
            why = "it never comes" if table["years"] == 0 else "years tells that it does not come every year"
            spot.add_fault(f"{part} of {frost} says nothing where {why}; it is left out.", "", part)
            del table[part]


def _drop_wrong_side(table: dict[str, Any], spot: Spot, frost: str) -> None:
    """Leave out a one-year-in-ten date that lies on the wrong side of the usual one, New Year apart."""
    for part, sign in (("one_year_in_ten_after", 1), ("one_year_in_ten_before", -1)):
        if part not in table:
            continue
        usual = table.get("usual")
        if usual is None:
            spot.add_fault(f"{part} of {frost} has no usual day beside it; it is left out.", "", part)
            del table[part]
        elif sign * _days_from(usual, table[part]) <= 0:
            spot.add_fault(
                f"{part} of {frost} is {table[part]}, which is not {part[16:]} the usual "
                f"{usual}; it is left out.",
                "",
                part,
            )
            del table[part]


def _days_from(usual: str, other: str) -> int:
    """Days from one "MM-DD" to another by the shorter way round the year, -183 to 182."""
    first, second = (dt.date.fromisoformat(f"2024-{day}") for day in (usual, other))
    return ((second - first).days + 183) % 366 - 183
