"""Made-up years whose frosts come when the garden file says.

The garden file gives the usual last and first frost, and perhaps how far they stray one year in ten.
Round each date the spread of the days and a shift of the nights are chosen so that the made-up years
have that median and that tenth. The shift is taken from the maxima again, so that the mean of the day,
and with it nearly all heat, is left alone.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from leafturn.garden.model import Climate, FrostDate
from leafturn.weather.calendar import LEAP_YEAR_DAYS, month_day_place
from leafturn.weather.made_up import FULL_SET, departures
from leafturn.weather.normals import Normals

FloatArray = NDArray[np.float64]

MIDSUMMER, MIDSUMMER_SOUTH = 213, 31  # places of 1 August and 1 February, where spring and autumn meet
SPRING_DAYS, AUTUMN_DAYS = 213, 153
REACH = 75  # [d] either side of a frost date that the fit may change; guess
NARROWEST, WIDEST = 1.0, 8.0  # [degC] spreads tried
SWEEPS, SETTLED = 6, 0.1  # [degC] in a short summer the two reaches overlap, and each must see the other
MOST_SHIFT = 5.0  # [degC] beyond it dates and temperatures contradict each other; guess
CONTRADICTION = "The frost dates and the temperatures of the garden file contradict each other: look at both."


@dataclass(frozen=True, eq=False, kw_only=True)
class _Half:
    """Spring or autumn, its days counted outward from midsummer.

    `usual` is the day of the usual frost; in a `share` of years the frost nearest to midsummer comes by
    day `tenth`. `bump` is 1 on the usual frost and falls to 0 at the end of its reach, (366,).
    """

    places: NDArray[np.intp]
    usual: int
    tenth: int | None
    share: float
    bump: FloatArray


@dataclass(frozen=True, eq=False, kw_only=True)
class _Change:
    """What one half adds to spread and night shift, (366,); `bounded` if it could not do as told."""

    spread: FloatArray
    shift: FloatArray
    bounded: bool


NO_CHANGE = _Change(spread=np.zeros(LEAP_YEAR_DAYS), shift=np.zeros(LEAP_YEAR_DAYS), bounded=False)


def fit_frost_dates(normals: Normals, climate: Climate, southern: bool) -> Normals:
    """Normals whose made-up years have the frost dates of the garden file.

    Parameters
    ----------
    normals : Normals
        Their `spread` and `night_shift` are changed round the frost dates.
    climate : Climate
        Its `last_frost` and `first_frost` are used, where given.
    southern : bool
        True south of the equator.

    Returns
    -------
    Normals
        With a note where the dates and the temperatures contradict each other.
    """
    midsummer = MIDSUMMER_SOUTH if southern else MIDSUMMER
    spring = _half(climate.last_frost, (midsummer - 1 - np.arange(SPRING_DAYS)) % LEAP_YEAR_DAYS, spring=True)
    autumn = _half(climate.first_frost, (midsummer + np.arange(AUTUMN_DAYS)) % LEAP_YEAR_DAYS, spring=False)
    noise = departures(FULL_SET, normals.persistence)
    in_spring = in_autumn = NO_CHANGE
    for _ in range(SWEEPS):
        before = in_spring
        in_spring = _fit(spring, _changed(normals, in_autumn), noise) if spring else NO_CHANGE
        in_autumn = _fit(autumn, _changed(normals, in_spring), noise) if autumn else NO_CHANGE
        if float(np.abs(in_spring.shift - before.shift).max()) < SETTLED:
            break
    fitted = _changed(_changed(normals, in_spring), in_autumn)
    contradicts = in_spring.bounded or in_autumn.bounded
    return replace(fitted, notes=(*fitted.notes, CONTRADICTION)) if contradicts else fitted


def _changed(normals: Normals, change: _Change) -> Normals:
    return replace(
        normals,
        spread=np.maximum(normals.spread + change.spread, NARROWEST),
        night_shift=normals.night_shift + change.shift,
    )


def _half(frost: FrostDate | None, places: NDArray[np.intp], *, spring: bool) -> _Half | None:
    """The half a frost date belongs to, or None if none is given or it lies in the other half."""
    usual = _day(frost.usual if frost else None, places)
    if frost is None or usual is None:
        return None
    after, before = _day(frost.one_year_in_ten_after, places), _day(frost.one_year_in_ten_before, places)
    near, far = (after, before) if spring else (before, after)
    tenth, share = (near, 0.1) if near is not None else (far, 0.9)
    if tenth is not None and (tenth < usual) != (share < 0.5):
        tenth = None  # the wrong side of the usual date says nothing
    away = np.abs((np.arange(LEAP_YEAR_DAYS) - places[usual] + 183) % LEAP_YEAR_DAYS - 183)
    bump = np.where(away < REACH, (1 + np.cos(np.pi * away / REACH)) / 2, 0.0)
    return _Half(places=places, usual=usual, tenth=tenth, share=share, bump=bump)


def _day(text: str | None, places: NDArray[np.intp]) -> int | None:
    """Which day of a half a month and day is; None if it is in the other half or no date."""
    if not text:
        return None
    try:
        found = np.flatnonzero(places == month_day_place(text))
    except ValueError:
        return None
    return int(found[0]) if found.size else None


def _fit(half: _Half, normals: Normals, noise: FloatArray) -> _Change:
    """Spread and shift round one frost date."""
    curve = (normals.tmin + normals.night_shift)[half.places]
    before, bump, draws = normals.spread[half.places], half.bump[half.places], noise[:, half.places]

    def shift_for(day: int, share: float, spread: float) -> float:
        """The shift with which a share of the years has a frost by that day, counted from midsummer.

        A year has one if the shift is at most -(minimum)/bump on any of those days.
        """
        minimum = curve + (before + (spread - before) * bump) * draws
        most = (-minimum / np.maximum(bump, 1e-3))[:, : day + 1].max(axis=1)
        return float(np.quantile(most, 1 - share))

    def gap(spread: float) -> float:
        """How far apart the two dates' shifts are; 0 at the spread that serves both."""
        assert half.tenth is not None
        sign = 1.0 if half.share < 0.5 else -1.0
        return sign * (shift_for(half.tenth, half.share, spread) - shift_for(half.usual, 0.5, spread))

    spread, bounded = float(before[half.usual]), False
    if half.tenth is not None:
        spread, bounded = _root(gap, NARROWEST, WIDEST)
    shift = shift_for(half.usual, 0.5, spread)
    bounded = bounded or abs(shift) > MOST_SHIFT
    shift = min(max(shift, -MOST_SHIFT), MOST_SHIFT)
    return _Change(spread=(spread - normals.spread) * half.bump, shift=shift * half.bump, bounded=bounded)


def _root(rising: Callable[[float], float], low: float, high: float) -> tuple[float, bool]:
    """Where a rising function is 0 by halving, or the nearer end and True if it is not 0 between."""
    if rising(low) >= 0:
        return low, True
    if rising(high) <= 0:
        return high, True
    for _ in range(9):
        middle = (low + high) / 2
        low, high = (low, middle) if rising(middle) > 0 else (middle, high)
    return (low + high) / 2, False
