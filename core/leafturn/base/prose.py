"""Chances and counts in words that can be read aloud: one scale of chance for all that is told."""

from __future__ import annotations

from collections.abc import Sequence

RARE, HARDLY_EVER = 0.5, 0.05  # shares of years below which frost is called so; guesses
NEARLY_ALWAYS = 1 - HARDLY_EVER


def of_ten(share: float, noun: str = "") -> str:
    """A chance on the one scale of the program: "3 of 10 springs", "hardly ever", "nearly always".

    Parameters
    ----------
    share : float
        Between 0 and 1.
    noun : str
        What is counted, "spring" or "year"; without one "3 of 10" tells the chance of this year alone.
    """
    if not is_counted(share):
        return "hardly ever" if share < HARDLY_EVER else "nearly always"
    return f"{_tenths(share)} of 10{f' {noun}s' if noun else ''}"


def in_ten(share: float, noun: str = "year") -> str:
    """The same within a sentence: "in 3 of 10 years", "hardly ever", "nearly always"."""
    said = of_ten(share, noun)
    return f"in {said}" if is_counted(share) else said


def is_counted(share: float) -> bool:
    """Whether a chance is told as so many of ten, being neither hardly ever nor nearly always."""
    return HARDLY_EVER <= share < NEARLY_ALWAYS


def of_ten_range(low: float, high: float, noun: str = "") -> str:
    """Two chances as one: "3 to 6 of 10 springs", "up to 3 of 10", "8 or more of 10"."""
    first, last = of_ten(low, noun), of_ten(high, noun)
    if first == last:
        return first
    if low < HARDLY_EVER:
        return f"{'from hardly ever to' if high >= NEARLY_ALWAYS else 'up to'} {last}"
    if high >= NEARLY_ALWAYS:
        return f"{_tenths(low)} or more of 10{f' {noun}s' if noun else ''}"
    return f"{_tenths(low)} to {last}"


def _tenths(share: float) -> int:
    return min(max(round(10 * share), 1), 9)


def rarely(share: float) -> str:
    """How seldom frost comes to a place, "in 2 of 10 years"; empty where it is no rare thing.

    Parameters
    ----------
    share : float
        Of the usual years, those that have it.
    """
    return "" if share >= RARE else in_ten(share)


def count(number: float, noun: str, plural: str | None = None) -> str:
    """A rounded number with its noun: "1 day", "12 days"."""
    whole = round(number)
    return f"{whole} {noun if whole == 1 else plural or noun + 's'}"


def minutes(amount: float) -> str:
    """Minutes of work as "35 min" or "2 h 57"; empty for less than half of one."""
    whole = round(amount)
    if whole < 60:
        return f"{whole} min" if whole > 0 else ""
    hours, rest = divmod(whole, 60)
    return f"{hours} h {rest:02d}" if rest else f"{hours} h"


def joined(parts: Sequence[str]) -> str:
    """A list in words: "a", "a and b", "a, b and c"."""
    if len(parts) < 2:
        return "".join(parts)
    return f"{', '.join(parts[:-1])} and {parts[-1]}"


def first_of(parts: Sequence[str], most: int) -> str:
    """The first so many of a list in words, and how many more there are: "a, b and 3 more"."""
    left = len(parts) - most
    return joined([*parts[:most], f"{left:,} more"] if left > 0 else parts)


def capital(said: str) -> str:
    """Words as a sentence begins."""
    return f"{said[:1].upper()}{said[1:]}"
