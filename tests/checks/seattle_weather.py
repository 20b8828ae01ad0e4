"""Four years of real weather: Seattle 2012 to 2015, from the package vega-datasets (NOAA, public domain)."""

from __future__ import annotations

import numpy as np
from tests.samples.packaged_tables import rows_of


def seattle():
    """Dates, daily minima and maxima [degC], rain [mm]."""
    rows = list(rows_of("seattle-weather.csv"))
    dates = np.array([row["date"].replace("/", "-") for row in rows], dtype="datetime64[D]")
    tmin, tmax, rain = (
        np.array([float(row[column]) for row in rows]) for column in ("temp_min", "temp_max", "precipitation")
    )
    return dates, tmin, tmax, rain


def year_of(dates):
    """The calendar year of each date."""
    return dates.astype("datetime64[Y]").astype(int) + 1970
