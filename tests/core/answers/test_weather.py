"""What is told of the weather, against Seattle's days of 2012 to 2015 (NOAA, carried by vega-datasets)."""

from __future__ import annotations

import csv
import datetime as dt
import json
from pathlib import Path
from statistics import mean

import pytest
from tests.in_process import run
from tests.samples.garden_text import garden_text
from tests.samples.places import GARDENS

from leafturn.almanac import open_almanac


def test_usual_months_are_those_of_the_record(seattle_garden: Path) -> None:
    """Means of the months of the file by this test's own loop; the usual year is smoothed by two waves."""
    with (seattle_garden / "weather.csv").open() as file:
        rows = list(csv.DictReader(line for line in file if not line.startswith("#")))
    known = open_almanac(seattle_garden, dt.date(2017, 1, 2)).weather()
    assert known.recorded is not None
    assert (known.recorded.first, known.recorded.last) == (dt.date(2012, 1, 1), dt.date(2015, 12, 31))
    assert (known.recorded.known, known.recorded.days) == (1461, 1461)
    assert known.recorded.longest_gaps == ()
    for month in known.months:
        own = [row for row in rows if int(row["date"][5:7]) == month.month]
        assert month.tmin_c == pytest.approx(mean(float(row["tmin_c"]) for row in own), abs=1.0)
        assert month.tmax_c == pytest.approx(mean(float(row["tmax_c"]) for row in own), abs=1.3)
    rain = sum(float(row["rain_mm"]) for row in rows) / 4
    assert sum(month.rain_mm for month in known.months) == pytest.approx(rain, rel=0.05)


def test_gaps_are_named_longest_first(tmp_path: Path, seattle_garden: Path) -> None:
    (tmp_path / "garden.toml").write_text((seattle_garden / "garden.toml").read_text())
    lines = (seattle_garden / "weather.csv").read_text().splitlines()
    missing = ("2013-02-0", "2014-07-1", "2015-03-31")
    kept = [line for line in lines if not line.startswith(missing)]
    (tmp_path / "weather.csv").write_text("\n".join(kept))
    recorded = open_almanac(tmp_path, dt.date(2017, 1, 2)).weather().recorded
    assert recorded is not None
    assert [(gap.first.isoformat(), gap.days) for gap in recorded.longest_gaps] == [
        ("2014-07-10", 10),
        ("2013-02-01", 9),
        ("2015-03-31", 1),
    ]
    said = run("weather", str(tmp_path), "--on", "2016-01-01").stdout
    assert "Not known: 10 Jul 2014 to 19 Jul 2014, 10 days; filled from the usual year." in said


def test_without_a_record_it_says_what_to_write_and_what_is_guessed() -> None:
    words = ("weather", str(GARDENS / "ten_lines"), "--on", "2027-04-19")
    said = run(*words).stdout
    assert 'weather = "weather.csv"' in said
    assert "The usual year is guessed from the two frost dates." in said
    answer = json.loads(run(*words, "--json").stdout)["weather"]
    assert answer["recorded"] is None
    assert answer["basis"] == "two frost dates"
    assert [month["month"] for month in answer["months"]] == list(range(1, 13))


def test_the_first_day_of_a_season_is_one_day() -> None:
    said = run("season", str(GARDENS / "ten_lines"), "--on", "2027-01-01").stdout
    assert "1 of 1 day from the usual year" in said
    assert "1 of 1 day of this season's weather comes from the usual year." in said


def test_what_was_set_aside_is_told_once(tmp_path: Path, seattle_garden: Path) -> None:
    (tmp_path / "garden.toml").write_text((seattle_garden / "garden.toml").read_text())
    (tmp_path / "weather.csv").write_text(
        "date,tmin_c,tmax_c,rain_mm\n2015-01-01,3,9,0\n2015-01-02,3,99,0\n2015-01-03,3,9,0\n"
    )
    said = run("check", str(tmp_path), "--on", "2015-02-01").stdout
    assert said.count("was set aside as wrong") == 1


def test_stated_frost_days_are_shown_as_they_were_stated(tmp_path: Path) -> None:
    frosts = {
        "last_frost": {"usual": "04-24", "one_year_in_ten_after": "05-12"},
        "first_frost": {"usual": "10-16", "one_year_in_ten_before": "10-01"},
    }
    (tmp_path / "garden.toml").write_text(garden_text(climate=frosts))
    said = run("weather", str(tmp_path), "--on", "2027-02-01").stdout
    assert "The garden file states: last frost 24 Apr (after 12 May in 1 of 10 years), " in said
    assert "first frost 16 Oct (before 1 Oct in 1 of 10 years)." in said


def test_a_weather_file_without_known_columns_is_named_and_no_unit_is_guessed(tmp_path: Path) -> None:
    (tmp_path / "garden.toml").write_text('[place]\nlat = 46.9\nlon = 15.9\nweather = "wx.csv"\n')
    (tmp_path / "wx.csv").write_text("Date,MaxT,MinT\n2026-01-01,9,3\n")
    said = run("weather", str(tmp_path), "--on", "2026-02-01").stdout
    assert "No weather could be read from wx.csv: leafturn check says why." in said
    said = run("check", str(tmp_path), "--on", "2026-02-01").stdout
    assert "MinT and MaxT name no unit, and the numbers do not tell it." in said
    assert "Name the columns tmin_c and tmax_c, or tmin_f and tmax_f." in said
