"""The ensemble: observed to date, then past years, then made-up ones."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from leafturn.garden.model import Climate, FrostDate, Place
from leafturn.season.axis import AXIS_DAYS, SeasonAxis
from leafturn.season.years import FEWEST_OWN_YEARS, MOST_OWN_YEARS, build_ensemble
from leafturn.weather.normals.normal_year import normal_year
from leafturn.weather.record import DailyRecord

PLACE = Place(lat=46.9, lon=15.9)
SOUTH = Place(lat=-36.0, lon=148.0)
FROSTS = Climate(last_frost=FrostDate(usual="04-24"), first_frost=FrostDate(usual="10-16"))
NORMALS = normal_year(PLACE, FROSTS)


def record(first, last, gaps=()):
    """Every day's minimum tells its own date: days since 2000; maximum 10 above, rain a thousandth."""
    days = np.arange((last - first).days + 1) + float((first - dt.date(2000, 1, 1)).days)
    tmin = days.copy()
    for day in gaps:
        tmin[(day - first).days] = np.nan
    return DailyRecord(first=first, tmin=tmin, tmax=days + 10, rain=days / 1000)


def number(day):
    return float((day - dt.date(2000, 1, 1)).days)


def days_between(first, last):
    return [first + dt.timedelta(days=i) for i in range((last - first).days + 1)]


TWENTY = record(dt.date(2000, 1, 1), dt.date(2022, 4, 19))
ON = dt.date(2022, 4, 19)
AXIS = SeasonAxis(2022)


def test_observed_days_are_the_same_in_every_member():
    ensemble = build_ensemble(AXIS, TWENTY, NORMALS, ON)
    assert ensemble.observed_to == AXIS.day(ON)
    assert ensemble.filled == 0
    observed = np.arange(ensemble.observed_to + 1) + number(AXIS.first)
    np.testing.assert_array_equal(ensemble.tmin[:, : ensemble.observed_to + 1] - observed, 0)
    np.testing.assert_array_equal(ensemble.tmax[:, : ensemble.observed_to + 1] - 10 - observed, 0)
    np.testing.assert_allclose(ensemble.rain[:, : ensemble.observed_to + 1] * 1000 - observed, 0, atol=1e-9)


def test_every_past_season_is_a_member_from_today_on():
    ensemble = build_ensemble(AXIS, TWENTY, NORMALS, ON)
    # 2000 lacks its lead but has its twelve months; 2021 was over in March 2022
    assert ensemble.members == 22
    assert ensemble.made_of.words == "own record"
    after = ensemble.observed_to + 1
    expected = [number(SeasonAxis(year).first) + after for year in range(2000, 2022)]
    np.testing.assert_array_equal(ensemble.tmin[:, after], expected)
    assert ensemble.tmin.shape == ensemble.tmax.shape == ensemble.rain.shape == (22, AXIS_DAYS)


def test_a_season_not_yet_over_and_the_season_itself_are_no_members():
    early = build_ensemble(AXIS, TWENTY, NORMALS, dt.date(2022, 2, 1))
    assert early.tmin[:, -1].max() == number(SeasonAxis(2020).first) + AXIS_DAYS - 1
    past = build_ensemble(SeasonAxis(2010), TWENTY, NORMALS, dt.date(2010, 4, 1))
    assert past.tmin[:, -1].max() <= number(dt.date(2010, 4, 1))


def test_nothing_after_the_day_is_used():
    cut = record(dt.date(2000, 1, 1), dt.date(2015, 5, 1))
    on = dt.date(2015, 5, 1)
    whole, known = (build_ensemble(SeasonAxis(2015), r, NORMALS, on) for r in (TWENTY, cut))
    np.testing.assert_array_equal(whole.tmin, known.tmin)
    np.testing.assert_array_equal(whole.rain, known.rain)


def test_a_season_that_is_over_is_the_same_in_every_member():
    ensemble = build_ensemble(SeasonAxis(2012), TWENTY, NORMALS, ON)
    assert ensemble.observed_to == AXIS_DAYS - 1
    assert np.ptp(ensemble.tmin, axis=0).max() == 0


def test_a_season_to_come_has_nothing_observed():
    ensemble = build_ensemble(SeasonAxis(2023), TWENTY, NORMALS, ON)
    assert ensemble.observed_to < 0
    assert ensemble.filled == 0
    assert np.ptp(ensemble.tmin, axis=0).min() > 0


def test_the_latest_thirty_years_are_taken():
    long = record(dt.date(1950, 1, 1), ON)
    ensemble = build_ensemble(AXIS, long, NORMALS, ON)
    assert ensemble.members == MOST_OWN_YEARS
    assert ensemble.tmin[0, -1] == number(SeasonAxis(1992).first) + AXIS_DAYS - 1


def test_gaps_are_counted_from_the_season_start_and_keep_each_members_own_day():
    nine = days_between(dt.date(2022, 3, 1), dt.date(2022, 3, 9))
    lead = days_between(dt.date(2021, 11, 5), dt.date(2021, 11, 7))
    ensemble = build_ensemble(AXIS, record(TWENTY.first, ON, [*nine, *lead]), NORMALS, ON)
    assert (ensemble.filled, (ON - AXIS.start).days + 1) == (9, 109)
    spread = np.ptp(ensemble.tmin, axis=0)
    unknown = np.flatnonzero(spread[: ensemble.observed_to + 1])
    # the maximum of those days was measured, so the minimum lies its normal range below it in all
    assert unknown.size == 0
    blank = replace(TWENTY, tmin=TWENTY.tmin.copy(), tmax=TWENTY.tmax.copy())
    for day in nine:
        blank.tmin[(day - blank.first).days] = blank.tmax[(day - blank.first).days] = np.nan
    ensemble = build_ensemble(AXIS, blank, NORMALS, ON)
    assert ensemble.filled == 9
    unknown = np.flatnonzero(np.ptp(ensemble.tmin, axis=0)[: ensemble.observed_to + 1])
    assert unknown.tolist() == [AXIS.day(day) for day in nine]


