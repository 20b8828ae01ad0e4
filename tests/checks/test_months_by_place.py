"""Months of the year that is guessed from the place alone, against monthly normals of orchards' stations.

The normals are those of published_dates.toml, which names where each comes from; the program is told
latitude, longitude and height and no more. Towns that also tell their usual freezes are those of
test_freeze_dates_of_towns.py, which names their sources. How the year turns between its seasons was
learnt from the stations among others: that it is told from the others is tried in test_place_climate.py.
"""

from __future__ import annotations

import tomllib

import numpy as np
from tests.checks.published_dates import TABLE
from tests.checks.test_freeze_dates_of_towns import EASTERN, TOWNS

from leafturn.base.arrays import FloatArray
from leafturn.weather.calendar import MONTH_OF_DAY, month_day_place
from leafturn.weather.normals.rough_year import rough_year

FREEZING_F = 32.0
MEAN_OFF, NIGHT_OFF = 0.95, 1.2  # [degC] of each month, root of the mean square
BIAS = 0.6  # [degC] of each month, over all stations
DATED_OFF, DATED_BIAS = 0.85, 0.3  # [degC] of all months of the towns whose freezes are told


def test_months_by_the_place_alone_are_as_warm_as_stations_have_them() -> None:
    """Through four seasons alone March was told 0.5 degC too cold, June 0.9 and December 0.8 too warm."""
    with TABLE.open("rb") as source:
        stations = tomllib.load(source)["station"].values()
    means, nights = [], []
    for station in stations:
        if not (months := _months(station)):
            continue
        high, low = months
        year = rough_year(station["lat"], station["lon"], station["height_m"], None, None)
        turn = -6 if station["lat"] < 0 else 0
        means.append(np.roll(_by_month((year.tmin + year.tmax) / 2) - (high + low) / 2, turn))
        nights.append(np.roll(_by_month(year.tmin) - low, turn))
    assert len(means) >= 45
    for off, most in ((means, MEAN_OFF), (nights, NIGHT_OFF)):
        assert np.sqrt(np.mean(np.square(off), axis=0)).max() <= most
        assert np.abs(np.mean(off, axis=0)).max() <= BIAS


def test_months_are_no_further_off_where_the_usual_freezes_are_told_too() -> None:
    """While freezes set one wave through the year, months were off by 1.5 degC, by place alone by 0.9."""
    off = []
    for town in (*TOWNS.values(), *EASTERN.values()):
        if town.first:
            frosts = (month_day_place(town.last), month_day_place(town.first))
            year = rough_year(town.lat, town.lon, None, *frosts)
            high, low = _months(town._asdict())
            off.append(_by_month((year.tmin + year.tmax) / 2) - (high + low) / 2)
    assert len(off) >= 18
    assert np.sqrt(np.mean(np.square(off))) <= DATED_OFF
    assert abs(np.mean(off)) <= DATED_BIAS


def _months(station: dict) -> tuple[FloatArray, FloatArray] | None:
    """Monthly maxima and minima [degC], January first."""
    if "tmax_c" in station:
        return np.array(station["tmax_c"]), np.array(station["tmin_c"])
    if "tmax_f" in station:
        return (np.array(station["tmax_f"]) - FREEZING_F) / 1.8, (
            np.array(station["tmin_f"]) - FREEZING_F
        ) / 1.8
    return None


def _by_month(year: FloatArray) -> FloatArray:
    return np.bincount(MONTH_OF_DAY, weights=year) / np.bincount(MONTH_OF_DAY)
