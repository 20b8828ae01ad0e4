"""Dates, chances and numbers in words that can be read aloud."""

from __future__ import annotations

import datetime as dt

from leafturn.base.date_range import Likely


def day(date: dt.date | None, on: dt.date | None = None) -> str:
    """A date as "24 Apr"; with the year where it is not that of `on`; "no date" for None."""
    if date is None:
        return "no date"
    if on is not None and date == on:
        return "today"
    text = f"{date.day} {date:%b}"
    return text if on is None or date.year == on.year else f"{text} {date.year}"


def about(when: Likely, on: dt.date | None = None) -> str:
    """A likely date with its range: "about 24 Apr (18 Apr to 2 May)"."""
    if when.likely is None:
        return "not in most years"
    if when.early == when.late:
        return day(when.likely, on)
    if when.early is None:
        return f"about {day(when.likely, on)} (up to {day(when.late, on)}, or never)"
    if when.late is None:
        return f"about {day(when.likely, on)} ({day(when.early, on)} or never)"
    one_year = when.early.year == when.likely.year == when.late.year
    early, late = (_without_year(end, on) if one_year else day(end, on) for end in (when.early, when.late))
    return f"about {day(when.likely, on)} ({early} to {late})"


def span(first: dt.date | None, last: dt.date | None, on: dt.date | None = None) -> str:
    """From one day to another, the year said once: "9 Jan to 12 Feb 2027"."""
    one_year = first is not None and last is not None and first.year == last.year
    return f"{_without_year(first, on) if one_year else day(first, on)} to {day(last, on)}"


def _without_year(date: dt.date | None, on: dt.date | None) -> str:
    return day(date, on) if date == on else day(date)


RARE, HARDLY_EVER = 0.5, 0.05  # shares of years below which frost is called so; guesses
SOME = 1 / 3  # of the years: from so many on a thing is not called rare; guess


def in_years(share: float) -> str:
    """A share of the years as "1 year in 5" or "4 years in 10"."""
    if share >= SOME:
        return f"{round(10 * share)} years in 10"
    return f"1 year in {round(1 / share)}" if share > 0 else "no year"


def rarely(share: float) -> str:
    """How seldom frost comes to a place, "rarely (about 1 year in 5)"; empty where it is no rare thing.

    Parameters
    ----------
    share : float
        Of the usual years, those that have it.
    """
    if share >= RARE:
        return ""
    if share == 0:
        return "in no version of the year"
    return f"{seldom(share)} (about {in_years(share)})"


def seldom(share: float) -> str:
    """A share of under half of the years in a word or two."""
    if share < HARDLY_EVER:
        return "hardly ever"
    return "rarely" if share < SOME else "in some years"


def days_ago(date: dt.date, on: dt.date) -> str:
    """ "today", "yesterday", "17 days ago" or "in 3 days"."""
    days = (on - date).days
    if days < 0:
        return f"in {-days} day{'s' if days < -1 else ''}"
    return ("today", "yesterday")[days] if days < 2 else f"{days} days ago"


def count(number: float, noun: str, plural: str | None = None) -> str:
    """A rounded number with its noun: "1 day", "12 days"."""
    whole = round(number)
    return f"{whole} {noun if whole == 1 else plural or noun + 's'}"
