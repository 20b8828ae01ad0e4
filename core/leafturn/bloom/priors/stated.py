"""Priors of kinds that no record was fitted for: a response of their class, and the heat sum a book states.

A book's sum of degree-days holds in the climate of the books. There, in made-up years round its normals, the
day on which the sum is reached is the kind's day, and the warmth of the class' response by that day is its
level. The response carries it to other climates.
"""

import datetime as dt
import math
from functools import cached_property, lru_cache

import msgspec
import numpy as np
from msgspec.structs import replace

from leafturn.base.arrays import FloatArray, median
from leafturn.base.kept import kept
from leafturn.base.value import Value
from leafturn.bloom.priors.prior import BloomPrior, KindHere, LevelSpreads
from leafturn.bloom.priors.response import (
    DAYS,
    FIRST_DAY,
    WINTER,
    Response,
    ShortDays,
    Timing,
    as_cold,
    level_at,
)
from leafturn.kinds.fact import value_of
from leafturn.kinds.model import Kind
from leafturn.season.degree_days import single_sine
from leafturn.season.heat_count import BASE_C
from leafturn.season.sun import day_length
from leafturn.toml.packaged import packaged
from leafturn.weather.normals.monthly import year_from_months
from leafturn.weather.normals.normals import Normals, guessed_rain, usual_spread
from leafturn.weather.synthetic.year_generator import generated_years

YEARS = 40
FROM_NEW_YEAR = 1 - FIRST_DAY  # column of 1 January, from which books count


class Reference(msgspec.Struct, frozen=True):
    """The climate at which books are taken at their word; see stated.toml."""

    place: str
    latitude: float
    tmax_c: tuple[float, ...]
    tmin_c: tuple[float, ...]
    source: str


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


class Winters(msgspec.Struct, frozen=True):
    """Mean temperatures [degC] of the winters in which responses were learnt; see stated.toml."""

    pooled: tuple[float, float]
    cool_weeks: tuple[float, float]


class LowChill(msgspec.Struct, frozen=True):
    """What makes a kind one of little chill, and its share of its class' need of cold; see stated.toml."""

    hours: float
    portions: float
    share: float

    def holds(self, kind: Kind) -> bool:
        """Whether the middle of what a kind is said to want is so little."""
        portions, hours = kind.chill.middle_portions, kind.chill.middle_hours
        if portions is not None:
            return portions <= self.portions
        return hours is not None and hours <= self.hours


class Stated(msgspec.Struct, frozen=True):
    """All of stated.toml."""

    reference: Reference
    winters: Winters
    resting_buds: Response
    early_buds: Response
    cool_weeks: Response
    new_shoots: Response
    short_days: ShortDays
    low_chill: LowChill
    spreads: Spreads


ANY_MONTH = "any month"  # the way of flowering that no weather times


stated = packaged("leafturn.bloom.priors", "stated.toml", Stated)


def timing_of(kind: Kind) -> Timing:
    """The response of a kind's class, with less need of cold where the kind wants little chill."""
    known = stated()
    way = value_of(kind.bloom.timing, "resting buds")
    if way == "short days":
        return known.short_days
    if way == "cool weeks":
        return known.cool_weeks
    need = kind.bloom.first_open_heat
    if way == "resting buds" and need is not None and need.value <= known.spreads.early_heat:
        return known.early_buds
    response = known.resting_buds if way == "resting buds" else known.new_shoots
    return _sooner_rested(response) if known.low_chill.holds(kind) else response


@lru_cache(maxsize=2)
def _sooner_rested(response: Response) -> Response:
    """A response that less cold sets free."""
    return replace(response, cold_need=response.cold_need * stated().low_chill.share)


def stated_prior(kind: Kind) -> BloomPrior | None:
    """The prior of first open from what the library states; None where it states no heat."""
    fact = kind.bloom.first_open_heat
    if fact is None:
        return None
    base = value_of(kind.bloom.base_c, BASE_C)
    start = value_of(kind.bloom.start, "season")
    any_month = kind.bloom.timing is not None and kind.bloom.timing.value == ANY_MONTH
    return _prior(
        timing_of(kind), fact.value, base, start, fact.sure == "guess", kind.guessed, any_month=any_month
    )


class LeafNeed(Value):
    """What leaves wait for: degree-days above 5 degC since the season's start, and after how little cold."""

    heat: float
    little_chill: bool = False


