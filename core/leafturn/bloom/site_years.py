"""The weather of one site cut into seasons, each from the autumn before it to late summer."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from functools import cached_property

import numpy as np
from msgspec.structs import replace

from leafturn.base.arrays import FloatArray, IndexArray
from leafturn.base.kept import kept
from leafturn.base.value import Value
from leafturn.bloom.priors.response import DAYS, FIRST_DAY, WINTER
from leafturn.bloom.season_dates import season_start
from leafturn.weather.record import DailyRecord

SMOOTHED_OVER = 15  # days that make up the usual temperature of a day
DEPARTURE_FADES = 5.0  # [d] how far into a gap the departure of the days beside it reaches; guess
ENOUGH = 0.9  # share of days that must be known


class SiteYears(Value, eq=False):
    """Seasons of one site.

    Parameters
    ----------
    southern : bool
        Whether seasons start on 1 July.
    years : (seasons,)
        Calendar year of each season's start, consecutive.
    temperatures : (2, seasons, DAYS) [degC]
        Minimum and maximum, NaN where not known; the first column is day number FIRST_DAY.
    """

    southern: bool
    years: IndexArray
    temperatures: FloatArray

    def start(self, year: int) -> dt.date:
        """The date of day number 1."""
        return season_start(year, self.southern)

    def until(self, day: dt.date) -> SiteYears:
        """The same seasons with nothing known after a day."""
        values = self.temperatures.copy()
        for row, year in enumerate(self.years):
            after = (day - self.start(int(year))).days + 2 - FIRST_DAY
            values[:, row, max(after, 0) :] = np.nan
        return replace(self, temperatures=values)

    def known(self, year: int, last_day: float) -> float:
        """Share of days known of a season up to a day number; 0 for a season outside the record."""
        row = year - int(self.years[0])
        if not 0 <= row < len(self.years):
            return 0.0
        until = min(max(round(last_day) - FIRST_DAY + 1, 1), DAYS)
        return float(1 - np.isnan(self.temperatures[:, row, :until]).any(axis=0).mean())

    def season(self, year: int) -> FloatArray:
        """One season with its gaps filled, (2, DAYS): the usual day, moved as the days beside the gap are."""
        row = year - int(self.years[0])
        values = self.temperatures[:, row]
        if not np.isnan(values).any():
            return values
        return np.stack([_filled(v, usual) for v, usual in zip(values, self.usual, strict=True)])

    def last_known(self, year: int) -> int:
        """Column of the last day of a season of which anything is known; -1 if there is none."""
        row = year - int(self.years[0])
        if not 0 <= row < len(self.years):
            return -1
        return int(np.flatnonzero(~np.isnan(self.temperatures[:, row]).all(axis=0)).max(initial=-1))

    @property
    def winter(self) -> float:
        """Mean temperature of the usual December to February, south June to August [degC]."""
        return float(self.usual[:, WINTER].mean())

    @cached_property
    def usual(self) -> FloatArray:
        """Usual minimum and maximum of each day, (2, DAYS) [degC]; NaN if nothing is known."""
        known = ~np.isnan(self.temperatures)
        total = np.where(known, self.temperatures, 0.0).sum(axis=1)
        count = known.sum(axis=1).astype(float)
        window = np.ones(SMOOTHED_OVER)
        sums = np.stack([np.convolve(row, window, "same") for row in total])
        counts = np.stack([np.convolve(row, window, "same") for row in count])
        smooth = np.where(counts > 0.5, sums / np.maximum(counts, 0.5), np.nan)
        return np.stack([_interpolated(row) for row in smooth])

    @cached_property
    def covered(self) -> float:
        """Share of a season's days of which some year is known."""
        return float((~np.isnan(self.temperatures)).any(axis=1).all(axis=0).mean())


@kept
def site_years(record: DailyRecord, southern: bool | None = None) -> SiteYears:
    """Cut a record into seasons.

    Parameters
    ----------
    record : DailyRecord
    southern : bool or None
        Whether its site lies south of the equator; seen from its warm months if not given.
    """
    southern = _southern(record) if southern is None else southern
    first, last = record.first.year - 1, record.last.year + 1
    years = np.arange(first, last + 1)
    both = np.stack([record.tmin, record.tmax])
    padded = np.pad(both, ((0, 0), (DAYS, DAYS)), constant_values=np.nan)
    values = np.full((2, len(years), DAYS), np.nan)
    for row, year in enumerate(years):
        begin = (season_start(int(year), southern) - record.first).days + FIRST_DAY - 1 + DAYS
        if 0 <= begin <= padded.shape[1] - DAYS:
            values[:, row] = padded[:, begin : begin + DAYS]
    return SiteYears(southern=southern, years=years, temperatures=values)


def _southern(record: DailyRecord) -> bool:
    """Whether December to February is warmer than June to August."""
    dates = record.days
    month = dates.astype("datetime64[M]").astype(int) % 12
    mean = (record.tmin + record.tmax) / 2
    winter, summer = (mean[np.isin(month, months) & ~np.isnan(mean)] for months in ((11, 0, 1), (5, 6, 7)))
    return bool(len(winter) and len(summer) and winter.mean() > summer.mean())


def _filled(values: FloatArray, usual: FloatArray) -> FloatArray:
    """Values with gaps filled: the usual day plus what is left of the departure beside the gap."""
    days = np.arange(len(values))
    known = days[~np.isnan(values)]
    if not len(known):
        return usual
    departure = np.interp(days, known, values[known] - usual[known])
    after = np.clip(np.searchsorted(known, days), 0, len(known) - 1)
    distance = np.minimum(np.abs(days - known[after]), np.abs(days - known[np.maximum(after - 1, 0)]))
    return np.where(np.isnan(values), usual + departure * np.exp(-distance / DEPARTURE_FADES), values)


def _interpolated(values: FloatArray) -> FloatArray:
    """Values with those lacking drawn straight between their neighbours."""
    days, lacking = np.arange(len(values)), np.isnan(values)
    return values if lacking.all() else np.interp(days, days[~lacking], values[~lacking])


def stacked(site: SiteYears, years: Sequence[int]) -> tuple[FloatArray, FloatArray]:
    """Minima and maxima of some seasons, gaps filled, each (seasons, DAYS)."""
    filled = [site.season(year) for year in years]
    return np.stack([f[0] for f in filled]), np.stack([f[1] for f in filled])
