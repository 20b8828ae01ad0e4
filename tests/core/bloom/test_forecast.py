"""Bloom and ripening on a small invented garden with invented weather."""

from __future__ import annotations

import datetime as dt
import re
import shutil
from pathlib import Path

import numpy as np
import pytest
from tests.samples.places import DEMO

from leafturn.almanac import Almanac, open_almanac
from leafturn.journal.entries import BloomNote

STORY_DAY = dt.date(2027, 4, 19)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return Path(shutil.copytree(DEMO, tmp_path / "meadow"))


def likely(almanac: Almanac, plant: str, event: str) -> dt.date:
    found = next(e for e in almanac.season().events if (e.plant, e.event) == (plant, event))
    assert found.when.likely is not None
    return found.observed or found.when.likely


def noted(almanac: Almanac, plant: str, stage: str, on: dt.date) -> Almanac:
    return almanac.note(BloomNote(on=on, plant=plant, stage=stage), almanac.on)[0]  # type: ignore[arg-type]


def test_a_noted_stage_replaces_its_date_and_moves_what_follows(folder: Path) -> None:
    """Ripening goes by warmth, of which ten cool days of April bring less than ten of July."""
    before = open_almanac(folder, STORY_DAY)
    full, end, ripe = (likely(before, "early-plum", e) for e in ("full bloom", "petal fall", "ripe"))
    later = full + dt.timedelta(days=10)
    after = noted(before, "early-plum", "full bloom", later)
    assert likely(after, "early-plum", "full bloom") == later
    assert likely(after, "early-plum", "petal fall") > end
    assert 1 <= (likely(after, "early-plum", "ripe") - ripe).days <= 6
    assert likely(after, "early-plum", "first open") == dt.date(2027, 3, 29)


def test_pome_fruit_ripens_later_by_about_half_of_what_bloom_is_later(folder: Path) -> None:
    """Later fruit meets colder nights: McIntosh takes 126 days by Lake Ontario and 116 at Quebec (read)."""
    asked = open_almanac(folder, dt.date(2027, 5, 20))
    early, late = (noted(asked, "comice-1", "full bloom", dt.date(2027, *day)) for day in ((4, 24), (5, 4)))
    assert 3 <= (likely(late, "comice-1", "ripe") - likely(early, "comice-1", "ripe")).days <= 8


def test_taking_the_note_back_restores_every_date(folder: Path) -> None:
    before = open_almanac(folder, STORY_DAY)
    after, entry = before.note(BloomNote(on=STORY_DAY, plant="comice-1", stage="first open"), STORY_DAY)
    assert after.season().events != before.season().events
    restored, _ = after.take_back(entry.id, STORY_DAY)
    assert restored.season().events == before.season().events


def test_none_this_year_leaves_no_dates_and_no_picking(folder: Path) -> None:
    after = noted(open_almanac(folder, STORY_DAY), "quince", "none this year", STORY_DAY)
    assert [e for e in after.season().events if e.plant == "quince"] == []


def test_stages_follow_one_another_in_every_draw(folder: Path) -> None:
    for forecast in open_almanac(folder, STORY_DAY).forecasts.values():
        assert (forecast.first_open <= forecast.full).all()
        assert (forecast.full <= forecast.end).all()
        if forecast.ripe is not None and forecast.picked is not None:
            assert (forecast.ripe <= forecast.picked).all()


def test_a_clear_cut_early_spring_is_early_for_all(folder: Path) -> None:
    events = open_almanac(folder, STORY_DAY).season().events
    shifts = [
        e.days_from_normal for e in events if e.event == "first open" and e.days_from_normal is not None
    ]
    assert np.median(shifts) < -3


def test_own_notes_pull_a_late_cultivar_once_and_not_twice(folder: Path) -> None:
    """Notes of a tree must bring its own forecast to the noted heat, whatever lateness the book gives it."""
    for year in range(2017, 2027):
        with (folder / "journal" / f"{year}.toml").open("a") as file:
            for name in ("comice-1", "boskoop"):
                file.write(
                    f'\n[[entry]]\nid = "{year}-05-06.9{len(name)}"\non = {year}-05-06\nwhat = "bloom"\n'
                )
                file.write(f'plant = "{name}"\nstage = "first open"\n')
    almanac = open_almanac(folder, dt.date(2027, 1, 2))
    assert almanac.faults == ()
    comice, boskoop = (likely(almanac, name, "first open") for name in ("comice-1", "boskoop"))
    # Both were seen on the same days, so both are foreseen within days of each other.
    assert abs((comice - boskoop).days) <= 4


def test_on_a_past_day_nothing_later_is_known(folder: Path) -> None:
    then = open_almanac(folder, dt.date(2027, 3, 1))
    assert all(e.observed is None for e in then.season().events if e.plant == "early-plum")
    assert all(entry.on <= dt.date(2027, 3, 1) for entry in then.entries)


def test_leaves_and_stalks_are_ready_to_pick_and_fruit_is_ripe(folder: Path) -> None:
    """BBCH principal growth stage 8 is the ripening of fruit and seed (Meier 2018): leaves have none."""
    almanac = open_almanac(folder, STORY_DAY)
    events = {(e.plant, e.event): e.bbch for e in almanac.season().events}
    for plant in ("rhubarb", "ramsons", "comfrey-pear"):
        assert (plant, "ripe") not in events
        assert events[plant, "ready to pick"] is None
        assert events[plant, "picked over"] is None
    assert events["comice-1", "ripe"] == 87
    assert events["hazel-b", "ripe"] == 87
    words = {g.plant: g.words for g in almanac.likely_harvests()}
    assert words["rhubarb"].startswith("since ")
    assert words["comice-1"].startswith("from ")


@pytest.mark.long
def test_fruit_before_which_a_hard_frost_often_comes_is_named(folder: Path) -> None:
    def told(on: dt.date) -> str:
        found = [n for n in open_almanac(folder, on).season().notes if n.startswith("A hard frost")]
        return " ".join(found)

    assert re.search(r"medlar \([4-9] of 10\)", told(STORY_DAY))
    for plant in ("early-plum", "strawberries", "rhubarb"):
        assert plant not in told(STORY_DAY)
    assert told(dt.date(2027, 12, 10)) == ""
