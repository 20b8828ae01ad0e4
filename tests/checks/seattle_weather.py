"""Four years of real weather: Seattle 2012 to 2015, from the package vega-datasets (NOAA, public domain)."""

from __future__ import annotations

import csv
from importlib import resources

import numpy as np


def seattle():
    """Dates, daily minima and maxima [degC], rain [mm]; read from the file, since its reader wants pandas."""
    packaged = resources.files("vega_datasets") / "_data" / "seattle-weather.csv"
    with packaged.open(encoding="utf-8", newline="") as source:
        rows = list(csv.DictReader(source))
    dates = np.array([row["date"].replace("/", "-") for row in rows], dtype="datetime64[D]")
    tmin, tmax, rain = (
        np.array([float(row[column]) for row in rows]) for column in ("temp_min", "temp_max", "precipitation")
    )
    return dates, tmin, tmax, rain


def year_of(dates):
    """The calendar year of each date."""
    return dates.astype("datetime64[Y]").astype(int) + 1970
