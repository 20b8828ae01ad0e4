"""Made-up years round the normals, for gardens with too few years of their own.

The weather's departure from normal is one random wave for minimum and maximum together: each day keeps
a share of the day before's departure (an autoregressive process of the first order). The draws are the
same every time, so the same garden gets the same answer; on every day of the year they have exactly
the mean and the spread that the normals give.

References
----------
.. [1] Richardson, C. W. (1981). Stochastic simulation of daily precipitation, temperature, and solar
   radiation. Water Resour. Res. 17: 182-190 (wet days drawn first, exponential amounts, first-order
   autoregressive temperatures; here wet days are drawn independently and do not cool the day).
"""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

import numpy as np

from leafturn.base.arrays import FloatArray
from leafturn.weather.calendar import LEAP_YEAR_DAYS, MONTH_OF_DAY
from leafturn.weather.normals.normals import Normals

SEED = 1809
FULL_SET = 40  # years whose draws are balanced together


class GeneratedYears(NamedTuple):
    """Daily weather of whole leap years: tmin, tmax [degC], rain [mm], each (years, 366)."""

    tmin: FloatArray
    tmax: FloatArray
    rain: FloatArray


@lru_cache(maxsize=8)
def departures(years: int, persistence: float) -> FloatArray:
    """Departures from normal in units of the daily spread, (years, 366).

    Each day's departures have mean 0 and standard deviation 1 over a full set of forty years. The year
    closes on itself, so that 31 December leads over to 1 January.

    Parameters
    ----------
    years : int
        How many.
    persistence : float
        The share of a day's departure that the next day keeps, 0 to under 1.
    """
    draws = np.random.default_rng(SEED).standard_normal((max(years, FULL_SET), LEAP_YEAR_DAYS))
    turn = np.exp(-2j * np.pi * np.fft.rfftfreq(LEAP_YEAR_DAYS))
    waves = np.fft.irfft(np.fft.rfft(draws, axis=1) / (1 - persistence * turn), LEAP_YEAR_DAYS, axis=1)
    balanced = np.asarray((waves - waves.mean(axis=0)) / waves.std(axis=0))[:years]
    balanced.flags.writeable = False
    return balanced


def generated_years(normals: Normals, years: int) -> GeneratedYears:
    """Years that might have been.

    Parameters
    ----------
    normals : Normals
        What they are made round.
    years : int
        How many.

    Returns
    -------
    GeneratedYears
        The same every time for the same normals.
    """
    departure = normals.spread * departures(years, normals.persistence)
    tmin = normals.tmin + normals.night_shift + departure
    tmax = normals.tmax - normals.night_shift + departure
    for night in normals.moved_nights:
        if night.year < years:
            tmin[night.year, night.place] += night.celsius
            tmax[night.year, night.place] -= night.celsius
    return GeneratedYears(tmin=tmin, tmax=tmax, rain=_rain(normals, years))


def _rain(normals: Normals, years: int) -> FloatArray:
    """Rain on a share of the days, in exponential amounts, with the normals' total for each month."""
    draws = np.random.default_rng(SEED + 1).random((max(years, FULL_SET), LEAP_YEAR_DAYS))
    amounts = normals.rain * np.maximum(-np.log(draws / normals.wet_share), 0.0)
    made = np.bincount(MONTH_OF_DAY, weights=amounts.mean(axis=0), minlength=12)
    wanted = np.bincount(MONTH_OF_DAY, weights=normals.rain, minlength=12)
    factor = np.divide(wanted, made, out=np.zeros(12), where=made > 0)
    return np.asarray(amounts[:years] * factor[MONTH_OF_DAY])
