"""Setting aside daily values that cannot be true, and saying so.

The rules are those of the automated checks of the GHCN-Daily archive (Durre et al. 2010) that need no
neighbouring station, in the archive's order: bounds, climatological outlier, internal consistency,
spike or dip. Their names and the six standard deviations are from the archive's published list of checks;
the 25 degC of the spike check, the hundred values an outlier check needs and the biweight estimators are
from memory of the paper.

References
----------
.. [1] Durre, I. et al. (2010). Comprehensive automated quality assurance of daily surface observations.
   J. Appl. Meteorol. Climatol. 49: 1615-1633.
.. [2] Lanzante, J. R. (1996). Resistant, robust and non-parametric techniques for the analysis of
   climate data. Int. J. Climatol. 16: 1197-1226 (the biweight mean and standard deviation).
"""

from __future__ import annotations

import datetime as dt

import numpy as np
from msgspec.structs import replace

from leafturn.base import quantities
from leafturn.base.arrays import BoolArray, FloatArray
from leafturn.base.bounds import COLDEST_AIR_C, HOTTEST_AIR_C
from leafturn.weather.calendar import LEAP_YEAR_DAYS, day_of_leap_year
from leafturn.weather.record import DailyRecord

WETTEST = 1825.0  # the world's wettest day [mm], Foc-Foc 1966 (WMO archive)
OUTLIER_DEVIATIONS = 6.0
OUTLIER_WINDOW_DAYS = 15
OUTLIER_LEAST_VALUES = 100
OUTLIER_LEAST_DEVIATION = 2.0  # ours: in very even weather an ordinary cold snap is no outlier
WINDOW_STEP = 5  # the climate is taken every fifth day: it changes little between, and this costs a fifth
SPIKE = 25.0  # [degC] from both the day before and the day after
NAMED_DAYS = 3  # days named in a sentence; the rest are counted


def check(record: DailyRecord) -> DailyRecord:
    """The record with impossible values made gaps, and a plain sentence for each rule that found any.

    Parameters
    ----------
    record : DailyRecord
        As read.

    Returns
    -------
    DailyRecord
        The same days; values set aside are NaN; `notes` has grown by what was set aside and why.
    """
    tmin, tmax, rain = record.tmin.copy(), record.tmax.copy(), record.rain.copy()
    notes: list[str] = []

    def set_aside(values: FloatArray, wrong: BoolArray, what: str, why: str) -> None:
        if wrong.any():
            notes.append(_sentence(record.first, values, wrong, what, why))
            values[wrong] = np.nan

    with np.errstate(invalid="ignore"):
        for values, what in ((tmin, "minimum"), (tmax, "maximum")):
            wrong = (values < COLDEST_AIR_C) | (values > HOTTEST_AIR_C)
            set_aside(values, wrong, what, "no place on earth has been so cold or so hot")
        set_aside(rain, (rain < 0) | (rain > WETTEST), "rain", "no day has had such rain")
        for values, what in ((tmin, "minimum"), (tmax, "maximum")):
            wrong = _outliers(record.first, values)
            set_aside(values, wrong, what, "over six standard deviations from the time of year")
        crossed = tmin > tmax
        set_aside(tmax, crossed, "maximum", "lower than the day's minimum, so both were left out")
        tmin[crossed] = np.nan
        for values, what in ((tmin, "minimum"), (tmax, "maximum")):
            set_aside(
                values,
                _spikes(values),
                what,
                f"{quantities.degrees(SPIKE, 0)} off both the day before and the day after",
            )
    if not notes:
        return record
    return replace(record, tmin=tmin, tmax=tmax, rain=rain, notes=(*record.notes, *notes))


def _sentence(first: dt.date, values: FloatArray, wrong: BoolArray, what: str, why: str) -> str:
    """What was set aside, in one sentence that names the first days."""
    days = np.flatnonzero(wrong)
    say = quantities.millimetres if what == "rain" else quantities.celsius
    named = [f"{first + dt.timedelta(days=int(day))} ({say(values[day], 1)})" for day in days[:NAMED_DAYS]]
    more = len(days) - len(named)
    which = " and ".join([", ".join(named)] + ([f"{more} more days"] if more else []))
    verb = "was" if len(days) == 1 else "were"
    return f"The {what} of {which} {verb} set aside as wrong: {why}."


def _outliers(first: dt.date, values: FloatArray) -> BoolArray:
    """Values more than six standard deviations from the mean of the 15 days round their day of the year."""
    place = day_of_leap_year(first, len(values))
    year = np.cumsum((place == 0) & (np.arange(len(values)) > 0))
    by_year = np.full((int(year[-1]) + 1, LEAP_YEAR_DAYS), np.nan)
    by_year[year, place] = values
    middles = np.arange(0, LEAP_YEAR_DAYS, WINDOW_STEP)
    reach = OUTLIER_WINDOW_DAYS // 2
    window = (middles[:, None] + np.arange(-reach, reach + 1)) % LEAP_YEAR_DAYS
    # 31 December's window reaches into January of the same year: near enough for the climate of a day
    pools = by_year[:, window].transpose(1, 0, 2).reshape(len(middles), -1)
    mean, deviation = _biweight(pools)
    nearest = (place + WINDOW_STEP // 2) // WINDOW_STEP % len(middles)
    return np.abs(values - mean[nearest]) > OUTLIER_DEVIATIONS * deviation[nearest]


def _biweight(pools: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Biweight mean and standard deviation of each row; NaN where a row has too few values."""
    median = _row_medians(pools)
    off = pools - median[:, None]
    scale = 7.5 * np.maximum(_row_medians(np.abs(off)), 1e-6)
    u2 = np.minimum((off / scale[:, None]) ** 2, 1.0)
    known = ~np.isnan(pools)
    off, u2 = np.where(known, off, 0.0), np.where(known, u2, 1.0)
    weight = (1 - u2) ** 2
    mean = median + (off * weight).sum(1) / np.maximum(weight.sum(1), 1e-12)
    count = known.sum(1)
    spread = np.sqrt(count * (off**2 * weight**2).sum(1))
    spread /= np.maximum(np.abs(((1 - u2) * (1 - 5 * u2)).sum(1)), 1e-12)
    enough = count >= OUTLIER_LEAST_VALUES
    deviation = np.maximum(spread, OUTLIER_LEAST_DEVIATION)
    return np.where(enough, mean, np.nan), np.where(enough, deviation, np.nan)


def _row_medians(rows: FloatArray) -> FloatArray:
    """Median of each row's numbers; NaN for a row without any."""
    ordered = np.sort(rows, axis=1)  # NaN sorts last
    count = (~np.isnan(rows)).sum(1)[:, None]
    last = rows.shape[1] - 1
    middle = np.concatenate([np.maximum(count - 1, 0) // 2, np.minimum(count // 2, last)], axis=1)
    return np.asarray(np.take_along_axis(ordered, middle, axis=1).mean(axis=1))


def _spikes(values: FloatArray) -> BoolArray:
    """Days that stand 25 degC or more off both neighbours, to the same side."""
    wrong = np.zeros(len(values), dtype=bool)
    before, after = values[1:-1] - values[:-2], values[1:-1] - values[2:]
    wrong[1:-1] = (np.minimum(before, after) >= SPIKE) | (np.maximum(before, after) <= -SPIKE)
    return wrong
