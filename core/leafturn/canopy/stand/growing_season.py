"""The months over which light is counted, and the one in which a crown is best looked at."""

from __future__ import annotations

from leafturn.base.day_words import MONTHS


def growing_months(latitude: float) -> tuple[int, ...]:
    """May to September, or November to March in the south."""
    return (5, 6, 7, 8, 9) if latitude >= 0 else (11, 12, 1, 2, 3)


def growing_season(latitude: float) -> str:
    """The same in words."""
    months = growing_months(latitude)
    return f"{MONTHS[months[0] - 1]} to {MONTHS[months[-1] - 1]}"


def month_of_looks(latitude: float) -> str:
    """The month in which leaves tell how much of a crown lives: the last but one of them."""
    return MONTHS[growing_months(latitude)[-2] - 1]
