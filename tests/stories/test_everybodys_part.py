"""Each helper has a part: what lies within their reach, on their days, seated or on level ground."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Mapping
from pathlib import Path

import icalendar
import pytest
from tests.in_process import run
from tests.samples.garden_text import garden_text, heap, helper, plant

SATURDAY = 5
STEWARD = helper("steward", hours_per_week=8, can=["ladder", "saw", "lift", "kneel"])
BENCH = helper(
    "bench", hours_per_week=4, can=["seated", "light"], days=["saturday"], reach_m=25, reach_from=[4, 0]
)
NEAR, FAR = plant("near", "apple", year=2012, at=[5, 5]), plant("far", "apple", year=2012, at=[60, 5])
BAY = heap("bay", stage="working", at=[2, 0])


def garden(folder: Path, *things: str, **place: object) -> Path:
    (folder / "garden.toml").write_text(garden_text(*things, **place), encoding="utf-8")
    return folder


def whole_year(folder: Path) -> list[Mapping[str, object]]:
    """Every job that the round told of on the Saturdays of a year."""
    first = dt.date(2027, 1, 2)
    found = []
    for week in range(0, 52, 3):
        on = (first + dt.timedelta(weeks=week)).isoformat()
        told = json.loads(run("round", str(folder), "--on", on, "--json").stdout)
        found += [*told["jobs"], *told["waiting"]]
    return found


def who(job: Mapping[str, object]) -> list[str]:
    return str(job["who"] or "").split(" with ")


def test_what_is_seated_level_and_near_falls_to_the_bench(tmp_path: Path) -> None:
    jobs = whole_year(garden(tmp_path, STEWARD, BENCH, NEAR, BAY))
    parts = [job for job in jobs if "bench" in who(job)]
    assert {job["verb"] for job in parts} & {"note bloom", "scout codling moth", "look for blight"}
    for job in parts:
        assert not {"ladder", "saw", "lift", "kneel", "standing", "two people"} & set(job["demands"]), job[
            "id"
        ]


@pytest.mark.long
def test_of_a_group_with_one_out_of_reach_nothing_does(tmp_path: Path) -> None:
    jobs = whole_year(garden(tmp_path, STEWARD, BENCH, NEAR, FAR, BAY))
    together = [job for job in jobs if len(job["members"]) == 2]
    assert together
    assert not [job["id"] for job in together if "bench" in who(job)]


def test_nothing_on_a_slope_falls_to_who_keeps_to_level_ground(tmp_path: Path) -> None:
    level = BENCH.replace('name = "bench"', 'name = "bench"\nslope = "level only"')
    steep = garden(tmp_path, STEWARD, level, NEAR, slope_deg=8)
    assert not [job["id"] for job in whole_year(steep) if "bench" in who(job)]


def test_a_feed_has_the_days_of_its_helper_alone(tmp_path: Path) -> None:
    folder = garden(tmp_path, STEWARD, BENCH, NEAR, BAY)
    assert run("feed", str(folder), "--on", "2027-04-03").returncode == 0
    calendar = icalendar.Calendar.from_ical((folder / "papers" / "jobs-bench.ics").read_bytes())
    days = [event.decoded("DTSTART").weekday() for event in calendar.walk("VEVENT")]
    assert days
    assert set(days) == {SATURDAY}


@pytest.mark.parametrize(("given", "told"), [("steward", None), ("pair", "pair")])
def test_ladder_work_cannot_be_given_to_one_alone(tmp_path: Path, given: str, told: str | None) -> None:
    """Common practice, no source: nobody is on a ladder with a saw alone, whoever said so."""
    hands = (
        [STEWARD] if told is None else [STEWARD, helper("pair", people=2, hours_per_week=8, can=["anything"])]
    )
    folder = garden(tmp_path, *hands, NEAR)
    (folder / "journal").mkdir()
    (folder / "journal" / "2027.toml").write_text(
        f'[[entry]]\non = 2027-02-20\nwhat = "given"\ntask = "near:winter-prune:2027"\nto = "{given}"\n',
        encoding="utf-8",
    )
    answer = json.loads(run("round", str(folder), "--on", "2027-02-20", "--json").stdout)
    (prune,) = (j for j in (*answer["jobs"], *answer["waiting"]) if j["id"] == "near:winter-prune:2027")
    assert prune["who"] == told
    assert prune["state"] == ("due" if told else "held")
    assert prune["wants"] == ("" if told else "a second person")
    assert any("pairs" in caution for caution in prune["cautions"])
