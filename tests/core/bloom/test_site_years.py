"""Seasons of a site, their gaps, and days of the year as day numbers."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from tests.samples.invented_sites import ASKED, invented_weather, moved

from leafturn.bloom.priors.response import DAYS, FIRST_DAY
from leafturn.bloom.season_dates import day_before_new_year, season_days, season_of, season_start, typical_day
from leafturn.bloom.site_years import site_years

HERE = invented_weather(50)
NAN = float("nan")


def test_a_season_begins_on_the_first_of_october() -> None:
    season = site_years(HERE).season(ASKED)
    place = (dt.date(ASKED - 1, 10, 1) - HERE.first).days
    assert np.array_equal(season[0], HERE.tmin[place : place + DAYS])
    new_year = (dt.date(ASKED, 1, 1) - HERE.first).days
    assert season[1, 1 - FIRST_DAY] == HERE.tmax[new_year]


@settings(max_examples=25, deadline=None)
@given(day=st.integers(-80, 220))
def test_until_a_day_leaves_that_day_and_nothing_after(day: int) -> None:
    asked = dt.date(ASKED, 1, 1) + dt.timedelta(days=day - 1)
    site = site_years(HERE).until(asked)
    assert site.last_known(ASKED) == day - FIRST_DAY
    row = ASKED - int(site.years[0])
    assert np.isnan(site.temperatures[:, row + 2 :]).all()
    assert site.known(ASKED, day) == 1.0
    assert site.known(ASKED, day + 30) < 1.0


def test_a_gap_is_the_usual_day_moved_by_its_neighbours() -> None:
    first = dt.date(ASKED, 2, 1)
    truth = site_years(moved(HERE, 6.0, first - dt.timedelta(days=9), first + dt.timedelta(days=30)))
    gap = (first + dt.timedelta(days=5), first + dt.timedelta(days=24))
    holed = site_years(
        moved(moved(HERE, 6.0, first - dt.timedelta(days=9), first + dt.timedelta(days=30)), NAN, *gap)
    )
    filled, usual = holed.season(ASKED), holed.usual
    column = (gap[0] - dt.date(ASKED, 1, 1)).days + 1 - FIRST_DAY
    assert np.isfinite(filled).all()
    assert np.array_equal(filled[:, :column], truth.season(ASKED)[:, :column])
    apart = np.abs(filled - usual)[0, column : column + 20]
    assert apart[10] < apart[0]  # the middle of the gap is nearer to the usual
    assert holed.known(ASKED, 70) == pytest.approx(1 - 20 / (70 - FIRST_DAY + 1))


def test_a_season_outside_the_record_is_not_known() -> None:
    site = site_years(HERE)
    assert site.known(1900, 90) == 0.0
    assert site.last_known(1900) == -1
    assert 0.99 < site.covered <= 1.0


def test_hemispheres_are_seen_from_the_warm_months() -> None:
    assert not site_years(HERE).southern
    assert site_years(replace(HERE, first=HERE.first + dt.timedelta(days=182))).southern
    gaps = np.full(400, NAN)
    assert not site_years(replace(HERE, tmin=gaps, tmax=gaps, rain=gaps)).southern


def test_winter_is_the_mean_of_its_three_months() -> None:
    dates = np.datetime64(HERE.first) + np.arange(len(HERE))
    winter = np.isin(dates.astype("datetime64[M]").astype(int) % 12, (11, 0, 1))
    mean = float(((HERE.tmin + HERE.tmax) / 2)[winter].mean())
    assert site_years(HERE).winter == pytest.approx(mean, abs=0.4)


@settings(max_examples=40, deadline=None)
@given(
    year=st.integers(1900, 2100),
    day=st.integers(1, 365),
    typical=st.integers(-60, 260),
    southern=st.booleans(),
)
def test_a_date_belongs_to_one_season_near_the_typical_day(
    year: int, day: int, typical: int, southern: bool
) -> None:
    for season, number in season_days({year: day}, typical, southern).items():
        assert abs(number - typical) <= 183
        date = season_start(season, southern) + dt.timedelta(days=number - 1)
        assert date == dt.date(year, 1, 1) + dt.timedelta(days=day - 1)


def test_late_december_belongs_to_the_spring_that_follows() -> None:
    assert season_days({2010: 360, 2012: 4}, 3.0, False) == {2011: -5, 2012: 4}


def test_the_south_after_new_year_belongs_to_the_season_before() -> None:
    """1 January is day 185 of a season that began on 1 July."""
    assert day_before_new_year(2010, 2011, True) == 184
    assert season_days({2011: 10}, 200.0, True) == {2010: 194}
    assert season_of(2011, 200.0, True) == 2010
    assert season_of(2011, 90.0, True) == 2011
    assert season_of(2011, 200.0, False) == 2011


def test_the_typical_day_goes_round_the_turn_of_the_year() -> None:
    dates = {"a": {2000: 362, 2001: 3}, "b": {2000: 1, 2001: 364}, "c": {}}
    assert typical_day(dates, dict.fromkeys("abc", False)) == pytest.approx(0, abs=2)
    assert typical_day({"a": {2000: 250}}, {"a": False}) == pytest.approx(250, abs=1)
