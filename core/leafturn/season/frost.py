"""When it freezes: year by year of a record, and member by member of an ensemble.

A freeze is a daily minimum at or below the threshold. Spring runs from the season's start (1 January;
south 1 July) to 31 July (south 31 January), autumn from there to the end of the following spring half.
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike

from leafturn.base.arrays import BoolArray, FloatArray, IndexArray
from leafturn.base.kept import kept
from leafturn.base.value import Value
from leafturn.season.axis import LEAD_DAYS
from leafturn.season.ensemble import Ensemble

SPRING_DAYS = 212  # from the season's start to midsummer, 1 August (south: 1 February)
MIDSUMMER_DAY = LEAD_DAYS + SPRING_DAYS  # the same as a day number of the axis
ENOUGH = 0.9  # share of the days between a freeze and midsummer that must be known
NEVER = math.inf


class FreezesByYear(Value, eq=False, kw_only=False):
    """Year of the season's start, and day of that year of the last and first freeze, each (seasons,).

    `last` is -inf and `first` inf in a year without; NaN where too little is known to tell.
    """

    years: IndexArray
    last: FloatArray
    first: FloatArray


def freezes_by_year(
    dates: ArrayLike | Sequence[dt.date], tmin: ArrayLike, *, southern: bool = False
) -> FreezesByYear:
    """Last and first freeze of each season of a record: nights at or below 0 degC.

    Parameters
    ----------
    dates : (days,) of dates or datetime64
        In order, without repeats; days may be missing.
    tmin : (days,) [degC]
        Daily minimum; NaN for gaps.
    southern : bool
        Seasons that start on 1 July.

    Returns
    -------
    FreezesByYear
        A freeze is told only where nine in ten of the days from it to midsummer are known.
    """
    day = np.asarray(dates, dtype="datetime64[D]")
    if not day.size:
        return FreezesByYear(np.empty(0, dtype=np.intp), np.empty(0), np.empty(0))
    whole = np.full(int((day[-1] - day[0]).astype(int)) + 1, np.nan)
    whole[(day - day[0]).astype(int)] = np.asarray(tmin, dtype=float)
    frozen = whole <= 0.0
    known = ~np.isnan(whole)

    first_day: dt.date = day[0].item()
    years = np.arange(first_day.year - 1, day[-1].item().year + 1)
    last, first = np.full(len(years), np.nan), np.full(len(years), np.nan)
    for i, year in enumerate(years.tolist()):
        new_year, begin, midsummer, end = _season(year, southern, first_day)
        away = _first_freeze(*_outward(frozen, known, midsummer - 1, begin - 1))
        last[i] = midsummer - away - new_year
        away = _first_freeze(*_outward(frozen, known, midsummer, end))
        first[i] = midsummer + away - new_year + 1
    dated = ~(np.isnan(last) & np.isnan(first))
    return FreezesByYear(years[dated], last[dated], first[dated])


def _season(year: int, southern: bool, origin: dt.date) -> tuple[int, int, int, int]:
    """New Year, season's start, midsummer and the midsummer after, as days since `origin`."""
    dates = [(year, 1), (year, 7), (year + 1, 2), (year + 2, 2)] if southern else [
        (year, 1), (year, 1), (year, 8), (year + 1, 8)]  # fmt: skip
    zero = origin.toordinal()
    new_year, begin, midsummer, end = (dt.date(y, month, 1).toordinal() - zero for y, month in dates)
    return new_year, begin, midsummer, end


def _outward(frozen: BoolArray, known: BoolArray, start: int, stop: int) -> tuple[BoolArray, BoolArray]:
    """Days from `start` towards `stop`, which is left out; days beyond the record are not known."""
    days = np.arange(start, stop, 1 if stop > start else -1)
    inside = (days >= 0) & (days < len(known))
    at = np.where(inside, days, 0)
    return frozen[at] & inside, known[at] & inside


def _first_freeze(frozen: BoolArray, known: BoolArray) -> float:
    """Days from midsummer to the nearest freeze; inf if there is none, NaN if too little is known."""
    found = bool(frozen.any())
    away = int(np.argmax(frozen)) if found else len(frozen)
    if known[: away + 1].mean() < ENOUGH:
        return math.nan
    return float(away) if found else math.inf


def last_frost(ensemble: Ensemble, threshold: float = 0.0, pocket_c: float = 0.0) -> FloatArray:
    """Day number of the last freeze between the season's start and midsummer, (members,).

    Parameters
    ----------
    ensemble : Ensemble
    threshold : float [degC]
        A freeze is a minimum at or below this.
    pocket_c : float [degC]
        How much warmer the garden is than the station; below 0 in a frost pocket.

    Returns
    -------
    (members,) array
        -inf for a member without a freeze, so that any day comes after it.
    """
    frozen = ensemble.tmin[:, LEAD_DAYS:MIDSUMMER_DAY] + pocket_c <= threshold
    last = MIDSUMMER_DAY - 1.0 - np.argmax(frozen[:, ::-1], axis=1)
    return np.where(frozen.any(axis=1), last, -NEVER)


@kept  # leaves of every kind hang on it
def first_frost(ensemble: Ensemble, threshold: float = 0.0, pocket_c: float = 0.0) -> FloatArray:
    """Day number of the first freeze from midsummer to the end of the axis, (members,); inf where none.

    Parameters as in `last_frost`.
    """
    frozen = ensemble.tmin[:, MIDSUMMER_DAY:] + pocket_c <= threshold
    return np.where(frozen.any(axis=1), MIDSUMMER_DAY + np.argmax(frozen, axis=1), NEVER)


class FrostShares(NamedTuple):
    """In what share of ensemble members it freezes: from the season's start on, and in autumn."""

    last: float
    first: float


def frost_shares(ensemble: Ensemble, threshold: float = 0.0, pocket_c: float = 0.0) -> FrostShares:
    """How often it freezes. Parameters as in `last_frost`; of the usual year it tells of the place."""
    last, first = last_frost(ensemble, threshold, pocket_c), first_frost(ensemble, threshold, pocket_c)
    return FrostShares(float(np.isfinite(last).mean()), float(np.isfinite(first).mean()))
