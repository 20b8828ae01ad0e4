"""Story: the old tree, asked by the command as a user or a script asks."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from in_process import run

ROOT = Path(__file__).parents[2]


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
        "What changes when the old tree goes?",
        "bare about 2030",
        "even odds by 2031",
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
