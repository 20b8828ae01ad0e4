"""The demo garden is whole, reads without a fault, and its weather is what its own climate says.

The garden is invented, so the yardsticks are what its files claim of themselves: the twelve numbers of
[climate], and the frost dates beside them. Calendar arithmetic is the standard library's.
"""

from __future__ import annotations

import csv
import datetime as dt
import math
import re
import shutil
import statistics
import subprocess
import sys
import tomllib
from collections import Counter
from pathlib import Path

import pytest
from tests.samples.places import DEMO

from leafturn.garden.model import Garden
from leafturn.garden.reading.reader import read_garden
from leafturn.journal.entries import Entry, SheetNote
from leafturn.journal.store.store import Store
from leafturn.journal.withdrawals import not_withdrawn
from leafturn.kinds.library import load_library
from leafturn.weather.readers.reading import read_weather

STORY_DAY = dt.date(2027, 4, 19)


@pytest.fixture(scope="module")
def garden() -> Garden:
    reading = read_garden(DEMO)
    assert [fault.sentence() for fault in reading.faults] == []
    return reading.garden


@pytest.fixture(scope="module")
def entries() -> list[Entry]:
    journal = Store(DEMO).read()
    assert [fault.sentence() for fault in journal.faults] == []
    return list(journal.entries)


Days = dict[dt.date, tuple[float, ...]]


@pytest.fixture(scope="module")
def days() -> Days:
    """Lowest, highest [degC] and rain [mm] of each day, NaN where blank; not by the project's own reader."""
    with (DEMO / "weather.csv").open(encoding="utf-8", newline="") as file:
        assert re.match(r"# Invented weather.*make_weather\.py.*seed \d+", file.readline())
        rows = csv.DictReader(file)
        assert rows.fieldnames == ["date", "tmin_c", "tmax_c", "rain_mm"]
        return {
            dt.date.fromisoformat(row["date"]): tuple(
                float(row[name] or "nan") for name in ("tmin_c", "tmax_c", "rain_mm")
            )
            for row in rows
        }


# ---- weather -------------------------------------------------------------------------------


def test_the_script_writes_the_same_bytes(tmp_path: Path) -> None:
    for name in ("make_weather.py", "garden.toml"):
        shutil.copy(DEMO / name, tmp_path)
    subprocess.run([sys.executable, tmp_path / "make_weather.py"], check=True, cwd=tmp_path)
    written = (tmp_path / "weather.csv").read_bytes()
    assert written == (DEMO / "weather.csv").read_bytes()
    assert len(written) < 500_000


def test_days_follow_one_another_and_eight_are_blank(days: Days) -> None:
    assert list(days) == [dt.date(1997, 1, 1) + dt.timedelta(days=i) for i in range(len(days))]
    assert max(days) == dt.date(2027, 4, 18)
    blank = [day for day, values in days.items() if all(map(math.isnan, values))]
    assert blank == [dt.date(2027, 2, d) for d in range(2, 10)]
    assert all(low < high and rain >= 0 for day, (low, high, rain) in days.items() if day not in blank)


def test_weather_reads_without_a_doubt() -> None:
    reading = read_weather(DEMO / "weather.csv", "weather.csv")
    assert reading.faults == ()
    assert reading.notes == ()


@pytest.mark.parametrize("column", [0, 1])
def test_the_last_ten_years_have_the_temperatures_of_the_climate(
    days: Days, garden: Garden, column: int
) -> None:
    assert garden.climate is not None
    stated = (garden.climate.tmin_c, garden.climate.tmax_c)[column]
    assert stated is not None
    decade = range(2017, 2027)
    for month in range(1, 13):
        drawn = statistics.fmean(v[column] for d, v in days.items() if d.month == month and d.year in decade)
        # 0.6: four waves a year cannot follow twelve free numbers, and a few days are set by hand
        assert drawn == pytest.approx(stated[month - 1], abs=0.6)


def test_rain_and_spread_are_near_the_climate(days: Days, garden: Garden) -> None:
    assert garden.climate is not None
    assert garden.climate.rain_mm is not None
    whole = {d: v for d, v in days.items() if d.year <= 2026}
    assert sum(v[2] for v in whole.values()) / 30 == pytest.approx(sum(garden.climate.rain_mm), rel=0.1)
    april = [(low + high) / 2 for d, (low, high, _) in whole.items() if d.month == 4]
    assert 2.8 < statistics.stdev(april) < 4.2


def test_the_last_frost_falls_where_the_garden_file_says(days: Days) -> None:
    last = [
        max(d for d, v in days.items() if d.year == year and d.month < 8 and v[0] <= 0).timetuple().tm_yday
        for year in range(1997, 2027)
    ]
    middle = dt.date(2027, 1, 1) + dt.timedelta(days=statistics.median(last) - 1)
    assert dt.date(2027, 4, 20) <= middle <= dt.date(2027, 4, 25)


def test_the_springs_that_the_story_needs(days: Days) -> None:
    assert days[dt.date(2027, 4, 5)][0] == -2.8
    assert days[dt.date(2027, 4, 18)][0] == -0.5
    assert all(days[dt.date(2027, 4, d)][2] == 0 for d in range(15, 19))
    assert days[dt.date(2024, 4, 15)][0] == -5.0


