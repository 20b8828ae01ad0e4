"""Sentences that were once misread, as commands say them now: each tells one thing, and the same everywhere.

What they should say was judged by people who grow such plants reading the answers; no outside source.
"""

from __future__ import annotations

import datetime as dt
import json
import re
from pathlib import Path

import pytest
from tests.at_the_desk import AtTheDesk
from tests.in_process import run
from tests.samples.garden_text import garden_text, plant
from tests.samples.places import ROOT

from leafturn.almanac import open_almanac

DEMO = ROOT / "demo_garden"
ON = "2027-04-19"


def told(command: str, *more: str, on: str = ON) -> str:
    return run(command, str(DEMO), *more, "--on", on).stdout


@pytest.mark.parametrize(
    ("command", "says"),
    [
        ("climbers", "too heavy for this host"),
        ("canopy", "it loses 6 of 100 parts a year"),
        ("heed", "plants that lists disagree about"),
        ("heaps", "do not count on weed seeds being dead"),
        ("larder", "could fill it: "),
        ("larder", "week 53, from 28 Dec 2026"),
        ("partners", "hazel-b shares S1 with it, so its pollen is refused, though hazel-j serves hazel-b"),
        ("weather", "0.3 C a decade"),
        ("drift", "0.3 C a decade"),
    ],
)
def test_what_a_command_says(command: str, says: str) -> None:
    assert says in told(command)


def test_nitrogen_of_a_guild_is_one_line() -> None:
    lines = [line for line in told("heaps").splitlines() if "of its crowns fix nitrogen" in line]
    guilds = [line.split(":")[0] for line in lines]
    assert len(guilds) == len(set(guilds)) > 1


def test_the_sources_of_a_kind_stand_once() -> None:
    card = run("plants", str(DEMO), "--kind", "apple").stdout
    facts, _, sources = card.partition("\nsources:\n")
    assert re.findall(r"source (\d+)", facts)
    numbers = [line.split()[0] for line in sources.splitlines() if line.strip()]
    assert len(numbers) == len(set(numbers))


def test_in_december_what_is_past_is_told_as_past() -> None:
    """On 20 December no heat is told, and no frost or leaf fall as if it were to come or had been seen."""
    page = told("round", on="2027-12-20")
    head = page.splitlines()[1]
    assert "heat" not in head
    assert "frost" not in head
    assert "Leaves are usually down by" in page
    assert "Leaves came down" not in page
    assert not re.search(r"leaf fall \(\d", page), "nobody noted that day"
    assert not re.search(r"first frost[^.]* comes", page)


def test_what_a_plant_rests_on_is_one_word_in_the_season_and_in_the_book() -> None:
    """No note of hazel-j's own: what its kin moved is still the handbook's."""
    season = json.loads(told("season", "--json"))
    (book,) = [p for p in json.loads(told("book", "--json"))["plants"] if p["plant"] == "hazel-j"]
    bloom = {e["basis"] for e in season["events"] if e["plant"] == "hazel-j" and e["event"] == "first open"}
    assert bloom == {book["basis"]} == {"handbook"}


def test_that_nothing_is_decided_yet_is_a_sentence() -> None:
    with AtTheDesk(DEMO, dt.date.fromisoformat(ON), size=(120, 40)) as desk:
        desk.press("3")
        desk.wait_for("Who still lacks a partner?")
        assert "11 lack one; not yet decided for any" in desk.text


def test_several_gardens_tell_work_and_hours_apart(tmp_path: Path) -> None:
    """ "59 min of 12 h" reads as a share."""
    for name in ("a", "b"):
        (tmp_path / name).mkdir()
        (tmp_path / name / "garden.toml").write_text(garden_text(plant("pear", "pear", year=2012)))
    said = run("round", str(tmp_path / "a"), str(tmp_path / "b"), "--on", ON).stdout
    assert re.search(r"together .* of work; 12 h at hand", said)


def test_five_springs_noted_move_the_forecast_without_a_weather_file(tmp_path: Path) -> None:
    trees = garden_text(plant("pear-1", "pear", year=2000), climate=None, last_frost="04-24")
    (tmp_path / "garden.toml").write_text(trees)
    for year in range(2022, 2027):
        run("note", str(tmp_path), "bloom", "pear-1", "--on", f"{year}-04-28")
    found = open_almanac(tmp_path, dt.date(2027, 4, 1)).season().events
    (first,) = [e.when.likely for e in found if e.plant == "pear-1" and e.event == "first open"]
    assert abs((first - dt.date(2027, 4, 28)).days) <= 2


def test_an_elder_about_to_open_is_offered_as_first_open(tmp_path: Path) -> None:
    """Enter must not note petal fall of what has hardly opened."""
    (tmp_path / "garden.toml").write_text(garden_text(plant("elder", "elderberry", year=2015)))
    almanac = open_almanac(tmp_path, dt.date(2027, 4, 19))
    (first,) = [e.when.likely for e in almanac.season().events if e.event == "first open"]
    offered = [stage for stage in almanac.at(first).likely_stages() if stage.plant == "elder"]
    assert {stage.stage for stage in offered} <= {"first open"}
