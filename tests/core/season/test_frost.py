"""Freeze dates of records and of ensembles."""

from __future__ import annotations

import datetime as dt

import numpy as np
from tests.samples.frost_years import OWN_RECORD

from leafturn.season.axis import AXIS_DAYS, SeasonAxis
from leafturn.season.ensemble import Ensemble
from leafturn.season.frost import (
    first_frost,
    freezes_by_year,
    last_frost,
)


def series(freezes, first=dt.date(2001, 1, 1), last=dt.date(2010, 12, 31)):
    """Dates and minima of 5 degC, but -1 on the days given."""
    dates = np.arange(first, last + dt.timedelta(days=1), dtype="datetime64[D]")
    tmin = np.full(len(dates), 5.0)
    for day in freezes:
        tmin[(day - first).days] = -1.0
    return dates, tmin


def ensemble(tmin):
    tmin = np.asarray(tmin, dtype=float)
    return Ensemble(
        axis=SeasonAxis(2023),
        tmin=tmin,
        tmax=tmin + 10,
        rain=tmin * 0,
        observed_to=100,
        filled=0,
        made_of=OWN_RECORD,
    )


YEARS = range(2001, 2011)
SPRINGS = [dt.date(year, 4, 10 + i) for i, year in enumerate(YEARS)]
AUTUMNS = [dt.date(year, 10, 20 - i) for i, year in enumerate(YEARS)]


def test_last_and_first_freeze_of_each_year():
    found = freezes_by_year(*series([*SPRINGS, *AUTUMNS]))
    assert found.years.tolist() == list(YEARS)
    assert found.last.tolist() == [day.timetuple().tm_yday for day in SPRINGS]
    assert found.first.tolist() == [day.timetuple().tm_yday for day in AUTUMNS]


def test_the_last_of_several_counts_and_midsummer_parts_the_halves():
    odd = [dt.date(2001, 3, 1), dt.date(2001, 7, 31), dt.date(2001, 8, 1), dt.date(2001, 12, 1)]
    by_year = freezes_by_year(*series(odd, last=dt.date(2001, 12, 31)))
    year = by_year.years.tolist().index(2001)
    assert by_year.last[year] == dt.date(2001, 7, 31).timetuple().tm_yday
    assert by_year.first[year] == dt.date(2001, 8, 1).timetuple().tm_yday


def test_a_first_freeze_after_new_year_still_belongs_to_the_autumn_before():
    by_year = freezes_by_year(*series([dt.date(2002, 1, 15)], last=dt.date(2002, 12, 31)))
    assert by_year.first[by_year.years == 2001] == 365 + 15
    assert by_year.last[by_year.years == 2002] == 15


def test_years_without_a_freeze_say_so():
    found = freezes_by_year(*series(SPRINGS[:4]))
    assert np.isneginf(found.last).tolist() == [False] * 4 + [True] * 6
    assert np.isposinf(found.first[3:-1]).all(), "the autumn of the last year goes on beyond the record"


def test_nought_degrees_are_a_freeze():
    dates, tmin = series([])
    tmin[[100, 300]] = 0.0
    assert freezes_by_year(dates, tmin).last[0] == 101


def test_a_freeze_is_told_only_where_enough_is_known_up_to_midsummer():
    dates, tmin = series([*SPRINGS, *AUTUMNS])
    tmin[(dates >= np.datetime64("2004-05-01")) & (dates < np.datetime64("2004-06-01"))] = np.nan
    by_year = freezes_by_year(dates, tmin)
    assert np.isnan(by_year.last[by_year.years == 2004])
    assert by_year.first[by_year.years == 2004] == AUTUMNS[3].timetuple().tm_yday
    few = tmin.copy()
    few[10:15] = np.nan
    np.testing.assert_array_equal(freezes_by_year(dates, few).last, by_year.last)


def test_dates_may_be_missing_and_be_python_dates():
    dates, tmin = series([*SPRINGS, *AUTUMNS])
    keep = np.arange(len(dates)) % 40 != 3
    keep |= tmin < 0
    found = freezes_by_year([day.item() for day in dates[keep]], tmin[keep])
    np.testing.assert_array_equal(found.last, freezes_by_year(dates, tmin).last)


def test_southern_seasons_are_split_at_the_first_of_february():
    freezes = [dt.date(year, 9, 20) for year in YEARS] + [dt.date(year, 5, 1) for year in YEARS]
    found = freezes_by_year(*series(freezes), southern=True)
    season = found.years.tolist().index(2001)
    assert found.last[season] == dt.date(2001, 9, 20).timetuple().tm_yday
    assert found.first[season] == 365 + dt.date(2002, 5, 1).timetuple().tm_yday


def test_nothing_known_tells_nothing():
    assert not freezes_by_year([], []).years.size
    dates, tmin = series([], last=dt.date(2001, 2, 1))
    assert not freezes_by_year(dates, tmin).years.size


def test_ensemble_frosts_member_by_member():
    tmin = np.full((4, AXIS_DAYS), 5.0)
    tmin[0, [20, 70, 150, 300, 330]] = -1.0
    tmin[1, 272] = 0.0
    tmin[2, 273] = -3.0
    years = ensemble(tmin)
    assert last_frost(years).tolist() == [150, 272, -np.inf, -np.inf]
    assert first_frost(years).tolist() == [300, np.inf, 273, np.inf]
    assert last_frost(years, threshold=-0.5).tolist() == [150, -np.inf, -np.inf, -np.inf]
    assert years.axis.date(272) == dt.date(2023, 7, 31)


def test_a_frost_pocket_freezes_later_in_spring_and_earlier_in_autumn():
    rng = np.random.default_rng(8)
    wave = 6 - 12 * np.cos(2 * np.pi * (np.arange(AXIS_DAYS) - 81) / 365)
    years = ensemble(wave + rng.normal(0, 3, (40, AXIS_DAYS)))
    assert np.all(last_frost(years, pocket_c=-1.0) >= last_frost(years))
    assert np.median(last_frost(years, pocket_c=-1.0)) > np.median(last_frost(years))
    assert np.median(first_frost(years, pocket_c=-1.0)) < np.median(first_frost(years))
