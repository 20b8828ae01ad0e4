"""What a steward answers about a tree without a partner becomes jobs with dates, on the demo garden."""

from __future__ import annotations

import datetime as dt
import shutil
from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant
from tests.samples.places import DEMO

from leafturn.almanac import Almanac, open_almanac
from leafturn.journal.answer_words import RemedyWay
from leafturn.partners.decisions import content_entry, remedy_entry
from leafturn.tasks.plants_here import BRUSH_REACH_M
from leafturn.tasks.rule_model import load_rules

APRIL = dt.date(2027, 4, 19)
TREE = "kiwi-f1"


@pytest.fixture
def garden(tmp_path: Path) -> Almanac:
    """A copy that can be written to."""
    return open_almanac(Path(shutil.copytree(DEMO, tmp_path / "garden")), APRIL)


def chosen(garden: Almanac, way: RemedyWay, on: dt.date = APRIL) -> Almanac:
    """The garden once a fix of one way was chosen for the tree."""
    review = next(r for r in garden.at(on).partners() if r.plant == TREE)
    remedy = next(f for f in review.remedies if f.way == way)
    return garden.note(remedy_entry(TREE, remedy, on), on)[0]


def jobs(garden: Almanac, on: dt.date, *verbs: str) -> dict[str, list[tuple[str, int]]]:
    """State and year of each job of some verbs at the tree."""
    found: dict[str, list[tuple[str, int]]] = {verb: [] for verb in verbs}
    for job in garden.at(on).jobs():
        if job.plant == TREE and job.verb in verbs:
            found[job.verb].append((job.state, int(job.id.split(":")[2])))
    return found


GRAFTING = ("cut scions", "graft", "tend graft")


def test_nothing_chosen_makes_no_job(garden: Almanac) -> None:
    assert jobs(garden, APRIL, *GRAFTING, "move partner", "plant partner") == {
        verb: [] for verb in (*GRAFTING, "move partner", "plant partner")
    }


@pytest.mark.long
def test_a_graft_chosen_in_april_waits_for_the_scions_of_next_winter(garden: Almanac) -> None:
    """Scions are cut at full rest and set in at bud break (common practice, no source)."""
    grafting = chosen(garden, "graft")
    assert jobs(grafting, APRIL, *GRAFTING) == {verb: [("not yet", 2028)] for verb in GRAFTING}
    scions = next(j for j in grafting.jobs() if j.verb == "cut scions")
    assert dt.date(2027, 11, 15) <= scions.open.likely <= dt.date(2027, 12, 31)
    assert dt.date(2028, 2, 1) <= scions.close.likely <= dt.date(2028, 3, 1)
    assert f"Chosen on 19 Apr 2027: graft a male branch onto {TREE}." in scions.why
    set_in = next(j for j in grafting.jobs() if j.verb == "graft")
    assert scions.close.likely < set_in.best.likely
    assert jobs(grafting, dt.date(2027, 12, 20), *GRAFTING)["cut scions"] == [("due", 2028)]
    assert jobs(grafting, dt.date(2028, 4, 25), *GRAFTING)["graft"] == [("due", 2028)]
    assert jobs(grafting, dt.date(2029, 4, 25), *GRAFTING) == {verb: [] for verb in GRAFTING}, "one year only"


def test_a_graft_chosen_in_deep_winter_is_this_winters(garden: Almanac) -> None:
    january = dt.date(2027, 1, 10)
    grafting = chosen(garden, "graft", january)
    found = jobs(grafting, january, *GRAFTING)
    assert found["cut scions"] == [("due", 2027)]
    assert found["graft"] == [("not yet", 2027)]


@pytest.mark.sweep(each=2)
@pytest.mark.parametrize(("way", "verb"), [("move", "move partner"), ("plant", "plant partner")])
def test_moving_and_planting_are_for_the_dormant_season(garden: Almanac, way: RemedyWay, verb: str) -> None:
    after = chosen(garden, way)
    job = next(j for j in after.jobs() if j.verb == verb)
    assert dt.date(2027, 10, 15) <= job.open.likely
    assert job.close.likely <= dt.date(2028, 3, 31)


def test_pollen_is_arranged_for_before_this_springs_bloom(garden: Almanac) -> None:
    job = next(j for j in chosen(garden, "borrow").jobs() if j.verb == "arrange pollen")
    opens = garden.forecasts[TREE]
    assert job.close.likely == garden.axis.date(sorted(opens.first_open)[len(opens.first_open) // 2])
    assert job.open.likely < job.close.likely


@pytest.mark.long
def test_taking_the_answer_back_takes_the_jobs_back(garden: Almanac) -> None:
    before = {j.id for j in garden.jobs()}
    after = chosen(garden, "graft")
    assert {j.id for j in after.jobs()} - before == {
        f"{TREE}:{v}:2028" for v in ("cut-scions", "graft", "tend-graft")
    }
    last = after.takeable()
    assert last is not None
    assert {j.id for j in after.take_back(last.id, APRIL)[0].jobs()} == before


@pytest.mark.long
def test_no_one_is_asked_to_bring_pollen_to_a_tree_they_are_content_without(garden: Almanac) -> None:
    def wanted(almanac: Almanac) -> set[str]:
        return {p for j in almanac.jobs() if j.verb == "bring pollen" for p in j.plants}

    assert {"comice-1", "comice-2"} <= wanted(garden)
    content = garden.note(content_entry("comice-1", APRIL), APRIL)[0]
    assert wanted(garden) - wanted(content) == {"comice-1"}
    assert content.answers()["comice-1"].way == "content"
    assert "comice-1" not in content.at(dt.date(2030, 4, 19)).answers(), "asked again after three years"


def test_no_pollen_is_borrowed_for_flowers_that_no_brush_reaches(tmp_path: Path) -> None:
    """Page and rule agree up to which height pollen is brought."""
    rule = next(rule for rule in load_rules().rules if rule.id == "bring-pollen")
    assert rule.applies.lower_than_m == BRUSH_REACH_M
    text = garden_text(
        plant("tall", "black walnut", year=1940, height_m=18, at=[0, 0]),
        plant("low", "black walnut", year=2005, height_m=6, at=[500, 0]),
    )
    ways = {
        tree.plant: {fix.way for fix in tree.remedies}
        for tree in almanac_of(tmp_path, text, APRIL).partners()
    }
    assert "borrow" in ways["low"]
    assert "borrow" not in ways["tall"]
    assert "plant" in ways["tall"]
