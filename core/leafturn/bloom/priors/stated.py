"""Priors of kinds that no record was fitted for: a response of their class, and the book's heat at its word.

A book's sum of degree-days holds in the climate of the books. There, in made-up years round its normals, the
day on which the sum is reached is the kind's day, and the warmth of the class' response by that day is its
level. The response carries it to other climates.
"""

from __future__ import annotations

from functools import lru_cache
from importlib.resources import files

import msgspec
import numpy as np
from numpy.typing import NDArray

from leafturn.bloom.priors.prior import BloomPrior, KindHere, LevelSpreads
from leafturn.bloom.priors.response import FIRST_DAY, Response, ShortDays, Timing, level_at
from leafturn.kinds.model import Kind
from leafturn.season.degree_days import single_sine
from leafturn.season.sun import day_length
from leafturn.weather.made_up import made_up_years
from leafturn.weather.monthly import year_from_months
from leafturn.weather.normals import Normals, guessed_rain

FloatArray = NDArray[np.float64]

YEARS = 40
DAYS = 396
FROM_NEW_YEAR = 1 - FIRST_DAY  # column of 1 January, from which books count
# Winters [degC] in which the pooled responses were learnt: those of nine in ten sites of their records.
WINTERS = (-7.0, 9.0)


class Reference(msgspec.Struct, frozen=True):
    """The climate at which books are taken at their word; see stated.toml."""

    place: str
    latitude: float
    tmax_c: tuple[float, ...]
    tmin_c: tuple[float, ...]
    source: str
    spread_c: float


class Spreads(msgspec.Struct, frozen=True):
    """How far stated levels lie off; see stated.toml."""

    lasting: float
    lasting_of_a_guess: float
    within: float
    drift_share: float
    drift_years: float
    widening_ahead: float
    early_heat: float
    short_days_sd: float
    unknown_kind: float
    common: float


class Stated(msgspec.Struct, frozen=True):
    """All of stated.toml."""

    reference: Reference
    resting_buds: Response
    early_buds: Response
    new_shoots: Response
    short_days: ShortDays
    spreads: Spreads


@lru_cache(maxsize=1)
def stated() -> Stated:
    """What the packaged file states."""
    text = files("leafturn.bloom.priors").joinpath("stated.toml").read_bytes()
    return msgspec.toml.decode(text, type=Stated)


def timing_of(kind: Kind) -> Timing:
    """The response of a kind's class."""
    known = stated()
    way = kind.bloom.timing.value if kind.bloom.timing else "resting buds"
    if way == "short days":
        return known.short_days
    if way == "new shoots":
        return known.new_shoots
    need = kind.bloom.first_open_heat
    early = need is not None and need.value <= known.spreads.early_heat
    return known.early_buds if early else known.resting_buds


def stated_prior(kind: Kind) -> BloomPrior | None:
    """The prior of first open from what the library states; None where it states no heat."""
    fact = kind.bloom.first_open_heat
    if fact is None:
        return None
    base = kind.bloom.base_c.value if kind.bloom.base_c else 5.0
    start = kind.bloom.start.value if kind.bloom.start else "season"
    return _prior(timing_of(kind), fact.value, base, start, fact.sure == "guess", kind.guessed)


def leaf_prior(heat: float, guess: bool = False) -> BloomPrior:
    """The prior of leaf-out, from degree-days above 5 degC since the season's start."""
    return _prior(stated().resting_buds, heat, 5.0, "season", guess, False)


@lru_cache(maxsize=1024)
def _prior(timing: Timing, heat: float, base: float, start: str, guess: bool, unknown: bool) -> BloomPrior:
    level, day = level_of(timing, heat, base, start)
    spreads = stated().spreads
    lasting = spreads.lasting_of_a_guess if guess else spreads.lasting
    if isinstance(timing, ShortDays):
        lasting = spreads.short_days_sd**2 / 2
    if unknown:
        lasting = spreads.unknown_kind
    within = spreads.within if isinstance(timing, Response) else spreads.short_days_sd**2 / 4
    usual = KindHere(
        levels=LevelSpreads(
            middle=level, lasting=lasting, drifting=spreads.drift_share * within,
            chance=(1 - spreads.drift_share) * within, drift_years=spreads.drift_years,
        ),
        day=day,
    )  # fmt: skip
    return BloomPrior(
        response=timing, usual=usual, winters=WINTERS, origin="stated", widening_ahead=spreads.widening_ahead
    )


@lru_cache(maxsize=4096)
def level_of(timing: Timing, heat: float, base: float = 5.0, start: str = "season") -> tuple[float, float]:
    """Level and day that a book's sum of heat comes to at the reference climate.

    Parameters
    ----------
    timing : Response or ShortDays
    heat : float [degC d]
        Single-sine degree-days above `base`.
    base : float [degC]
    start : str
        "season" for 1 January, or a month and day.

    Returns
    -------
    (float, float)
        Logarithm of warmth, and day number (1 January 1).
    """
    days = _days_of(heat, base, start)
    level, _ = level_at(_sums(timing), days)
    return float(np.median(level)), float(np.median(days))


def _days_of(heat: float, base: float, start: str) -> FloatArray:
    """Day numbers on which made-up years of the reference reach a sum of heat, (YEARS,)."""
    sums = _heat(base, start)
    reached = np.count_nonzero(sums < heat, axis=1)
    return np.minimum(reached, DAYS - 1) + FIRST_DAY


@lru_cache(maxsize=16)
def _heat(base: float, start: str) -> FloatArray:
    low, high = _years()
    begins = FROM_NEW_YEAR
    if start != "season":
        month, day = (int(part) for part in start.split("-"))
        place = (np.datetime64(f"2023-{month:02}-{day:02}") - np.datetime64("2023-01-01")).astype(int)
        begins += int(place) - (365 if month >= 10 else 0)
    daily = single_sine(low, high, base)
    daily[:, : max(begins, 0)] = 0.0
    return np.asarray(np.cumsum(daily, axis=1))


@lru_cache(maxsize=8)
def _sums(timing: Timing) -> FloatArray:
    hours = day_length(stated().reference.latitude, (np.arange(DAYS) + FIRST_DAY - 1) % 365 + 1)
    return timing.sums(*_years(), hours)


@lru_cache(maxsize=1)
def _years() -> tuple[FloatArray, FloatArray]:
    """Minima and maxima of made-up years of the reference, (YEARS, DAYS)."""
    reference = stated().reference
    rain, wet_share, _ = guessed_rain()
    normals = Normals(
        tmin=year_from_months(np.array(reference.tmin_c)), tmax=year_from_months(np.array(reference.tmax_c)),
        rain=rain, spread=np.full(366, reference.spread_c), wet_share=wet_share, basis="climate normals",
    )  # fmt: skip
    made = made_up_years(normals, YEARS)
    october = np.arange(DAYS) + 274
    return made.tmin[:, october % 366], made.tmax[:, october % 366]
