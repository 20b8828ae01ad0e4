"""Speed of the season's arithmetic, as ratios to plain loops and to reference libraries in the same run.

Subject and baseline are timed in turn, the best of several rounds of each, so that a busy machine weighs on
both.
"""

from __future__ import annotations

import csv
import datetime as dt
import math

import numpy as np
import pytest
from tests.bench.timing import best_of

from leafturn.season.axis import AXIS_DAYS, SeasonAxis
from leafturn.season.chill import chill_portions
from leafturn.season.degree_days import single_sine
from leafturn.season.heat import day_reached
from leafturn.season.sun import position
from leafturn.season.years import build_ensemble
from leafturn.weather.normals.normals import from_record
from leafturn.weather.readers.reading import read_weather
from leafturn.weather.record import DailyRecord

pytestmark = pytest.mark.bench

YEARS = 30


def weather(years=YEARS, seed=7):
    """Invented daily weather, (years, 365)."""
    rng = np.random.default_rng(seed)
    mean = 9 - 11 * np.cos(2 * np.pi * (np.arange(365) - 20) / 365) + rng.normal(0, 3.4, (years, 365))
    half = rng.uniform(2, 8, (years, 365))
    return mean - half, mean + half


def record(years=YEARS):
    tmin, tmax = (a.ravel() for a in weather(years))
    return DailyRecord(first=dt.date(1990, 1, 1), tmin=tmin, tmax=tmax, rain=np.ones(tmin.size))


# forty pairs as a plant library has them: few bases, few upper limits
LOWER = np.repeat([0.0, 3.0, 4.4, 5.0, 6.1, 7.2, 8.0, 10.0], 5)
UPPER = np.tile([25.0, 28.0, 30.0, 31.1, 35.0], 8)


def plain_single_sine(tmin, tmax, lower, upper):
    """One day in plain Python, the formula as printed."""

    def above(threshold):
        mean, half = (tmin + tmax) / 2, (tmax - tmin) / 2
        if tmin >= threshold:
            return mean - threshold
        if tmax <= threshold:
            return 0.0
        angle = math.asin((threshold - mean) / half)
        return ((mean - threshold) * (math.pi / 2 - angle) + half * math.cos(angle)) / math.pi

    return above(lower) - above(upper)


def test_degree_days_against_a_plain_loop():
    tmin, tmax = weather()
    days = list(zip(tmin.ravel().tolist(), tmax.ravel().tolist(), strict=True))
    pairs = list(zip(LOWER.tolist(), UPPER.tolist(), strict=True))
    results = {}

    def ours():
        results["ours"] = np.stack([single_sine(tmin, tmax, *pair) for pair in pairs])

    def plain():
        results["plain"] = [[plain_single_sine(low, high, *pair) for low, high in days] for pair in pairs]

    mine, loop = best_of(ours, plain, rounds=3)
    np.testing.assert_allclose(results["ours"].reshape(40, -1), results["plain"], atol=1e-9)
    print(f"degree days, 40 pairs x {YEARS} years: {mine * 1e3:.2f} ms, {loop / mine:.0f} x plain loop")
    assert loop / mine >= 15


def test_event_dates_against_a_plain_loop():
    tmin, tmax = weather()
    heat = np.cumsum(single_sine(tmin, tmax, 5.0), axis=1)
    needs = np.random.default_rng(3).uniform(30, 1500, 2000)
    rows, wanted = heat.tolist(), needs.tolist()
    results = {}

    def ours():
        results["ours"] = day_reached(heat, needs)

    def plain():
        results["plain"] = [
            [next((day for day, sum_ in enumerate(row) if sum_ >= need), math.inf) for row in rows]
            for need in wanted
        ]

    mine, loop = best_of(ours, plain, rounds=3)
    np.testing.assert_array_equal(results["ours"], results["plain"])
    print(f"event dates, 2,000 needs x {YEARS} years: {mine * 1e3:.2f} ms, {loop / mine:.0f} x plain loop")
    assert loop / mine >= 50


