"""What is known of a kind before anything is noted here: from open records, or from a book."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

import numpy as np
from msgspec.structs import replace

from leafturn.base.arrays import FloatArray
from leafturn.base.value import Value
from leafturn.bloom.priors.response import Timing

# How far levels go astray where winters lie outside those a response was learnt in, by degree beyond
# [1/degC of ln warmth]. Measured on Japanese wisteria and cherry with the pooled response, whose sites reach
# winters of 17 degC: at 3, 6 and 9 degC beyond 9 degC the day is missed by 3, 13 and 36 d.
ASTRAY_PER_DEGREE = 0.09
# Colder winters than those learnt in fulfil every need of cold; Korean sites show no trend with them. Guess.
ASTRAY_PER_COLDER_DEGREE = 0.02
MARGIN_C = 1.0  # winters and summers so little outside count as inside; guess
# Mean of June to August (south: December to February) of the coolest places whose dates were met, Ireland's
# west and the middle of Sweden [degC]. Springs of cooler ones are long and cool, and levels go astray too:
# apples about Reykjavik, of 11 degC, flower some three weeks later than warmth tells (recalled). Kinds that
# open before April have done so before it matters; guess.
COOLEST_SUMMER_C = 14.8
ASTRAY_PER_COOLER_SUMMER = 0.1
OPENS_LATE = 90.0  # [day number]


class LevelSpreads(Value):
    """Where levels of a kind lie, as logarithms of warmth.

    Parameters
    ----------
    middle : float
        The kind's level.
    lasting, drifting, chance : float
        Variances: between plants or places for good, within one over the years, and of one spring.
    drift_years : float [years]
        Time in which a drift loses all but a third of itself.
    """

    middle: float
    lasting: float = 0.005
    drifting: float = 0.004
    chance: float = 0.006
    drift_years: float = 4.0


class KindHere(Value):
    """A kind as it is in one climate.

    Parameters
    ----------
    levels : LevelSpreads
        How much warmth its plants take, and how far they differ.
    day : float [day number]
        When it usually opens.
    site_spread, year_spread : float [d]
        Standard deviation of days between places of this climate, and between springs at one place.
    degrees_outside : float [degC]
        How far the climate's winter and summer lie outside those the kind was learnt in; 0 inside.
    summer_outside : float [degC]
        The part of it by which the summer is cooler.
    any_month : bool
        Whether it opens whenever it has grown enough, so that no day can be told.
    """

    levels: LevelSpreads
    day: float
    site_spread: float = 10.0
    year_spread: float = 6.0
    degrees_outside: float = 0.0
    summer_outside: float = 0.0
    any_month: bool = False

    @property
    def winter_outside(self) -> float:
        """The part of it by which the winter is milder or colder [degC]."""
        return self.degrees_outside - self.summer_outside


class BloomPrior(Value):
    """A kind as open records, or a book, know it.

    Parameters
    ----------
    response : Response or ShortDays
        What its buds make of cold and warmth.
    usual : KindHere
        The kind in general.
    climates : tuple of (float, KindHere)
        The kind where winters have this mean [degC], mildest last; empty where it is not known by climate.
    winters : (float, float) [degC]
        Mean temperature of the coldest three months of the places it was learnt in.
    origin : str
        "fitted" to records, or "stated" from a book.
    widening : float
        What spreads of the level are multiplied by, so that four in five of the sites' own days fall in the
        80 % range.
    widening_ahead : float
        The same for what the weather to come adds.
    """

    response: Timing
    usual: KindHere
    climates: tuple[tuple[float, KindHere], ...] = ()
    winters: tuple[float, float] = (-np.inf, np.inf)
    origin: Literal["fitted", "stated"] = "fitted"
    widening: float = 1.0
    widening_ahead: float = 1.0

    @property
    def typical_day(self) -> float:
        """When the kind opens in general [day number]."""
        return self.usual.day

    def at(self, winter: float | None, summer: float | None = None) -> KindHere:
        """The kind in a climate.

        Parameters
        ----------
        winter : float or None [degC]
            Mean temperature of December to February (south: June to August); None where it is not known.
        summer : float or None [degC]
            The same of June to August.

        Returns
        -------
        KindHere
            Between the climates it is known in; outside them as in the nearest, with levels less sure by
            `ASTRAY_PER_DEGREE` and its like.
        """
        if winter is None or np.isnan(winter):
            return self.usual
        here = _between(self.climates, winter) if self.climates else self.usual
        low, high = self.winters
        milder, colder = max(winter - high - MARGIN_C, 0.0), max(low - MARGIN_C - winter, 0.0)
        cooler = 0.0
        if summer is not None and self.usual.day >= OPENS_LATE:
            cooler = max(COOLEST_SUMMER_C - MARGIN_C - summer, 0.0)
        outside = milder + colder + cooler
        if not outside:
            return here
        by_winter = ASTRAY_PER_DEGREE * milder + ASTRAY_PER_COLDER_DEGREE * colder
        astray = by_winter**2 + (ASTRAY_PER_COOLER_SUMMER * cooler) ** 2
        levels = replace(here.levels, lasting=here.levels.lasting + astray)
        return replace(here, levels=levels, degrees_outside=outside, summer_outside=cooler)


def _between(climates: Sequence[tuple[float, KindHere]], winter: float) -> KindHere:
    """The kind at a winter, each number on the line between the two nearest climates."""
    at = [w for w, _ in climates]

    def number(of: FloatArray) -> float:
        return float(np.interp(winter, at, of))

    def level(name: str) -> float:
        return number(np.array([getattr(here.levels, name) for _, here in climates]))

    def day(name: str) -> float:
        return number(np.array([getattr(here, name) for _, here in climates]))

    return KindHere(
        levels=LevelSpreads(
            middle=level("middle"), lasting=level("lasting"), drifting=level("drifting"),
            chance=level("chance"), drift_years=level("drift_years"),
        ),
        day=day("day"), site_spread=day("site_spread"), year_spread=day("year_spread"),
    )  # fmt: skip
