"""The warming trend used to bring old years up to date."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from leafturn.garden.model import Place
from leafturn.season.trend import USUAL_PER_YEAR, USUAL_STANDARD_ERROR, warming_of
from leafturn.weather.normals.normal_year import normal_year
from leafturn.weather.record import DailyRecord

PLACE = Place(lat=46.9, lon=15.9)
FIRST = dt.date(1991, 1, 1)


def record(years: int, per_year: float, sd: float, seed: int = 1) -> DailyRecord:
    """A sine year with yearly departures of a known trend and scatter."""
    days = round(365.25 * years)
    day = np.arange(days)
    yearly = np.random.default_rng(seed).normal(0, sd, years + 1)[day // 366]
    mean = 10 - 10 * np.cos(2 * np.pi * (day - 20) / 365.25) + per_year * day / 365.25 + yearly
    return DailyRecord(first=FIRST, tmin=mean - 5, tmax=mean + 5, rain=np.zeros(days))


def test_a_long_quiet_record_speaks_for_itself() -> None:
    found = warming_of(record(40, 0.06, 0.05), normal_year(PLACE, None, record(40, 0.06, 0.05)))
    assert found.years >= 38
    assert found.per_year == pytest.approx(0.06, abs=0.006)


def test_a_short_record_leans_on_the_usual_warming() -> None:
    short = record(4, 0.5, 0.5)
    found = warming_of(short, normal_year(PLACE, None, short))
    assert (found.per_year, found.standard_error) == (USUAL_PER_YEAR, USUAL_STANDARD_ERROR)
    assert warming_of(None, normal_year(PLACE, None, None)).years == 0


@given(st.floats(-0.1, 0.15), st.floats(0.2, 1.2), st.integers(0, 50))
@settings(max_examples=20, deadline=None)
def test_doubt_never_grows_by_looking(per_year: float, sd: float, seed: int) -> None:
    seen = record(20, per_year, sd, seed)
    found = warming_of(seen, normal_year(PLACE, None, seen))
    assert 0 < found.standard_error <= USUAL_STANDARD_ERROR
    assert abs(found.per_year - USUAL_PER_YEAR) < 0.2