def test_an_ensemble_against_gathering_in_a_loop():
    days = record()
    normals = from_record(days)
    axis, on = SeasonAxis(2019), dt.date(2019, 4, 19)
    columns = [days.tmin.tolist(), days.tmax.tolist(), days.rain.tolist()]
    instead = normals.tmin.tolist()
    results = {}

    def ours():
        results["ours"] = build_ensemble(axis, days, normals, on)

    def plain():
        """Past seasons day by day, a gap from the normals; observed days in every member."""
        firsts = [(SeasonAxis(year).first - days.first).days for year in range(1990, 2019)]
        first_now, today = (axis.first - days.first).days, axis.day(on)
        members = []
        for first in firsts:
            member = []
            for column in columns:
                values = []
                for day in range(AXIS_DAYS):
                    at = (first_now if day <= today else first) + day
                    value = column[at] if 0 <= at < len(column) else math.nan
                    values.append(value if value == value else instead[day % 366])
                member.append(values)
            members.append(member)
        results["plain"] = members

    mine, loop = best_of(ours, plain)
    after = axis.day(on) + 1
    latest = np.array(results["plain"])[:, 0, after]
    assert np.isin(results["ours"].tmin[:, after], latest).all()
    print(f"ensemble of {YEARS} years: {mine * 1e3:.2f} ms, {loop / mine:.1f} x a plain loop")
    assert mine < loop


def test_a_century_of_csv_against_the_csv_module(tmp_path):
    days = record(100)
    path = tmp_path / "weather.csv"
    dates = np.datetime64(days.first, "D") + np.arange(len(days))
    cells = zip(dates.astype(str), days.tmin, days.tmax, days.rain, strict=True)
    rows = [f"{day},{low:.1f},{high:.1f},{rain:.1f}" for day, low, high, rain in cells]
    path.write_text("\n".join(["date,tmin_c,tmax_c,rain_mm", *rows]))
    columns = ("tmin_c", "tmax_c", "rain_mm")

    def plain():
        with path.open(newline="") as source:
            return [
                (dt.date.fromisoformat(row["date"]), *(float(row[column]) for column in columns))
                for row in csv.DictReader(source)
            ]

    mine, loop = best_of(lambda: read_weather(path, "weather.csv"), plain)
    print(f"100 years of CSV, checked: {mine * 1e3:.1f} ms, {loop / mine:.1f} x the csv module")
    assert mine < loop


@pytest.mark.reference
def test_chill_against_the_xclim_kernel():
    kernel = pytest.importorskip("xclim.indices._agro")._chill_portion_one_season
    hours = np.arange(4320)
    season = 5 + 6 * np.sin(2 * np.pi * hours / 24) + np.random.default_rng(2).normal(0, 3, hours.size)
    results = {}

    def ours():
        results["ours"] = chill_portions(season[1:])

    def theirs():
        results["theirs"] = np.cumsum(kernel(season + 273))[1:]

    mine, reference = best_of(ours, theirs)
    np.testing.assert_allclose(results["ours"], results["theirs"], rtol=1e-12)
    print(f"chill of one season: {mine * 1e3:.2f} ms, {reference / mine:.0f} x the xclim kernel")
    assert reference / mine >= 20


@pytest.mark.reference
def test_sun_against_pvlib():
    solarposition = pytest.importorskip("pvlib.solarposition")
    pandas = pytest.importorskip("pandas")
    hours = pandas.date_range("2024-01-01", periods=8760, freq="h", tz="UTC")
    plain = hours.tz_localize(None).to_numpy()
    mine, reference = best_of(
        lambda: position(46.9, 15.9, plain), lambda: solarposition.get_solarposition(hours, 46.9, 15.9)
    )
    print(f"sun of 8,760 hours: {mine * 1e3:.2f} ms, {reference / mine:.0f} x pvlib")
    assert reference / mine >= 15