def test_a_record_that_stopped_a_month_ago_is_a_gap_to_today():
    stopped = record(TWENTY.first, dt.date(2022, 3, 20))
    ensemble = build_ensemble(AXIS, stopped, NORMALS, ON)
    assert ensemble.observed_to == AXIS.day(ON)
    assert ensemble.filled == 30
    assert np.ptp(ensemble.tmin[:, AXIS.day(dt.date(2022, 3, 20))]) == 0
    assert np.ptp(ensemble.tmin[:, AXIS.day(dt.date(2022, 3, 21))]) > 0


def test_a_season_with_too_many_gaps_is_left_out():
    gaps = days_between(dt.date(2010, 5, 1), dt.date(2010, 6, 10))  # 41 of 365
    thin = build_ensemble(AXIS, record(TWENTY.first, ON, gaps), NORMALS, ON)
    assert thin.members == 21
    few = build_ensemble(AXIS, record(TWENTY.first, ON, gaps[:20]), NORMALS, ON)
    assert few.members == 22
    assert np.isfinite(few.tmin).all()


def test_few_own_years_are_joined_by_made_up_ones():
    ensemble = build_ensemble(AXIS, record(dt.date(2018, 11, 1), ON), NORMALS, ON)
    assert ensemble.members == 40
    assert ensemble.made_of.words == "3 own years, others made up round two frost dates"
    seven = build_ensemble(AXIS, record(dt.date(2014, 11, 1), ON), NORMALS, ON)
    assert seven.members == 40
    eight = build_ensemble(AXIS, record(dt.date(2013, 11, 1), ON), NORMALS, ON)
    assert eight.members == FEWEST_OWN_YEARS


def test_without_a_record_all_years_are_made_up():
    ensemble = build_ensemble(AXIS, None, NORMALS, ON)
    assert ensemble.members == 40
    assert ensemble.made_of.words == "two frost dates"
    assert ensemble.filled == 109
    assert np.ptp(ensemble.tmin, axis=0).min() > 0
    again = build_ensemble(AXIS, None, NORMALS, ON)
    np.testing.assert_array_equal(ensemble.tmin, again.tmin)
    np.testing.assert_array_equal(ensemble.rain, again.rain)


def test_a_record_of_the_future_is_not_known_yet():
    later = record(dt.date(2022, 5, 1), dt.date(2022, 9, 1))
    ensemble = build_ensemble(AXIS, later, NORMALS, ON)
    np.testing.assert_array_equal(ensemble.tmin, build_ensemble(AXIS, None, NORMALS, ON).tmin)


def test_rain_missing_from_the_file_comes_from_the_normals():
    dry = replace(TWENTY, rain=np.full(len(TWENTY), np.nan))
    rain = build_ensemble(AXIS, dry, NORMALS, ON).rain
    assert np.isfinite(rain).all()
    assert rain.mean() == pytest.approx(2.0, abs=0.3)


def test_southern_seasons():
    normals = normal_year(SOUTH)
    on = dt.date(2021, 10, 3)
    axis = SeasonAxis(2021, southern=True)
    ensemble = build_ensemble(axis, TWENTY, normals, on)
    assert ensemble.observed_to == axis.day(on)
    assert ensemble.tmin[0, ensemble.observed_to] == number(on)
    # July is winter there
    made = build_ensemble(SeasonAxis(2021, southern=True), None, normals, dt.date(2021, 5, 1))
    assert made.tmin.mean(axis=0).argmin() in range(55, 110)


def test_leap_years_are_laid_on_by_day_number():
    ensemble = build_ensemble(SeasonAxis(2020), TWENTY, NORMALS, dt.date(2020, 2, 29))
    assert ensemble.axis.date(ensemble.observed_to) == dt.date(2020, 2, 29)
    row = list(range(2000, 2019)).index(2016)
    assert ensemble.tmin[row, ensemble.observed_to + 1] == number(dt.date(2016, 3, 1))
    assert ensemble.tmin[row - 1, ensemble.observed_to + 1] == number(dt.date(2015, 3, 2))


@settings(max_examples=25, deadline=None)
@given(
    first=st.dates(dt.date(2005, 1, 1), dt.date(2021, 6, 1)),
    length=st.integers(1, 4000),
    on=st.dates(dt.date(2010, 1, 1), dt.date(2023, 1, 1)),
    seed=st.integers(0, 99),
    southern=st.booleans(),
)
def test_any_record_gives_whole_years_the_same_every_time(first, length, on, seed, southern):
    rng = np.random.default_rng(seed)
    tmin = rng.normal(5, 8, length)
    blank = rng.random(length) < 0.1
    days = DailyRecord(
        first=first, tmin=np.where(blank, np.nan, tmin), tmax=tmin + rng.uniform(0, 12, length),
        rain=np.where(rng.random(length) < 0.2, np.nan, 1.0),
    )  # fmt: skip
    axis = SeasonAxis.holding(on, southern)
    normals = normal_year(SOUTH if southern else PLACE, FROSTS, days)
    one, two = (build_ensemble(axis, days, normals, on) for _ in range(2))
    for quantity in ("tmin", "tmax", "rain"):
        assert np.isfinite(getattr(one, quantity)).all()
        np.testing.assert_array_equal(getattr(one, quantity), getattr(two, quantity))
    assert np.all(one.rain >= 0)
    assert 0 <= one.filled <= max(one.observed_to - 60, 0)
    assert one.members >= FEWEST_OWN_YEARS
