"""Stories of files: the ten-line garden, wrong files, no weather and no climate, the south.

Each asks by the words a user types.
"""

from __future__ import annotations

import datetime as dt
import json
import shutil
from pathlib import Path
from typing import Any

import pytest
from tests.in_process import run
from tests.samples.places import GARDENS, ROOT

DEMO = ROOT / "demo_garden"
STORY_DAY = "2027-04-19"


def answer(*words: str, status: int = 0) -> dict[str, Any]:
    done = run(*words, "--json")
    assert done.returncode == status, done.stderr
    found: dict[str, Any] = json.loads(done.stdout)
    return found


# ---- the ten-line garden -------------------------------------------------------------------


@pytest.fixture
def ten_lines(tmp_path: Path) -> str:
    return shutil.copy(GARDENS / "ten_lines" / "a.toml", tmp_path / "a.toml").__str__()


@pytest.mark.parametrize("day", ["2027-01-10", "2027-03-15", "2027-05-05", "2027-08-20", "2027-11-20"])
def test_ten_lines_are_enough_at_any_time_of_the_year(ten_lines: str, day: str) -> None:
    round_ = answer("round", ten_lines, "--on", day)
    jobs = [*round_["jobs"], *round_["waiting"]]
    assert jobs or "before" in round_["quiet"]
    assert {job["basis"] for job in jobs} <= {"guess", "rule of thumb"}
    events = answer("season", ten_lines, "--on", day)["events"]
    assert {event["basis"] for event in events} <= {"guess", "rule of thumb", "own record"}
    assert all(event["early"] <= event["likely"] <= event["late"] for event in events)


def test_ten_lines_mark_every_date_as_a_guess_on_round_and_partners(ten_lines: str) -> None:
    told = run("round", ten_lines, "--on", STORY_DAY).stdout
    reasons = [line for line in told.splitlines() if line.startswith("    ") and " about " in line]
    assert reasons
    assert all(line.endswith(("A guess.", "By rule of thumb.")) for line in reasons)
    trees = answer("partners", ten_lines, "--on", STORY_DAY)["trees"]
    assert all(tree["guessed"] for tree in trees)
    pears = run("partners", ten_lines, "--on", STORY_DAY).stdout.splitlines()
    assert all(line.endswith("; a guess") for line in pears if ", lacks: " in line)


def test_ten_lines_say_that_the_pear_has_no_partner(ten_lines: str) -> None:
    trees = {tree["plant"]: tree for tree in answer("partners", ten_lines, "--on", STORY_DAY)["trees"]}
    assert trees["pear"]["standing"] == "lacks"
    assert "no second pear" in trees["pear"]["weakest"]
    said = run("partners", ten_lines, "--on", STORY_DAY).stdout
    assert "no second pear stands here" in said


# ---- wrong files ---------------------------------------------------------------------------


@pytest.fixture
def demo(tmp_path: Path) -> Path:
    return Path(shutil.copytree(DEMO, tmp_path / "meadow"))


def spoil(demo: Path, right: str, wrong: str) -> int:
    """Replace text in the garden file; the line it stands in."""
    file = demo / "garden.toml"
    text = file.read_text()
    assert right in text
    file.write_text(text.replace(right, wrong, 1))
    return text[: text.index(right)].count("\n") + 1


def test_a_misspelt_plant_in_a_place_costs_one_sentence_and_that_place(demo: Path) -> None:
    line = spoil(demo, 'at = "5 m west of toll-ash"', 'at = "5 m west of tol-ash"')
    done = answer("check", str(demo), "--on", STORY_DAY, status=1)
    (fault,) = done["faults"]
    assert fault["line"] == line
    assert "tol-ash" in fault["message"]
    assert "toll-ash" in fault["message"] + fault["hint"]
    round_ = answer("round", str(demo), "--on", STORY_DAY, status=1)
    assert len(round_["jobs"]) > 3
    assert any(p["plant"] == "medlar" for p in answer("partners", str(demo), status=1)["trees"])


def test_a_ring_of_places_is_named(demo: Path) -> None:
    spoil(demo, 'at = "5 m west of toll-ash"', 'at = "5 m west of goumi"')
    spoil(demo, 'at = "7 m southwest of toll-ash"', 'at = "7 m southwest of medlar"')
    faults = answer("check", str(demo), "--on", STORY_DAY, status=1)["faults"]
    assert len(faults) == 1
    assert "medlar" in faults[0]["message"]
    assert "goumi" in faults[0]["message"]


