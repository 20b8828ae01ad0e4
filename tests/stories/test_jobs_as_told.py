"""What a job tells, on page, paper and in JSON: window, trigger, members, hands, and what noting it does."""

from __future__ import annotations

import datetime as dt
import json
import re
from pathlib import Path
from typing import Any

import pytest
from tests.in_process import run
from tests.samples.garden_text import garden_text, heap, helper, numbers, own_job, plant

from leafturn.almanac import open_almanac

THINGS = (
    plant("early-pear", "pear", year=2000, opens="5 April", at=[0, 12], name="the early pear"),
    plant("late-pear", "pear", year=2000, opens="10 May", at=[30, 0]),
    plant("young-1", "apple", year=2025, guild="walk", at=[4, 4], cultivar="Discovery"),
    plant("young-2", "apple", year=2025, guild="walk", at=[9, 4], cultivar="Bramley"),
    plant("boskoop", "apple", cultivar="Boskoop", year=1990, at=[20, 20]),
    plant("cox", "apple", cultivar="Cox's Orange Pippin", year=1990, at=[26, 20]),
    plant("kiwi", "hardy kiwi", year=2025, sex="female", host="boskoop", at=[20, 21]),
    plant("bush", "hazel", year=2025, at=[40, 40]),
    plant("old-apple", "apple", cultivar="Discovery", year=2012, at=[50, 0],
          guard={"height_cm": 60, "year": 2013}),
    plant("elder", "elderberry", year=2012, at=[12, 0]),
    plant("ash", "common ash", year=1940, state="declining", at=[60, 10]),
    plant("leeks", "ramsons", year=2012, at=[2, 30], patch_m2=2),
    plant("lily", "lily of the valley", year=2012, at=[3, 31]),
    heap("bay", stage="working", at=[3, 3]),
    helper("Ann", hours_per_week=6, can=["lift", "kneel", "standing"]),
    helper("Jon", hours_per_week=3, can=["lift", "kneel"], reach_from=[0, 0], reach_m=15),
    own_job("fence", "mend the fence", when="2027-04-01"),
)  # fmt: skip


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    folder = tmp_path / "garden"
    folder.mkdir()
    (folder / "garden.toml").write_text(garden_text(*THINGS, name="Mill End"), encoding="utf-8")
    return folder


def told(garden: Path, on: str, *words: str) -> str:
    done = run("round", str(garden), "--on", on, *words)
    assert done.returncode == 0, done.stderr
    return done.stdout


def jobs(garden: Path, on: str) -> list[dict[str, Any]]:
    answer = json.loads(told(garden, on, "--json"))
    return [*answer["jobs"], *answer["waiting"]]


def job(garden: Path, on: str, start: str) -> dict[str, Any]:
    found = [one for one in jobs(garden, on) if one["id"].startswith(start)]
    assert found, (start, sorted(one["id"] for one in jobs(garden, on)))
    return found[0]


@pytest.mark.parametrize("on", ["2027-02-10", "2027-04-20", "2027-06-20", "2027-10-10"])
def test_every_job_has_its_window_its_trigger_its_minutes_and_its_source(garden: Path, on: str) -> None:
    found = jobs(garden, on)
    assert found
    for one in found:
        assert one["open"] <= one["best"] <= one["close"], one["id"]
        assert one["trigger"]["moment"], one["id"]
        assert one["minutes"] > 0
        assert one["source"]
        assert one["basis"] in ("own record", "handbook", "rule of thumb", "guess")
        assert isinstance(one["demands"], list)
        assert len(one["why"]) >= 2


def test_a_trigger_that_is_counted_tells_what_there_is_today_and_what_is_wanted(garden: Path) -> None:
    early, late = (job(garden, on, "garden:scout-codling-moth") for on in ("2027-05-01", "2027-05-08"))
    for one in (early, late):
        assert one["trigger"]["moment"] == "heat 78 above 10 from 03-01"
        assert (one["trigger"]["wants"], one["trigger"]["unit"]) == (78, "degree-days above 10 C")
    assert 78 <= early["trigger"]["has"] < late["trigger"]["has"]
    autumn = {one["verb"]: one["trigger"] for one in jobs(garden, "2027-10-05")}
    assert autumn["put guard on"] == {"moment": "the calendar"}


def test_the_reason_of_several_plants_names_the_one_whose_day_it_is_and_lists_each(garden: Path) -> None:
    pears = job(garden, "2027-04-03", "pear:note-bloom")
    assert "of the early pear" in pears["why"][0]
    assert [m["plant"] for m in pears["members"]] == ["early-pear", "late-pear"]
    assert len({m["where"] for m in pears["members"]}) == 2
    page = told(garden, "2027-04-03")
    for member in pears["members"]:
        assert f"{member['name']}, {member['where']}" in page
    sheet = " ".join(run("sheet", str(garden), "--on", "2027-04-03").stdout.split())
    assert "the early pear" in sheet
    assert "late-pear" in sheet


