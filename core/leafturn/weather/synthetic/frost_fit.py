"""Made-up years whose frosts come when, and as often as, the garden file says.

The garden file gives the usual last and first frost, perhaps how far they stray one year in ten, or in what
share of years it freezes at all. Round each frost the spread of the days and a shift of the nights are chosen
so that the made-up years have what is stated. The shift is taken from the maxima again, so that the mean of
the day, and with it nearly all heat, is left alone.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from msgspec.structs import replace

from leafturn.base.arrays import FloatArray, IndexArray
from leafturn.base.value import Value
from leafturn.garden.model import Climate, FrostDate
from leafturn.weather.calendar import LEAP_YEAR_DAYS, month_day_place
from leafturn.weather.normals.normals import Normals
from leafturn.weather.synthetic.frost_points import FrostPoint, to_the_day
from leafturn.weather.synthetic.year_generator import FULL_SET, departures

MIDSUMMER, MIDSUMMER_SOUTH = 213, 31  # places of 1 August and 1 February, where spring and autumn meet
# From the season's start to midsummer, and from there to the end of the season's axis: a first frost may
# come after New Year, so that the two overlap.
SPRING_DAYS, AUTUMN_DAYS = 213, 214
REACH, RARE_REACH = 75, 120  # [d] either side of a frost date that the fit may change; guesses
NARROWEST, WIDEST = 1.0, 8.0  # [degC] spreads tried
CALM = 2.0  # [degC] nights stray no less than this where frost is rare; coasts without frost: about 2, guess
SWEEPS, SETTLED = 12, 0.05  # [degC] in a short summer the two reaches overlap, and each must see the other
RARE_SWEEPS = 24  # where frost is rare both halves hang on the same few nights
HALVINGS = 9
HAIRS = tuple(step / 10 for step in range(-15, 16))  # [degC] tried about the spread found
UNSTATED_WEIGHS, HAIR_WEIGHS = 0.1, 0.2  # against a day missed [days per day, days per degC]; guesses
ROUNDED = 1e-9  # two that differ by no more are equal but for their last digit
APART = 0.2  # overlap of two reaches up to which each half may choose its spread to the day; guess
MOST_SHIFT = 5.0  # [degC] beyond it dates and temperatures contradict each other; guess
LEAST_STEP, WIDEST_STEP = 0.05, 0.5  # [degC] so far off its edge a shift keeps
RARE_APART = (14, -30)  # [d] from the coldest day to the middle of the spring and autumn change; guess
CONTRADICTION = "The frost dates and the temperatures of the garden file contradict each other: look at both."
NOT_MET = (
    "The year guessed for this place does not freeze just when the garden file says: "
    "the months' temperatures would serve better."
)


class _Half(Value, eq=False):
    """Spring or autumn, its days counted outward from midsummer.

    The nights are shifted to serve the first of `points`, the spread of the days to serve the second, if
    there is one. `bump` is 1 at the frost and falls to 0 at the end of its reach, (366,). `rare` tells that
    not every year freezes.
    """

    places: IndexArray
    points: tuple[FrostPoint, ...]
    bump: FloatArray
    rare: bool


class _Change(Value, eq=False):
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
        With a note where the dates and the temperatures contradict each other, or a guessed year cannot meet
        the dates.
    """
    midsummer = MIDSUMMER_SOUTH if southern else MIDSUMMER
    last, first = _of_one_winter(climate.last_frost, climate.first_frost)
    coldest = int(np.argmin(normals.tmin))
    spring = _half(last, (midsummer - 1 - np.arange(SPRING_DAYS)) % LEAP_YEAR_DAYS, coldest, spring=True)
    autumn = _half(first, (midsummer + np.arange(AUTUMN_DAYS)) % LEAP_YEAR_DAYS, coldest, spring=False)
    noise = departures(FULL_SET, normals.persistence)
    in_spring = in_autumn = NO_CHANGE
    rare = any(half is not None and half.rare for half in (spring, autumn))
    overlap = float((spring.bump * autumn.bump).max()) if spring and autumn else 0.0
    apart = overlap < APART
    spring_sees = overlap > 0 or bool(spring and autumn and autumn.bump[spring.places].any())
    for _ in range((RARE_SWEEPS if rare else SWEEPS) if spring_sees else 1):
        before = in_spring
        in_spring = _fit(spring, _changed(normals, in_autumn), noise, hairs=apart) if spring else NO_CHANGE
        in_autumn = _fit(autumn, _changed(normals, in_spring), noise, hairs=apart) if autumn else NO_CHANGE
        if float(np.abs(in_spring.shift - before.shift).max()) < SETTLED:
            break
    fitted = _changed(_changed(normals, in_spring), in_autumn)
    for half, change in ((spring, in_spring), (autumn, in_autumn)):
        if half is not None and not half.rare and not change.bounded:
            fitted = to_the_day(fitted, half.places, half.points, noise)
    contradicts = in_spring.bounded or in_autumn.bounded
    if not contradicts:
        return fitted
    note = NOT_MET if fitted.guess else CONTRADICTION
    return replace(fitted, frosts_met=False, notes=(*fitted.notes, note))


