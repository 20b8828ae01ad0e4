"""Building the ensemble of years: observed to date, then past years or made-up ones from there on."""

from __future__ import annotations

import datetime as dt

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view
from numpy.typing import NDArray

from leafturn.base.arrays import BoolArray, FloatArray
from leafturn.base.value import Value
from leafturn.season.axis import AXIS_DAYS, LEAD_DAYS, SeasonAxis
from leafturn.season.ensemble import AUTUMN_DAYS, Ensemble, MembersFrom
from leafturn.weather.calendar import day_of_leap_year
from leafturn.weather.normals.normals import Normals
from leafturn.weather.record import DailyRecord
from leafturn.weather.synthetic.year_generator import FULL_SET, generated_years

FEWEST_OWN_YEARS = 8  # below it made-up years are added; rule of thumb: with eight, one in ten can be told
MOST_OWN_YEARS = 30  # the latest; the climate before them was another. Thirty years make a normal (WMO)
MAIN_DAYS = slice(AUTUMN_DAYS + LEAD_DAYS, AUTUMN_DAYS + LEAD_DAYS + 365)  # the season's own twelve months
WINDOW_DAYS = AUTUMN_DAYS + AXIS_DAYS  # an axis with the autumn before it
ENOUGH = 0.9  # share of those days that must be known of a past season


def build_ensemble(
    axis: SeasonAxis,
    record: DailyRecord | None,
    normals: Normals,
    on: dt.date,
    warming: float = 0.0,
    latitude: float = 45.0,
) -> Ensemble:
    """The season in as many members as there are usable past years; beside fewer than eight stand made-up
    ones, up to a full set of forty.

    Parameters
    ----------
    axis : SeasonAxis
        The season wanted.
    record : DailyRecord or None
        The garden's own weather. Nothing after `on` is used.
    normals : Normals
        Fill gaps, and made-up years are made round them.
    on : date
        The day up to which weather counts as observed.
    warming : float [degC a year]
        Added to each past year for every year between it and the season, so that old years are not late.
    latitude : float [deg]
        Of the garden.

    Returns
    -------
    Ensemble
        Members are past seasons, oldest first, then made-up years.

    Notes
    -----
    A past season is used if its axis ended by `on`, it is not the season itself, and nine in ten of the
    days of its twelve months are known; at most the latest thirty. Years are laid on each other by day
    number, so after February a leap year stands one day off.

    Every day not known keeps each member's own day, also those before `on`: so heat counted over a gap is
    right on average and the uncertainty about it stays in the spread. Gaps in past years are filled with the
    days of a made-up year. Where one of minimum and maximum is known, the other lies its normal range
    away.
    """
    known = _Known.of(record, normals, on)
    begins = axis.first - dt.timedelta(days=AUTUMN_DAYS)
    past, years = known.past_seasons(axis)
    past[:2] += warming * (axis.year - years)[:, None]
    own = past.shape[1]
    extra = max(FULL_SET - own, 0) if own < FEWEST_OWN_YEARS else 0
    members = _with_made_up(past, normals, own + extra, begins)
    observed = known.window(begins)
    members = np.where(np.isnan(observed)[:, None], members, observed[:, None])
    autumn, members = members[:2, :, :AUTUMN_DAYS], members[:, :, AUTUMN_DAYS:]
    today = min(axis.day(on), AXIS_DAYS - 1)
    return Ensemble(
        axis=axis, tmin=members[0], tmax=members[1], rain=members[2], observed_to=today,
        made_of=MembersFrom(own_years=own, made_up=extra > 0, normals=normals.basis), autumn=autumn,
        filled=known.filled(begins, today), latitude=latitude,
    )  # fmt: skip


def _with_made_up(past: FloatArray, normals: Normals, count: int, begins: dt.date) -> FloatArray:
    """Past seasons with their gaps filled, then made-up ones up to so many, (3, count, WINDOW_DAYS)."""
    places = day_of_leap_year(begins, WINDOW_DAYS)
    members = np.stack([quantity[:, places] for quantity in generated_years(normals, count)])
    own = past.shape[1]
    members[:, :own] = np.where(np.isnan(past), members[:, :own], past)
    return members


class _Known(Value, eq=False):
    """What is known of the weather up to a day.

    Parameters
    ----------
    first, until : date
        The day of index 0, and the day up to which weather may be known.
    values : (3, days)
        Minimum, maximum [degC] and rain [mm]; NaN where not known.
    measured : (days,)
        Whether minimum and maximum were both measured.
    """

    first: dt.date
    until: dt.date
    values: FloatArray
    measured: BoolArray

    @classmethod
    def of(cls, record: DailyRecord | None, normals: Normals, on: dt.date) -> _Known:
        """The record up to `on`; one temperature of a day gives the other by their normal range."""
        if record is None or record.first > on:
            return cls(first=on, until=on, values=np.empty((3, 0)), measured=np.empty(0, dtype=bool))
        days = min((on - record.first).days + 1, len(record))
        tmin, tmax, rain = record.tmin[:days], record.tmax[:days], record.rain[:days]
        apart = (normals.tmax - normals.tmin)[day_of_leap_year(record.first, days)]
        low = np.where(np.isnan(tmin), tmax - apart, tmin)
        high = np.where(np.isnan(tmax), tmin + apart, tmax)
        measured = ~np.isnan(tmin + tmax)
        return cls(first=record.first, until=on, values=np.stack([low, high, rain]), measured=measured)

    def window(self, first: dt.date) -> FloatArray:
        """The values of WINDOW_DAYS from a day on, (3, days)."""
        return self._windows(self.values, [first])[:, 0]

    def measured_window(self, first: dt.date) -> BoolArray:
        """Which of WINDOW_DAYS were measured, (days,)."""
        return np.asarray(self._windows(self.measured[None].astype(float), [first])[0, 0] == 1)

    def filled(self, begins: dt.date, today: int) -> int:
        """Days since the season's start up to a day number that were not measured."""
        measured = self.measured_window(begins)[AUTUMN_DAYS:]
        return int(np.count_nonzero(~measured[LEAD_DAYS : max(today + 1, LEAD_DAYS)]))

    def past_seasons(self, axis: SeasonAxis) -> tuple[FloatArray, NDArray[np.int64]]:
        """The latest usable seasons that are over, (3, seasons, WINDOW_DAYS), and their years."""
        span = range(max(self.first.year, 2), self.until.year + 1)
        seasons = [SeasonAxis(year, axis.southern) for year in span if year != axis.year]
        over = [season for season in seasons if season.day(self.until) >= AXIS_DAYS - 1]
        firsts = [season.first - dt.timedelta(days=AUTUMN_DAYS) for season in over]
        known = self._windows(self.measured[None].astype(float), firsts)[0, :, MAIN_DAYS]
        usable = np.flatnonzero(np.nan_to_num(known).mean(axis=1) >= ENOUGH)[-MOST_OWN_YEARS:]
        years = np.array([over[i].year for i in usable], dtype=np.int64)
        return self._windows(self.values, [firsts[i] for i in usable]), years

    def _windows(self, rows: FloatArray, firsts: list[dt.date]) -> FloatArray:
        """Windows of WINDOW_DAYS from the dates given on, NaN outside the record: (rows, dates, days)."""
        beyond = ((0, 0), (WINDOW_DAYS, WINDOW_DAYS))
        windows = sliding_window_view(np.pad(rows, beyond, constant_values=np.nan), WINDOW_DAYS, axis=1)
        offsets = [min(max((day - self.first).days + WINDOW_DAYS, 0), windows.shape[1] - 1) for day in firsts]
        return np.asarray(windows[:, offsets])
