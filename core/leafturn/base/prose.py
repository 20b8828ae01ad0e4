"""Shares of years and counts in words that can be read aloud."""

from __future__ import annotations

RARE, HARDLY_EVER = 0.5, 0.05  # shares of years below which frost is called so; guesses
SOME = 1 / 3  # of the years: from so many on a thing is not called rare; guess


def in_years(share: float) -> str:
    """A share of the years as "1 year in 5" or "4 years in 10"."""
    if share >= SOME:
        return f"{round(10 * share)} years in 10"
    return f"1 year in {round(1 / share)}" if share > 0 else "no year"


def of_ten(share: float, noun: str) -> str:
    """A share of the years in tenths, "4 years in 10", or "nearly every year"."""
    tenths = round(10 * share)
    return f"{tenths} {noun}s in 10" if tenths < 10 else f"nearly every {noun}"


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


def count(number: float, noun: str, plural: str | None = None) -> str:
    """A rounded number with its noun: "1 day", "12 days"."""
    whole = round(number)
    return f"{whole} {noun if whole == 1 else plural or noun + 's'}"