def _of_one_winter(
    last: FrostDate | None, first: FrostDate | None
) -> tuple[FrostDate | None, FrostDate | None]:
    """Both frosts: where only one is given and is rare, the other is as rare, since one winter has both."""
    given = last or first
    if given is None or given.years == 1 or (last is not None and first is not None):
        return last, first
    other = FrostDate(years=given.years)
    return last or other, first or other


def _changed(normals: Normals, change: _Change) -> Normals:
    return replace(
        normals,
        spread=np.maximum(normals.spread + change.spread, NARROWEST),
        night_shift=normals.night_shift + change.shift,
    )


def _half(frost: FrostDate | None, places: IndexArray, coldest: int, *, spring: bool) -> _Half | None:
    """The half a frost belongs to, or None if none is given or its day lies in the other half."""
    if frost is None:
        return None
    usual = _day(frost.usual, places)
    if usual is None and (frost.usual is not None or frost.years == 1):
        return None
    if frost.years < 1:
        points = [FrostPoint(len(places) - 1, round(frost.years * FULL_SET))]
        # Between the last frost and the first lies the coldest day; each half has its own side to change.
        middle = (coldest + RARE_APART[0 if spring else 1]) % LEAP_YEAR_DAYS
        if usual is not None:
            days = [usual, *np.flatnonzero(places == middle)]
            middle = int(places[min(days)])
    else:
        assert usual is not None
        points = [
            FrostPoint(usual, _years_by(0.5, spring=spring)),
            *_tenth(frost, usual, places, spring=spring),
        ]
        middle = int(places[usual])
    reach = REACH if frost.years == 1 else RARE_REACH
    away = np.abs((np.arange(LEAP_YEAR_DAYS) - middle + 183) % LEAP_YEAR_DAYS - 183)
    bump = np.where(away < reach, (1 + np.cos(np.pi * away / reach)) / 2, 0.0)
    return _Half(places=places, points=tuple(points), bump=bump, rare=frost.years < 1)


def _tenth(frost: FrostDate, usual: int, places: IndexArray, *, spring: bool) -> list[FrostPoint]:
    """The point of the one year in ten, where the garden file gives it on the right side of the usual day."""
    after, before = _day(frost.one_year_in_ten_after, places), _day(frost.one_year_in_ten_before, places)
    near, far = (after, before) if spring else (before, after)
    if near is not None:
        return [FrostPoint(near, _years_by(0.1, spring=spring))] if near < usual else []
    return [FrostPoint(far, _years_by(0.9, spring=spring))] if far is not None and far > usual else []


def _years_by(share: float, *, spring: bool) -> int:
    """How many of the made-up years freeze by the day that stands at a share of them, as dates are read off.

    Counted from midsummer: of spring's last frosts the later ones come first.
    """
    place = round((1 - share if spring else share) * (FULL_SET - 1))
    return FULL_SET - place if spring else place + 1


def _day(text: str | None, places: IndexArray) -> int | None:
    """Which day of a half a month and day is; None if it is in the other half or no date."""
    if not text:
        return None
    try:
        found = np.flatnonzero(places == month_day_place(text))
    except ValueError:
        return None
    return int(found[0]) if found.size else None


