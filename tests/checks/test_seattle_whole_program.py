"""The whole program on real weather: Seattle 2012 to 2015 (NOAA daily summaries, carried by vega-datasets).

Expected degree days: single-sine sums above 5 degC for the calendar year, computed independently by numerical
integration; frost dates: first and last days straight from the file, by this test's own loop over its rows.
Bloom months: Pacific Northwest practice. Apples bloom in April to early May and hazel sheds in January to
March there (from memory; extension calendars of western Washington).
"""

from __future__ import annotations

import csv
import datetime as dt
import json
from pathlib import Path
from typing import Any

import pytest
from tests.in_process import run


def ask(command: str, garden: Path, on: str) -> dict[str, Any]:
    done = run(command, str(garden), "--on", on, "--json")
    assert done.returncode == 0, done.stderr
    answer: dict[str, Any] = json.loads(done.stdout)
    return answer


@pytest.mark.parametrize(("year", "expected"), [(2012, 2451.02), (2013, 2759.32), (2015, 3049.91)])
def test_heat_of_the_year_is_that_of_an_independent_integration(
    seattle_garden: Path, year: int, expected: float
) -> None:
    heat = ask("season", seattle_garden, f"{year}-12-31")["heat"]
    assert heat["base"] == 5.0
    assert heat["to_date"] == pytest.approx(expected, abs=0.15)


@pytest.mark.parametrize("year", [2013, 2014, 2015])
def test_frost_dates_of_a_past_year_are_those_of_the_record(seattle_garden: Path, year: int) -> None:
    with (seattle_garden / "weather.csv").open() as file:
        frosts = [
            dt.date.fromisoformat(row["date"])
            for row in csv.DictReader(file)
            if row["date"].startswith(str(year)) and float(row["tmin_c"]) <= 0
        ]
    spring = max(day for day in frosts if day.month < 8)
    autumn = min(day for day in frosts if day.month >= 8)
    frost = ask("season", seattle_garden, f"{year}-12-31")["frost"]
    every = {"years_in_ten": 10}
    assert frost["last"] == dict.fromkeys(("p10", "p50", "p90"), spring.isoformat()) | every
    assert frost["first"] == dict.fromkeys(("p10", "p50", "p90"), autumn.isoformat()) | every


def test_the_round_is_whole_on_real_weather(seattle_garden: Path) -> None:
    for on in ("2015-02-10", "2015-04-15", "2015-07-20", "2015-11-15"):
        answer = ask("round", seattle_garden, on)
        assert answer["faults"] == []
        assert answer["on"] == on
        assert answer["hours"]["needed"] <= answer["hours"]["available"]
        assert answer["jobs"] or answer["waiting"] or answer["quiet"]
        for job in answer["jobs"]:
            assert job["id"].startswith(f"{job['plant']}:{job['verb'].replace(' ', '-')}:")
            assert job["state"] in {"due", "soon", "held", "late", "passed", "done", "let go"}
            assert 3 <= len(job["why"]) <= 7
            assert job["open"] is None or job["close"] is None or job["open"] <= job["close"]


def test_bloom_falls_in_the_local_months(seattle_garden: Path) -> None:
    """Asked on 1 March 2013, without knowing what came after."""
    events = ask("season", seattle_garden, "2013-03-01")["events"]
    opens = {e["plant"]: e for e in events if e["event"] == "first open"}
    assert len(opens) >= 8
    for event in opens.values():
        assert event["early"] <= event["likely"] <= event["late"]
    day = {plant: dt.date.fromisoformat(event["likely"]) for plant, event in opens.items()}
    assert dt.date(2013, 4, 1) <= day["apple-1"] <= dt.date(2013, 5, 10)
    assert dt.date(2013, 1, 1) <= day["hazel-1"] <= dt.date(2013, 3, 20)
    order = ("hazel-1", "cherry-plum", "pear-1", "apple-1", "quince", "kiwi-female")
    assert [day[plant] for plant in order] == sorted(day[plant] for plant in order)