def need_of_leaves(kind: Kind, heat: float) -> LeafNeed:
    """That of a kind with such a heat; those that want little chill are the same as at bloom."""
    return LeafNeed(heat=heat, little_chill=stated().low_chill.holds(kind))


def leaf_prior(need: LeafNeed, guess: bool = False) -> BloomPrior:
    """The prior of leaf-out."""
    resting = stated().resting_buds
    timing = _sooner_rested(resting) if need.little_chill else resting
    return _prior(timing, need.heat, BASE_C, "season", guess, False)


@lru_cache(maxsize=1024)
def _prior(
    timing: Timing,
    heat: float,
    base: float,
    start: str,
    guess: bool,
    unknown: bool,
    *,
    any_month: bool = False,
) -> BloomPrior:
    level, day = level_of(timing, heat, base, start)
    known = stated()
    spreads = known.spreads
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
        any_month=any_month,
    )  # fmt: skip
    winters = known.winters.cool_weeks if timing == known.cool_weeks else known.winters.pooled
    if timing in (_sooner_rested(known.resting_buds), _sooner_rested(known.new_shoots)):
        coldest, mildest = winters
        winters = coldest, as_cold(timing, mildest, known.low_chill.share)
    return BloomPrior(
        response=timing, usual=usual, winters=winters, origin="stated", widening_ahead=spreads.widening_ahead
    )


class Climate(Value, eq=False, kw_only=False):
    """Made-up years of one place, from 1 October on, (YEARS, DAYS) [degC]."""

    latitude: float
    tmin: FloatArray
    tmax: FloatArray

    @cached_property
    def winter(self) -> float:
        """Mean temperature of December to February [degC]."""
        return float((self.tmin + self.tmax)[:, WINTER].mean() / 2)

    @kept
    def sums(self, timing: Timing) -> FloatArray:
        """Warmth as a response counts it, (YEARS, DAYS)."""
        hours = day_length(self.latitude, (np.arange(DAYS) + FIRST_DAY - 1) % 365 + 1)
        return timing.sums(self.tmin, self.tmax, hours)

    @kept
    def heat(self, base: float, start: str) -> FloatArray:
        """Degree-days above a base from "season" (1 January) or a month and day on, (YEARS, DAYS)."""
        begins = FROM_NEW_YEAR
        if start != "season":
            month, day = (int(part) for part in start.split("-"))
            begins += (dt.date(2023, month, day) - dt.date(2023, 1, 1)).days - (365 if month >= 10 else 0)
        daily = single_sine(self.tmin, self.tmax, base)
        daily[:, : max(begins, 0)] = 0.0
        return np.cumsum(daily, axis=1)

    @kept
    def usual_day(self, prior: BloomPrior) -> float:
        """Day number on which a kind opens in the middle of the years."""
        level = math.exp(prior.at(self.winter).levels.middle)
        reached = np.sort(np.count_nonzero(self.sums(prior.response) < level, axis=1))
        # a level reached in the course of a day is reached about its noon
        return float((reached[YEARS // 2 - 1] + reached[YEARS // 2]) / 2 + FIRST_DAY)


@lru_cache(maxsize=4)
def made_up_climate(latitude: float, tmax_c: tuple[float, ...], tmin_c: tuple[float, ...]) -> Climate:
    """Made-up years round twelve monthly means [degC], January first."""
    rain, wet_share, _ = guessed_rain()
    tmin, tmax = year_from_months(tmin_c), year_from_months(tmax_c)
    normals = Normals(
        tmin=tmin, tmax=tmax, rain=rain, spread=usual_spread(tmin, tmax), wet_share=wet_share,
        basis="climate normals",
    )  # fmt: skip
    made = generated_years(normals, YEARS)
    october = (np.arange(DAYS) + 274) % 366
    return Climate(latitude, made.tmin[:, october], made.tmax[:, october])


def reference() -> Climate:
    """The climate at which books are taken at their word."""
    known = stated().reference
    return made_up_climate(known.latitude, known.tmax_c, known.tmin_c)


@lru_cache(maxsize=4096)
def level_of(timing: Timing, heat: float, base: float = BASE_C, start: str = "season") -> tuple[float, float]:
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
    climate = reference()
    reached = np.count_nonzero(climate.heat(base, start) < heat, axis=1)
    days = np.minimum(reached, DAYS - 1) + FIRST_DAY
    level, _ = level_at(climate.sums(timing), days)
    return median(level), median(days)
