"""Minima that a met service foresees, from a file beside the garden file: read, shown, and acted on."""

from __future__ import annotations

import datetime as dt
import json
from pathlib import Path
from typing import Any

import pytest
from tests.in_process import refused, run
from tests.samples.garden_text import garden_text, plant

ON = "2027-04-19"
AHEAD = (-3.0, -1.0, 3.0, 5.0, 6.0, -9.0)  # of the night of 19 to 20 April, and those after


def rows(minima: tuple[float, ...], first: str = "2027-04-20") -> str:
    begin = dt.date.fromisoformat(first)
    days = (f"{begin + dt.timedelta(days=n)},{low},{low + 12}" for n, low in enumerate(minima))
    return "\n".join(["date,tmin_c,tmax_c", *days, ""])


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    plum = plant("plum", "european plum", cultivar="Victoria", year=2012, at=[0, 4], height_m=2.5)
    text = garden_text(plum, forecast="forecast.csv", frost_pocket_c=-0.5, name="Mill End")
    (tmp_path / "garden.toml").write_text(text)
    (tmp_path / "forecast.csv").write_text(rows(AHEAD))
    assert run("note", str(tmp_path), "bloom plum first open", "--on", "2027-04-17").returncode == 0
    return tmp_path


def answer(*words: str | Path, on: str = ON) -> Any:
    done = run(*map(str, words), "--on", on, "--json")
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


def covers(garden: Path, on: str = ON) -> list[Any]:
    week = answer("round", garden, on=on)
    return [job for job in (*week["jobs"], *week["waiting"]) if job["verb"] == "cover"]


def test_a_cold_night_of_the_file_makes_the_job_of_tonight(garden: Path) -> None:
    (cover,) = covers(garden)
    assert (cover["state"], cover["close"]) == ("due", ON)
    assert cover["why"][0].startswith("Tonight may fall to -3.5 C here.")
    (garden / "forecast.csv").write_text(rows((9.0, 8.0, 9.0, 8.0, 9.0)))
    assert not covers(garden), "five mild nights: nothing to cover"
    (garden / "forecast.csv").write_text(rows((4.0, -4.5, 5.0, 6.0, 6.0)))
    (later,) = covers(garden)
    assert (later["state"], later["open"]) == ("soon", "2027-04-20")


def test_what_is_typed_for_tonight_goes_before_the_file(garden: Path) -> None:
    assert run("tonight", str(garden), "4", "--note", "--on", ON).returncode == 0
    first, second, *_ = answer("weather", garden)["weather"]["foreseen"]
    assert first == {"eve": ON, "typed": True, "station_celsius": 4.5}
    assert second == {"eve": "2027-04-20", "typed": False, "station_celsius": -1}
    assert not [job for job in covers(garden) if job["state"] == "due"]


def test_tonight_without_degrees_takes_those_of_the_file(garden: Path) -> None:
    taken, typed = answer("tonight", garden), answer("tonight", garden, "-3.5")
    assert (taken["garden_celsius"], taken["station_celsius"]) == (-3.5, -3)
    assert taken["plants"] == typed["plants"]
    assert "plum" in run("tonight", "--on", ON, cwd=garden).stdout
    (garden / "forecast.csv").unlink()
    assert "How cold? Write the night's minimum too" in refused("tonight", str(garden), "--on", ON)


def test_five_nights_are_shown_and_days_that_are_past_tell_nothing(garden: Path) -> None:
    said = run("weather", str(garden), "--on", ON).stdout
    assert "Nights foreseen in the garden by forecast.csv: 19 to 20 Apr -3.5 C, 20 to 21 Apr -1.5 C," in said
    assert len(answer("weather", garden)["weather"]["foreseen"]) == 5
    later = answer("weather", garden, on="2027-04-24")["weather"]["foreseen"]
    assert later == [{"eve": "2027-04-24", "typed": False, "station_celsius": -9}]
    stale = run("check", str(garden), "--on", "2027-05-10").stdout
    assert "forecast.csv has no night after 10 May 2027." in stale
    assert "has no night" not in run("check", str(garden), "--on", ON).stdout


def test_how_the_file_is_read_is_shown_and_its_faults_are_named(garden: Path) -> None:
    (garden / "forecast.csv").write_text("Day;Low (F);High (F)\n20.4.2027;26,6;48\n21.4.2027;30;50\n")
    shown = run("weather", "read", str(garden), str(garden / "forecast.csv"), "--on", ON).stdout
    assert "Low (F)   minimum, degrees Fahrenheit" in shown
    assert answer("weather", garden)["weather"]["foreseen"][0]["station_celsius"] == pytest.approx(
        -3, abs=0.01
    )
    (garden / "forecast.csv").write_text("date,tmin_c\n2027-04-20,-3\n")
    checked = run("check", str(garden), "--on", ON)
    assert checked.returncode == 1
    assert "forecast.csv, line 1: no column holds the daily maximum." in checked.stdout
    text = (garden / "garden.toml").read_text()
    (garden / "garden.toml").write_text(text.replace('"forecast.csv"', '"../forecast.csv"'))
    assert "leads out of the garden's folder; it is not read" in run("check", str(garden), "--on", ON).stdout


def test_one_file_may_hold_what_was_and_what_is_foreseen(garden: Path) -> None:
    (garden / "forecast.csv").write_text(rows((2.0, 1.0, -3.0), first="2027-04-18"))
    text = (garden / "garden.toml").read_text()
    (garden / "garden.toml").write_text(
        text.replace('forecast = "forecast.csv"', 'forecast = "forecast.csv"\nweather = "forecast.csv"')
    )
    known = answer("weather", garden)["weather"]
    assert known["recorded"]["last"] == ON, "days ahead are no record"
    assert [night["station_celsius"] for night in known["foreseen"]] == [-3]