def test_mulch_is_told_in_litres_and_barrows_and_names_each_tree_with_its_place(garden: Path) -> None:
    mulch = job(garden, "2027-05-15", "walk-guild:spring-mulch")
    said = " ".join(mulch["why"])
    assert re.search(r"\d+ litres", said)
    assert "barrow" in said
    assert "hand's breadth round the bark stays bare" in said
    assert {m["plant"] for m in mulch["members"]} == {"young-1", "young-2"}
    assert all(m["where"] for m in mulch["members"])


def test_guards_for_trees_shrubs_and_climbers_go_on_and_come_off(garden: Path) -> None:
    run("note", str(garden), "loss kiwi voles", "--on", "2024-03-02")
    run("note", str(garden), "planted kiwi", "--on", "2025-03-02")
    on = [one for one in jobs(garden, "2027-10-20") if one["verb"] == "put guard on"]
    assert {m["plant"] for one in on for m in one["members"]} >= {"young-1", "young-2", "bush"}
    off = [one for one in jobs(garden, "2027-04-20") if one["verb"] == "take guard off"]
    assert [m["plant"] for one in off for m in one["members"]] == ["old-apple"]
    care = run("heed", str(garden), "--on", "2027-04-20").stdout
    assert "young-1 (2 years; off in 2034)" in " ".join(care.split())
    done = run("done", str(garden), off[0]["id"], "--on", "2027-04-20")
    assert done.returncode == 0, done.stderr
    assert not [one for one in jobs(garden, "2027-05-02") if one["verb"] == "take guard off"
                and one["state"] != "done"]  # fmt: skip


@pytest.mark.parametrize("where", ["page", "json", "sheet"])
def test_what_is_picked_names_its_look_alikes(garden: Path, where: str) -> None:
    on = "2027-05-09"
    said = {
        "page": lambda: told(garden, on),
        "json": lambda: " ".join(job(garden, on, "leeks:pick")["cautions"]),
        "sheet": lambda: run("sheet", str(garden), "--on", on).stdout,
    }[where]()
    said = " ".join(said.split())
    assert "lily of the valley" in said
    assert "lily" in said


@pytest.mark.long
def test_seven_alternating_years_are_told_and_three_are_not(garden: Path) -> None:
    for year, kg in zip(range(2020, 2027), (11, 24, 9.5, 27, 12, 29, 14), strict=True):
        noted = run("note", str(garden), f"harvest boskoop {kg} kg", "--on", f"{year}-10-05")
        assert noted.returncode == 0, noted.stderr
    swings = json.loads(run("larder", str(garden), "--on", "2027-02-01", "--json").stdout)
    assert "boskoop" in json.dumps(swings)
    text = " ".join(run("larder", str(garden), "--on", "2027-02-01").stdout.split())
    assert "boskoop" in text
    assert re.search(r"heavy|light|alternat", text)
    few = " ".join(run("larder", str(garden), "--on", "2022-12-01").stdout.split())
    assert not re.search(r"boskoop[^.]*(heavy|light|alternat)", few)


def test_a_group_beyond_a_helpers_reach_is_not_theirs_though_its_middle_is_near(tmp_path: Path) -> None:
    folder = tmp_path / "wide"
    folder.mkdir()
    (folder / "garden.toml").write_text(
        garden_text(
            plant("west", "apple", year=2026, at=[-40, 0], guild="row"),
            plant("east", "apple", year=2026, at=[40, 0], guild="row"),
            helper("Jon", hours_per_week=20, can=["lift", "kneel"], reach_from=[0, 0], reach_m=15),
            numbers(nesting_from="03-01"),
        )
    )
    for one in jobs(folder, "2027-05-20"):
        far = [m["plant"] for m in one["members"] if m["plant"] in ("west", "east")]
        assert not (far and one["who"] == "Jon"), one["id"]


@pytest.mark.sweep(each=3)
@pytest.mark.parametrize("typed", ["wind", "weather wind", "wind, gusts all night"])
def test_a_wind_that_is_typed_brings_a_look_over_the_next_day(garden: Path, typed: str) -> None:
    assert not [one for one in jobs(garden, "2027-06-03") if one["verb"] == "look after wind"]
    noted = run("note", str(garden), typed, "--on", "2027-06-02")
    assert noted.returncode == 0, noted.stderr
    look = job(garden, "2027-06-03", "garden:look-after-wind")
    assert look["state"] == "due"
    assert "Wind was noted on 2 Jun" in look["why"][0]
    assert any("nobody goes under" in caution for caution in look["cautions"])
    run("done", str(garden), look["id"], "--on", "2027-06-03")
    later = [one for one in jobs(garden, "2027-06-09") if one["verb"] == "look after wind"]
    assert all(one["state"] == "done" for one in later)