# ---- garden --------------------------------------------------------------------------------


def test_forty_four_plants_in_four_guilds(garden: Garden) -> None:
    assert Counter(p.guild for p in garden.plants) == {"ash": 10, "heartnut": 11, "pear": 12, "alder": 11}
    assert len({p.id for p in garden.plants}) == 44
    assert all(p.point is not None for p in garden.plants)
    assert sum(bool(p.why or p.promise) for p in garden.plants) >= 12


def test_every_kind_and_cultivar_is_in_the_library(garden: Garden) -> None:
    library, faults = load_library(None)
    assert not faults
    for plant in garden.plants:
        match = library.match(plant.kind)
        assert match.exact, plant.kind
        if plant.cultivar is not None:
            assert library.cultivar(match.kind, plant.cultivar) is not None, plant.cultivar


def test_distances_that_the_story_tells(garden: Garden) -> None:
    """By Pythagoras from the coordinates in the file."""

    def apart(first: str, second: str) -> float:
        points = {p.id: p.point for p in garden.plants if p.point is not None}
        return points[first].metres_to(points[second])

    assert apart("comice-1", "comice-2") == pytest.approx(6.0)
    assert apart("kiwi-f1", "kiwi-m") == pytest.approx((5**2 + 38**2) ** 0.5)
    assert apart("medlar", "toll-ash") == pytest.approx(5.0)
    assert apart("boskoop", "small-apple") == pytest.approx(16.0)
    assert apart("buckthorn-f1", "buckthorn-m") == pytest.approx(8.1, abs=0.1)
    bench = garden.helpers[1].reach_point
    assert bench is not None
    reach = [bench.metres_to(h.point) for h in garden.heaps if h.point is not None]
    assert [round(r, 1) for r in reach] == [2.2, 1.2, 1.3]


# ---- journal -------------------------------------------------------------------------------


def test_one_file_a_year_each_with_its_own_days(entries: list[Entry]) -> None:
    files = sorted((DEMO / "journal").iterdir())
    assert [f.name for f in files] == [f"{year}.toml" for year in range(2017, 2028)]
    for file in files:
        noted = tomllib.loads(file.read_text("utf-8"))["entry"]
        assert [e["on"] for e in noted] == sorted(e["on"] for e in noted)
        assert {e["on"].year for e in noted} == {int(file.stem)}
        assert all(re.fullmatch(rf"{e['on']}\.\d+", e["id"]) for e in noted)
    assert len({e.id for e in entries}) == len(entries)
    assert max(e.on for e in entries) == STORY_DAY


def test_notes_name_what_stands_in_the_garden(garden: Garden, entries: list[Entry]) -> None:
    plants, heaps = {p.id for p in garden.plants}, {h.id for h in garden.heaps}
    people = {h.name for h in garden.helpers}
    assert {e.plant for e in entries if e.plant and e.what != "loss"} <= plants
    assert {e.heap for e in entries if e.heap} <= heaps
    assert {e.by for e in entries if e.by} <= people


def test_what_the_story_needs_is_noted(entries: list[Entry]) -> None:
    crown = [e.live_percent for e in entries if e.what == "crown"]
    assert crown == [86, 74, 63, 49, 40, 33]
    bay = [e.temp_c for e in entries if e.heap == "bay-2" and e.on >= dt.date(2027, 4, 1)]
    assert bay == [62, 58, 44]
    assert {e.cause for e in entries if e.what == "loss"} == {"voles"}
    kept = {e.id for e in not_withdrawn(entries)}
    assert "2027-04-11.1" not in kept
    assert "2027-03-29.1" in kept
    assert {"let-go", "put-off", "look", "damage", "harvest", "set"} <= {e.what for e in entries}


def test_four_springs_of_first_flowers_but_never_of_the_young(entries: list[Entry]) -> None:
    first = [e for e in entries if e.what == "bloom" and e.stage == "first open" and e.on.year < 2027]
    assert {e.on.year for e in first} == {2023, 2024, 2025, 2026}
    assert len({e.plant for e in first}) >= 12
    assert {e.plant for e in first}.isdisjoint({"new-pear", "kiwi-m", "hazel-new"})


def test_no_early_plums_in_the_year_of_the_frost(entries: list[Entry]) -> None:
    plum = [e for e in entries if e.plant == "early-plum" and e.on.year == 2024]
    assert {e.stage for e in plum if e.what == "bloom"} == {"first open", "full bloom"}
    assert [(e.set, e.cause) for e in plum if e.what == "set"] == [("none", "frost")]
    assert not any(e.what == "harvest" for e in plum)


def test_nothing_stands_in_it_that_came_of_trying_it_out(entries: list[Entry]) -> None:
    files = {file.relative_to(DEMO).as_posix() for file in DEMO.rglob("*") if file.is_file()}
    years = {f"journal/{year}.toml" for year in range(2017, 2028)}
    assert files - {file for file in files if "__pycache__" in file} == years | {
        "README.md", "garden.toml", "make_weather.py", "weather.csv"
    }  # fmt: skip
    assert not any(isinstance(entry, SheetNote) for entry in entries)
