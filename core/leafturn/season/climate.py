"""A garden's climate in a few words, on which ways of pruning and other work depend."""

from __future__ import annotations

import numpy as np

from leafturn.base.kept import kept
from leafturn.season.axis import LEAD_DAYS
from leafturn.season.ensemble import Ensemble
from leafturn.season.evapotranspiration import extraterrestrial_radiation, hargreaves
from leafturn.season.sun import days_of_year

# Limits in the words of pruning advice. All three are guesses, set between the places whose published windows
# differ: Philadelphia from north Georgia, London from Missouri, California from Oregon (tests/checks).
MILD_WINTER_C = 3.0
WARM_SUMMER_C = 21.0
DRY_SEASON_MM = 60.0
# a summer of monsoon brings so much rain, and so many times that of winter: guesses, between Tokyo and Simla
MONSOON_MM, MONSOON_TIMES = 450.0, 4.0
# guess, between Almaty, where every orchard is watered, and Temuco, where grown ones are not (recalled)
PARCHED_SHARE = 0.3
# guess: olives live on rain alone, planted far apart, where Tunisia has some 200 mm a year (a traveller's
# page, read); on Peru's coast, with hardly any, all but a twentieth of the farmland is watered (a page, read)
RAINLESS_MM = 150.0
EVEN_SEASONS = 6.0  # [degC] under this range of the year's means there is no winter to count from; guess

# Days of the axis.
WINTER = slice(LEAD_DAYS - 31, LEAD_DAYS + 59)  # December to February, south June to August
YEAR = slice(LEAD_DAYS, LEAD_DAYS + 365)
SUMMER = slice(LEAD_DAYS + 151, LEAD_DAYS + 243)  # June to August, south December to February
SPRING = slice(WINTER.stop, SUMMER.start)  # March to May, south September to November
_MIDSUMMER = slice(LEAD_DAYS + 181, LEAD_DAYS + 212)


def cools_below(usual: Ensemble, degrees: float) -> float:
    """Day number, after midsummer, of the first day with a usual mean under so much [degC]; inf: never."""
    means = np.nanmean(usual.tmean, axis=0)[_MIDSUMMER.stop :]
    cold = np.flatnonzero(means < degrees)
    return float(cold[0] + _MIDSUMMER.stop) if len(cold) else np.inf


@kept  # it tells of the climate, and of every kind whether its days can be told
def range_of_months(usual: Ensemble) -> float:
    """How far the usual year's warmest and coldest months lie apart [degC]."""
    means = np.nanmean(usual.tmean, axis=0)
    monthly = means[LEAD_DAYS : LEAD_DAYS + 360].reshape(12, 30).mean(axis=1)
    return float(monthly.max() - monthly.min())


@kept  # ways of pruning, rules and the water in the ground ask it
def climate_words(usual: Ensemble) -> frozenset[str]:
    """The words that hold of a place: winters cold or mild, summers cool or warm, either dry or wet.

    Parameters
    ----------
    usual : Ensemble
        The season as it usually is.

    Notes
    -----
    Winters are mild where December to February has a mean of 3 degC or more, summers warm where July has a
    mean of 21 degC or more. Either is dry where its three months bring less than 60 mm of rain (half a year
    later in the south). A summer, or the spring before it, is parched where its three months bring less than
    0.3 of what low grass would drink (Hargreaves). A summer is drenched, as by monsoon, where they bring 450
    mm or more and four times the rain of winter. Years are rainless where they bring less than 150 mm.
    Seasons are even where the means of the months lie less than 6 degC apart.
    """
    winter = float(np.nanmean(usual.tmean[:, WINTER]))
    summer = float(np.nanmean(usual.tmean[:, _MIDSUMMER]))
    rain, winter_rain, year = (_rain(usual, months) for months in (SUMMER, WINTER, YEAR))
    return frozenset((
        "mild winters" if winter >= MILD_WINTER_C else "cold winters",
        "warm summers" if summer >= WARM_SUMMER_C else "cool summers",
        "dry summers" if rain < DRY_SEASON_MM else "wet summers",
        "parched summers" if _is_parched(usual, SUMMER) else "watered summers",
        "parched springs" if _is_parched(usual, SPRING) else "watered springs",
        "drenched summers" if rain >= max(MONSOON_MM, MONSOON_TIMES * winter_rain) else "moderate summers",
        "dry winters" if winter_rain < DRY_SEASON_MM else "wet winters",
        "rainless years" if year < RAINLESS_MM else "rainy years",
        "even seasons" if range_of_months(usual) < EVEN_SEASONS else "marked seasons",
    ))  # fmt: skip


def _rain(usual: Ensemble, months: slice) -> float:
    """What some months of a usual year bring [mm]."""
    return float(np.nanmean(np.nansum(usual.rain[:, months], axis=1)))


def _is_parched(usual: Ensemble, months: slice) -> bool:
    """Whether some months bring little of what low grass, never short of water, would drink in them."""
    length = months.stop - months.start
    of_year = days_of_year(usual.axis.date(months.start), length)
    radiation = extraterrestrial_radiation(usual.latitude, of_year)
    demand = float(np.nanmean(hargreaves(usual.tmin[:, months], usual.tmax[:, months], radiation))) * length
    return bool(_rain(usual, months) < PARCHED_SHARE * demand)
