"""Story: the old tree, asked by the command as a user or a script asks."""

from __future__ import annotations

import json
import re
import shutil
from pathlib import Path
from typing import Any

import pytest
from tests.in_process import run
from tests.samples.garden_text import garden_text, plant
from tests.samples.places import ROOT


def canopy(*words: str) -> str:
    done = run("canopy", str(ROOT / "demo_garden"), *words)
    assert done.returncode == 0, done.stderr
    return done.stdout


def test_the_ash_as_json() -> None:
    answer: dict[str, Any] = json.loads(canopy("--on", "2027-04-19", "--json"))["canopy"]
    ash = answer["elders"][0]
    assert (ash["plant"], ash["live_percent"], ash["trend_per_year"]) == ("toll-ash", 33, -5.9)
    assert set(ash["bare"]) == set(ash["down"]) == {"early", "likely", "late"}
    assert ash["bare"]["likely"] == 2030
    assert ash["down"]["likely"] == 2031
    assert 39 < ash["path_metres"] < 40
    medlar = next(row for row in answer["light"] if row["plant"] == "medlar")
    assert medlar["full"] < medlar["now"] < medlar["gone"]
    assert list(medlar["later"]) == [str(year) for year in range(2027, 2058)]
    assert medlar["reply"] == "crops more"


def test_the_ash_in_words() -> None:
    said = canopy("--on", "2027-04-19")
    for words in (
        "What changes when a tree goes?",
        "bare about 2030",
        "half by 2031",
        "At risk of scorch: ",
        "weir path: 6.0 m away",
        "used daily, public",
        "found-rowan, rowan: move by winter 2028",
        "inspector",
        "nesting",
    ):
        assert words in said


def test_before_the_second_look_there_is_no_trend() -> None:
    answer = json.loads(canopy("--on", "2018-04-19", "--json"))["canopy"]
    ash = next(elder for elder in answer["elders"] if elder["plant"] == "toll-ash")
    assert ash["trend_per_year"] is None
    assert ash["bare"] == {"early": None, "likely": None, "late": None}
    assert any("one look is not a trend" in line for line in ash["says"])


def test_the_whole_story_in_one_look() -> None:
    """Trend, range, both years, light table, gainers and scorchers, path in reach, whom to ask."""
    answer = json.loads(canopy("--on", "2027-04-19", "--json"))["canopy"]
    ash = answer["elders"][0]
    assert ash["bare"]["early"] < ash["bare"]["likely"] < ash["bare"]["late"]
    assert ash["down"]["early"] < ash["down"]["likely"] < ash["down"]["late"]
    replies = {row["plant"]: row["reply"] for row in ash["light"]}
    assert replies["lone-pawpaw"] == "crops more"
    assert replies["ramsons"] == "scorch: move"
    assert replies["found-lime"] == "takes the gap"
    assert ash["roofs"] == {"pump house": 14.43}
    assert [c["what"] for c in ash["what_if"]] == ["leave it", "a stem of 5 m", "fell it now"]
    assert "inspector" in answer["caution"]
    drawn = next(p for p in answer["plants"] if p["plant"] == "medlar")
    assert len(drawn["light_by_month"]) == 12
    assert drawn["light_by_month"][0] > drawn["light_by_month"][6]
    assert drawn["height_m"]["2027"] < drawn["height_m"]["2057"]
    assert list(ash["succession"]["covered"]) == list(ash["live"]) == [str(y) for y in range(2027, 2058)]


def test_a_look_noted_by_the_command_moves_the_trend(tmp_path: Path) -> None:
    garden = shutil.copytree(ROOT / "demo_garden", tmp_path / "garden")
    kept = run(
        "note", str(garden), "crown", "toll-ash", "20%", "brackets", "at", "the", "base", "--on", "2027-04-19"
    )
    assert kept.returncode == 0, kept.stderr
    assert "20 % of the crown alive, brackets at the base" in kept.stdout
    after = json.loads(run("canopy", str(garden), "--on", "2027-04-20", "--json").stdout)["canopy"]["elders"][
        0
    ]
    assert (after["live_percent"], after["looks"]) == (20, 7)
    assert after["trend_per_year"] < -5.9


def test_five_of_six_looks_taken_out_end_the_trend_and_an_august_look_is_asked_for(tmp_path: Path) -> None:
    garden = shutil.copytree(ROOT / "demo_garden", tmp_path / "garden")
    for year in (garden / "journal").glob("*.toml"):
        if year.stem != "2026":
            entries = re.split(r"(?m)^(?=\[\[entry\]\])", year.read_text(encoding="utf-8"))
            year.write_text("".join(e for e in entries if 'what = "crown"' not in e), encoding="utf-8")
    said = run("canopy", str(garden), "--on", "2027-04-19").stdout
    assert "one look is not a trend" in said
    assert "A job for August" in said
    assert "falling 5.9 a year" not in said


def test_before_the_oldest_tree_was_planted_no_canopy_is_made_up() -> None:
    said = canopy("--on", "1905-04-19")
    assert "No tree with a place stands here in 1905" in said
    assert "toll-ash" not in said


@pytest.mark.long
def test_the_climates_to_come_by_the_command() -> None:
    answer = json.loads(run("drift", str(ROOT / "demo_garden"), "--on", "2027-04-19", "--json").stdout)[
        "drift"
    ]
    assert answer["warming_c_per_decade"] == 0.4
    assert [c["year"] for c in answer["climates"]] == [2027, 2042, 2057]
    pear = next(row for row in answer["plants"] if "comice-1" in row["plants"])
    assert pear["then"][0]["shift_days"] == {"low": 0.0, "likely": 0.0, "high": 0.0}
    assert pear["then"][2]["shift_days"]["likely"] < pear["then"][1]["shift_days"]["likely"] < 0
    said = run("drift", str(ROOT / "demo_garden"), "--on", "2027-04-19").stdout
    assert "If it warms by 0.4 C a decade, as the garden file states (0.2 to 0.6)." in said
    assert "earlier" in said
    assert "of 10 years" in said


def test_a_young_tree_is_called_neither_old_nor_failing(tmp_path: Path) -> None:
    """Where no tree is old the tallest is asked about, with its age as it is."""
    young = garden_text(plant("apple-1", "apple", year=2015), plant("pear-1", "pear", year=2019, at=[8, 0]))
    (tmp_path / "garden.toml").write_text(young)
    said = run("canopy", str(tmp_path), "--on", "2027-04-19").stdout
    assert re.search(r"It is (8|12) years old", said)
    assert "old tree" not in said
    assert "failing" not in said
