"""Seasons of leaves, shoots and roots: from one date to another in books, carried elsewhere by warmth."""

import datetime as dt

import numpy as np

from leafturn.base.arrays import median
from leafturn.bloom.priors.response import Timing, level_at
from leafturn.bloom.priors.stated import YEARS, reference, stated

LAST_BY_WARMTH = 190  # [day number] picking by then follows the warmth, later picking the calendar; guess


def season_level(month_day: str) -> tuple[Timing, float] | None:
    """The warmth that a date of spring or early summer stands for at the reference; None for later dates."""
    number = _number_of(month_day)
    if number > LAST_BY_WARMTH:
        return None
    timing = stated().resting_buds
    level, _ = level_at(reference().sums(timing), np.full(YEARS, float(number)))
    return timing, median(level)


def season_length(season: tuple[str, str]) -> int | None:
    """Days of a season whose two dates warmth carries; None where the calendar ends it."""
    first, last = (_number_of(month_day) for month_day in season)
    return last - first if first < last <= LAST_BY_WARMTH else None


def _number_of(month_day: str) -> int:
    """Day number of a northern month and day (1 January 1)."""
    month, day = (int(part) for part in month_day.split("-"))
    return (dt.date(2023, month, day) - dt.date(2022, 12, 31)).days