def _fit(half: _Half, normals: Normals, noise: FloatArray, *, hairs: bool) -> _Change:
    """Spread and shift round one frost; `hairs` lets the spread be moved a little to meet the days."""
    found = _Search(half, normals, noise)
    wanted, *beside = half.points
    spread, bounded = float(found.before[np.argmax(found.bump)]), False
    if beside:
        spread, bounded = _root(found.gap, NARROWEST, WIDEST)
    elif half.rare and found.shift(wanted, spread) > 0:
        # Frost is rarer than nights so unsteady would have it: they are steadier, before they are warmer.
        spread, _ = _root(lambda tried: found.shift(wanted, tried), min(CALM, spread), spread)
    if hairs and not half.rare and not bounded:
        # Forty years are few: by a hair of spread the year that tells a date may be another.
        as_found = spread
        spread += _hair(lambda step: found.days_off(as_found + step, as_found))
    shift = found.shift(wanted, spread)
    bounded = bounded or abs(shift) > MOST_SHIFT
    shift = min(max(shift, -MOST_SHIFT), MOST_SHIFT)
    return _Change(spread=(spread - normals.spread) * half.bump, shift=shift * half.bump, bounded=bounded)


def _hair(days_off: Callable[[float], float]) -> float:
    """By how much to change a spread so that the days are missed least.

    The change itself counts, so that once it alone comes to more than the least that was found no larger one
    need be tried.
    """
    tried: dict[float, float] = {}
    for step in sorted(HAIRS, key=abs):
        if tried and HAIR_WEIGHS * abs(step) > min(tried.values()) + ROUNDED:
            break
        tried[step] = days_off(step)
    return min(sorted(tried), key=tried.__getitem__)


class _Search:
    """Tries spreads and shifts on the made-up years of one half."""

    def __init__(self, half: _Half, normals: Normals, noise: FloatArray) -> None:
        self.half = half
        self.before, self.bump = normals.spread[half.places], half.bump[half.places]
        self._curve = (normals.tmin + normals.night_shift)[half.places]
        self._draws = noise[:, half.places]

    def _minimum(self, spread: float) -> FloatArray:
        spreads = np.maximum(self.before + (spread - self.before) * self.bump, NARROWEST)
        return np.asarray(self._curve + spreads * self._draws)

    def shift(self, point: FrostPoint, spread: float) -> float:
        """The shift with which so many years have a frost by that day, counted from midsummer.

        A year has one if the shift is at most -(minimum)/bump on any of those days.
        """
        most = -self._minimum(spread) / np.maximum(self.bump, 1e-3)

        def limit(days: int, years: int) -> float:
            """The most shift with which so many years freeze within so many days."""
            if not days or years > len(most):
                return -np.inf
            return float(np.sort(most[:, :days].max(axis=1))[-years])

        if point.years == 0:
            return limit(point.day + 1, 1) + LEAST_STEP
        highest = limit(point.day + 1, point.years)
        rest = limit(point.day + 1, point.years + 1) if self.half.rare else limit(point.day, point.years)
        return (highest + max(rest, highest - WIDEST_STEP)) / 2

    def gap(self, spread: float) -> float:
        """How far apart the two points' shifts are; rises through 0 at the spread that serves both."""
        wanted, beside = self.half.points
        sign = 1.0 if beside.day < wanted.day else -1.0
        return sign * (self.shift(beside, spread) - self.shift(wanted, spread))

    def days_off(self, spread: float, usual: float) -> float:
        """How many days the two points are missed by with a spread.

        Beside that it counts a little that the tenth which is not stated lies elsewhere than as far on the
        other side, as a normal distribution has it, and that the usual spread is left.
        """
        wanted, *others = self.half.points
        frozen = self._minimum(spread) + self.shift(wanted, spread) * self.bump <= 0
        days = np.sort(np.where(frozen.any(axis=1), frozen.argmax(axis=1), frozen.shape[1]))
        missed = float(sum(abs(int(days[point.years - 1]) - point.day) for point in self.half.points))
        for beside in others:
            opposite = int(days[len(days) - beside.years])
            missed += UNSTATED_WEIGHS * abs(opposite - (2 * wanted.day - beside.day))
        return missed + HAIR_WEIGHS * abs(spread - usual)


def _root(rising: Callable[[float], float], low: float, high: float) -> tuple[float, bool]:
    """Where a rising function is 0 by halving, or the nearer end and True if it is not 0 between."""
    if rising(low) >= 0:
        return low, True
    if rising(high) <= 0:
        return high, True
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        low, high = (low, middle) if rising(middle) > 0 else (middle, high)
    return (low + high) / 2, False