def test_damage_that_is_typed_brings_the_job_against_it(garden: Path) -> None:
    assert not [one for one in jobs(garden, "2027-03-05") if one["verb"] == "oil"]
    noted = run("note", str(garden), "damage cox scale", "--on", "2026-07-03")
    assert noted.returncode == 0, noted.stderr
    oil = job(garden, "2027-03-05", "apple:oil")
    assert [m["plant"] for m in oil["members"]] == ["cox"]
    page = " ".join(told(garden, "2027-03-05").split())
    assert "The label is the law" in page
    assert "Never near open flowers or flying bees" in page
    why_not = " ".join(run("rules", str(garden), "dormant-oil", "--on", "2027-03-05").stdout.split())
    assert "apple, due, 15 Feb to 21 Mar (cox)" in why_not
    assert "damaged_by = scale, mite, aphid, psylla does not hold" in why_not


def test_a_job_is_noted_by_whom_and_in_how_many_minutes_and_teaches_its_length(garden: Path) -> None:
    pruned = job(garden, "2027-02-10", "elder:winter-prune")
    noted = run("done", str(garden), pruned["id"], "--on", "2027-02-10", "--by", "Ann", "--minutes", "55")
    assert noted.returncode == 0, noted.stderr
    almanac = open_almanac(garden, dt.date(2027, 2, 11))
    done = almanac.job(pruned["id"])
    assert done is not None
    assert (done.state, done.closed_by) == ("done", "Ann")
    assert job(garden, "2028-02-10", "elder:winter-prune")["minutes"] == 55


@pytest.mark.long
def test_a_job_of_ones_own_stays_until_it_is_done_or_let_go(garden: Path) -> None:
    for on in ("2027-04-16", "2027-06-01", "2027-11-20", "2028-02-01"):
        fence = job(garden, on, "fence")
        assert fence["state"] == "late", on
        assert ("2027" in fence["why"][0]) == on.startswith("2028"), "the year is told once it is another"
        assert "mend the fence" in told(garden, on)
    done = run("done", str(garden), job(garden, "2028-02-01", "fence")["id"], "--on", "2028-02-01")
    assert done.returncode == 0, done.stderr
    assert not [one for one in jobs(garden, "2028-03-01") if one["id"].startswith("fence")
                and one["state"] == "late"]  # fmt: skip


def test_the_sheet_reads_alone_and_its_ticks_tell_who_and_how_long(garden: Path) -> None:
    sheet = run("sheet", str(garden), "--on", "2027-02-10").stdout
    numbered = re.findall(r"^ +(\d+)  _____  (.*)", sheet, re.MULTILINE)
    assert numbered
    assert re.search(r"\d+ min", sheet)
    ticked = run("sheet", str(garden), "--on", "2027-02-11", "--done", "1 by Ann 40")
    assert ticked.returncode == 0, ticked.stderr
    (note,) = [n for n in open_almanac(garden, dt.date(2027, 2, 11)).entries if n.what == "done"]
    assert (note.by, note.minutes) == ("Ann", 40)


@pytest.mark.long
def test_the_handover_tells_places_reasons_and_what_is_open(garden: Path) -> None:
    book = " ".join(run("handover", str(garden), "--on", "2027-04-20").stdout.split())
    for words in ("the early pear", "boskoop", "MILL END", "by 15 Apr: mend the fence"):
        assert words in book
    assert "Still to be done, though the best day is past" in book
    earlier = " ".join(run("handover", str(garden), "--on", "2027-03-20").stdout.split())
    assert earlier.index("April 2027") < earlier.index("mend the fence")


def test_what_was_noted_of_one_was_not_done_to_the_other(tmp_path: Path) -> None:
    """A note of a plant's bloom leaves the job of its kin, which says nothing of that day as its own."""
    folder = tmp_path / "nuttery"
    folder.mkdir()
    hazels = (plant(name, "hazel", year=2012, at=[0, n]) for n, name in enumerate(("cob", "filbert")))
    (folder / "garden.toml").write_text(garden_text(*hazels))
    whole = job(folder, "2027-02-27", "hazel:note-bloom:2027")
    assert "cob" in whole["title"]
    assert run("note", str(folder), "bloom cob first open", "--on", "2027-02-25").returncode == 0
    left = job(folder, "2027-02-27", "hazel:note-bloom:2027")
    assert [member["plant"] for member in left["members"]] == ["filbert"]
    assert not [said for said in left["why"] if said.startswith("Last done")]
    assert run("note", str(folder), "bloom filbert first open", "--on", "2027-02-26").returncode == 0
    assert job(folder, "2027-02-27", "hazel:note-bloom:2027")["why"][0].startswith("Done on 26 Feb.")


def test_a_window_that_closed_before_frost_says_how_long_before(tmp_path: Path) -> None:
    folder = tmp_path / "heartnuts"
    folder.mkdir()
    cold = {"last_frost": "05-05", "first_frost": "10-01"}
    nut = plant("nut", "heartnut", year=2005, at=[0, 0])
    (folder / "garden.toml").write_text(garden_text(nut, climate=cold))
    said = job(folder, "2027-09-20", "nut:prune:2027")["why"][0]
    assert said.startswith("The window closed about 9 Sep")
    assert "three weeks before the first frost (about 1 Oct)" in said
