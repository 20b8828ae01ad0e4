"""A plant that does not count as old enough to flower is told of alike by every page, command and file.

The Season had the first flowers and the ripe fruit of a tree planted last autumn, and so had the calendar
file; the week, the larder and the partners had none. That apples on seedling roots bear after some five to
ten years: common practice, no source.
"""

from __future__ import annotations

import datetime as dt
import json
from pathlib import Path

import pytest
from tests.at_the_desk import AtTheDesk
from tests.in_process import run
from tests.samples.garden_text import garden_text, plant

from leafturn_tui.pages import pages

ON = "2027-04-19"
GARDEN = garden_text(
    plant("old", "apple", cultivar="Discovery", year=2005, at=[0, 0]),
    plant("whip", "apple", cultivar="Cox's Orange Pippin", year=2026, at=[6, 0]),
    plant("crown", "rhubarb", year=2027, at=[12, 0]),
)


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    (tmp_path / "garden.toml").write_text(GARDEN, encoding="utf-8")
    return tmp_path


def test_no_answer_counts_on_flowers_or_fruit_of_the_young(garden: Path) -> None:
    season = json.loads(run("season", str(garden), "--on", ON, "--json").stdout)
    assert {event["plant"] for event in season["events"]} == {"old"}
    larder = json.loads(run("larder", str(garden), "--on", ON, "--json").stdout)["larder"]
    assert {p for week in larder["weeks"] for p in (*week["picked"], *week["forage"])} == {"old"}
    jobs = json.loads(run("round", str(garden), "--on", "2027-05-01", "--json").stdout)["jobs"]
    assert not {job["plant"] for job in jobs if job["verb"] in ("note bloom", "pick")} & {"whip", "crown"}
    run("feed", str(garden), "--on", ON)
    calendar = (garden / "papers" / "bloom.ics").read_text(encoding="utf-8")
    assert "old may open" in calendar
    assert "whip" not in calendar


def test_the_season_says_which_it_leaves_out(garden: Path) -> None:
    told = " ".join(run("season", str(garden), "--on", ON).stdout.split())
    assert "More likely than not still too young to flower or bear this season: crown, whip." in told
    with AtTheDesk(garden, dt.date(2027, 4, 19), size=(100, 40)) as desk:
        desk.press(next(key for key, page in pages().items() if page.command == "season"))
        assert "still too young to flower" in desk.text


def test_flowers_that_were_seen_count(garden: Path) -> None:
    run("note", str(garden), "bloom", "whip", "--on", "2027-04-18")
    season = json.loads(run("season", str(garden), "--on", ON, "--json").stdout)
    assert "whip" in {event["plant"] for event in season["events"]}
