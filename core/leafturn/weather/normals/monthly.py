"""Smooth years: from twelve monthly values, or from the days of a record."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

import numpy as np

from leafturn.base.arrays import FloatArray, IndexArray
from leafturn.weather.calendar import LEAP_YEAR_DAYS, MONTH_LENGTHS, MONTH_OF_DAY

HARMONICS = 24  # waves a year: more than twelve values can tell apart, so that only smoothness decides


def waves(harmonics: int) -> FloatArray:
    """A constant and `harmonics` pairs of waves over the year, (366, 1 + 2 harmonics)."""
    angle = 2 * np.pi * (np.arange(LEAP_YEAR_DAYS) + 0.5) / LEAP_YEAR_DAYS
    pairs = [wave(k * angle) for k in range(1, harmonics + 1) for wave in (np.cos, np.sin)]
    return np.stack([np.ones(LEAP_YEAR_DAYS), *pairs], axis=1)


@lru_cache(maxsize=1)
def _from_months() -> FloatArray:
    """What turns twelve monthly means into 366 days, (366, 12)."""
    means = np.zeros((12, LEAP_YEAR_DAYS))
    means[MONTH_OF_DAY, np.arange(LEAP_YEAR_DAYS)] = 1 / np.array(MONTH_LENGTHS)[MONTH_OF_DAY]
    of_year = np.array(MONTH_LENGTHS) / LEAP_YEAR_DAYS
    basis = waves(HARMONICS)
    # bending grows with the fourth power of the wave number; the year's mean is set aside first
    ease = np.concatenate([[1.0], np.repeat(np.arange(1, HARMONICS + 1.0), 2) ** -4])[:, None]
    monthly = means @ basis
    to_waves = ease * monthly.T @ np.linalg.inv(monthly @ (ease * monthly.T))
    return np.asarray(basis @ to_waves @ (np.eye(12) - of_year) + of_year)


def year_from_months(means: Sequence[float]) -> FloatArray:
    """The smoothest year whose monthly means are exactly those given.

    A curve drawn through the middles of the months would miss their means, most where the year turns.

    Parameters
    ----------
    means : twelve floats
        Monthly means of a daily quantity, January first.

    Returns
    -------
    (366,) array
        One value a day, 29 February included.

    Notes
    -----
    Waves fitted to monthly means after Epstein, E. S. (1991), On obtaining daily climatological values
    from monthly means, J. Climate 4: 365-368. He takes as many waves as there are months; here of all
    years with these means the one of least bending is taken, and February has 29 days.
    """
    return np.asarray(_from_months() @ np.asarray(means, dtype=float))


def year_from_days(places: IndexArray, values: FloatArray, harmonics: int) -> FloatArray:
    """The year of `harmonics` waves nearest to daily values (least squares), gaps left out.

    Parameters
    ----------
    places : (days,)
        Place of each day in a leap year.
    values : (days,)
        Daily values, NaN for gaps.
    harmonics : int
        How many waves.

    Returns
    -------
    (366,) array
    """
    known = ~np.isnan(values)
    count = np.bincount(places[known], minlength=LEAP_YEAR_DAYS).astype(float)
    total = np.bincount(places[known], weights=values[known], minlength=LEAP_YEAR_DAYS)
    basis = waves(harmonics)
    # 366 sums carry all that thousands of days say about the waves
    fitted = np.linalg.lstsq(basis.T @ (count[:, None] * basis), basis.T @ total, rcond=None)[0]
    return np.asarray(basis @ fitted)