def test_a_latitude_that_is_none_is_said_and_the_rest_answered(demo: Path) -> None:
    line = spoil(demo, "lat = 46.93", "lat = 460")
    (fault,) = answer("check", str(demo), "--on", STORY_DAY, status=1)["faults"]
    assert fault["line"] == line
    assert "460" in fault["message"]
    assert answer("round", str(demo), "--on", STORY_DAY, status=1)["jobs"]


def test_a_missing_quote_mark_is_named_with_its_line_and_the_rest_is_answered(demo: Path) -> None:
    line = spoil(demo, 'name = "Weir Meadow"', 'name = "Weir Meadow')
    done = run("round", str(demo), "--on", STORY_DAY)
    assert done.returncode == 1
    assert "Weir Meadow" in done.stdout
    (said,) = done.stderr.strip().splitlines()
    assert f"line {line}: " in said
    assert 'It is read as name = "Weir Meadow".' in said


def test_a_slip_costs_its_own_plant_and_no_other(demo: Path) -> None:
    line = spoil(demo, 'kind = "medlar"', "kind ? medlar")
    faults = answer("check", str(demo), "--on", STORY_DAY, status=1)["faults"]
    assert [fault["line"] for fault in faults if "the rest is read" in fault["message"]] == [line]
    assert answer("round", str(demo), "--on", STORY_DAY, status=1)["jobs"]


def test_no_garden_there_is_one_sentence(tmp_path: Path) -> None:
    done = run("round", str(tmp_path / "nowhere"))
    assert done.returncode == 2
    assert len(done.stderr.strip().splitlines()) == 1


def test_an_own_job_whose_moment_is_none_is_left_out_and_said(demo: Path) -> None:
    with (demo / "garden.toml").open("a") as file:
        file.write('\n[[job]]\nid = "odd"\nwhat = "paint the gate"\nwhen = "after the rains"\n')
    (fault,) = answer("check", str(demo), "--on", STORY_DAY, status=1)["faults"]
    assert "paint the gate" in fault["message"]
    assert answer("round", str(demo), "--on", STORY_DAY, status=1)["jobs"]


# ---- no weather, no climate, the south -------------------------------------------------------


def test_without_weather_and_climate_nothing_is_blank(demo: Path) -> None:
    text = (demo / "garden.toml").read_text()
    head, rest = text.split("[climate]")
    after = rest[rest.index("[[") :]
    bare = head.replace('weather = "weather.csv"', "") + after
    (demo / "garden.toml").write_text(bare)
    season = answer("season", str(demo), "--on", STORY_DAY)
    opens = {e["plant"]: e for e in season["events"] if e["event"] == "first open"}
    assert len(opens) > 25
    assert all(e["likely"] for e in opens.values())
    order = ["hazel-b", "early-plum", "comice-1", "boskoop", "kiwi-f1"]
    likely = [opens[plant]["observed"] or opens[plant]["likely"] for plant in order]
    assert likely == sorted(likely)
    assert season["frost"]["last"]["p50"]


def test_in_the_south_the_seasons_swap(tmp_path: Path) -> None:
    south = shutil.copytree(GARDENS / "south", tmp_path / "south")
    season = answer("season", str(south), "--on", "2027-09-20")
    last = dt.date.fromisoformat(season["frost"]["last"]["p50"])
    first = dt.date.fromisoformat(season["frost"]["first"]["p50"])
    assert last.month in (9, 10, 11)
    assert first.month in (3, 4, 5, 6)
    assert last < first
    opens = [dt.date.fromisoformat(e["likely"]) for e in season["events"] if e["event"] == "first open"]
    assert opens
    assert all(dt.date(2027, 7, 1) <= day <= dt.date(2028, 2, 28) for day in opens)
    # Heat counts from 1 July: on that day there is hardly any yet.
    assert answer("season", str(south), "--on", "2027-07-01")["heat"]["to_date"] < 15
    assert answer("season", str(south), "--on", "2027-06-30")["heat"]["to_date"] > 500
