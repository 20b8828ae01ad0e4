"""What is noted of a plant changes the garden from that day on, and not before."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn.almanac import Almanac
from leafturn.journal.entries import Entry, JudgedNote, LossNote, MovedNote, PlantedNote

EVE, DAY = dt.date(2027, 4, 30), dt.date(2027, 5, 1)
HAZELS = garden_text(
    plant("hazel-a", "hazel", cultivar="Tonda di Giffoni", year=2010, at=[0, 0]),
    plant("hazel-b", "hazel", cultivar="Barcelona", year=2010, at=[8, 0]),
    plant("plum", "european plum", year=2012, at=[0, 2]),
    plant("sown", "pear", year=2024, at=[30, 30], plan="undecided"),
)


def garden(folder: Path, *notes: Entry, on: dt.date = DAY) -> Almanac:
    return almanac_of(folder, HAZELS, on, *notes)


def given_by(almanac: Almanac, tree: str, donor: str) -> bool:
    review = next(tree_ for tree_ in almanac.partners() if tree_.plant == tree)
    return donor in {partner.plant for partner in review.partners}


def jobs_at(almanac: Almanac, plant_id: str) -> list[str]:
    return [job.id for job in almanac.jobs() if plant_id in (job.plant, *job.plants)]


def test_a_lost_plant_is_gone_for_jobs_partners_frost_and_light(tmp_path: Path) -> None:
    after = garden(tmp_path, LossNote(on=DAY, plant="hazel-b", cause="wind"))
    before = after.at(EVE)
    assert jobs_at(before, "hazel-b")
    assert given_by(before, "hazel-a", "hazel-b")
    assert "hazel-b" in {event.plant for event in before.season().events}
    assert jobs_at(after, "hazel-b") == []
    assert not given_by(after, "hazel-a", "hazel-b")
    assert "hazel-b" not in {event.plant for event in after.season().events}
    card = after.plant("hazel-b")
    assert card is not None  # its page stays
    assert "gone" in card.line


def test_frost_takes_nothing_of_a_lost_plant(tmp_path: Path) -> None:
    after = garden(tmp_path, LossNote(on=DAY, plant="plum"))
    assert "plum" in after.at(EVE).frost_losses()
    assert "plum" not in after.frost_losses()
    assert "plum" in {line.plant for line in after.at(EVE).tonight(-6.0).plants}
    assert "plum" not in {line.plant for line in after.tonight(-6.0).plants}


def test_light_returns_where_a_lost_plant_stood(tmp_path: Path) -> None:
    after = garden(tmp_path, LossNote(on=DAY, plant="hazel-a"))
    now, then = (almanac.light_at("plum", 2027) for almanac in (after, after.at(EVE)))
    assert now is not None
    assert then is not None
    assert now > then
    assert after.light_at("hazel-a", 2027) is None


def test_a_loss_that_is_taken_back_never_was(tmp_path: Path) -> None:
    after = garden(tmp_path, LossNote(on=DAY, plant="hazel-b"))
    lost = after.book()[0].entry
    restored, _ = after.take_back(lost.id, DAY)
    assert jobs_at(restored, "hazel-b")


def test_a_loss_before_the_year_of_planting_was_the_forerunner_s(tmp_path: Path) -> None:
    almanac = garden(tmp_path, LossNote(on=dt.date(2009, 2, 1), plant="hazel-b", cause="voles"))
    assert jobs_at(almanac, "hazel-b")


def test_planted_after_a_loss_it_is_a_new_plant(tmp_path: Path) -> None:
    almanac = garden(
        tmp_path,
        LossNote(on=dt.date(2026, 5, 1), plant="hazel-b"),
        PlantedNote(on=dt.date(2026, 11, 7), plant="hazel-b"),
    )
    new = almanac.garden.plant("hazel-b")
    assert new is not None
    assert (new.state, new.year) == ("well", 2026)
    assert jobs_at(almanac, "hazel-b") != jobs_at(almanac, "hazel-a")
    card = almanac.plant("hazel-b")
    assert card is not None
    assert "planted 2026" in card.line


@pytest.mark.parametrize("plan", ["keep", "move", "remove"])
def test_what_a_plant_is_judged_is_its_plan(tmp_path: Path, plan: str) -> None:
    almanac = garden(tmp_path, JudgedNote(on=DAY, plant="sown", plan=plan))  # type: ignore[arg-type]
    planned = [almanac.at(day).garden.plant("sown") for day in (EVE, DAY)]
    assert [plant.plan for plant in planned if plant] == ["undecided", plan]


def test_kept_a_seedling_is_tended_as_any_tree(tmp_path: Path) -> None:
    almanac = garden(tmp_path, JudgedNote(on=DAY, plant="sown", text="keep, it stands well"))
    assert not any("judge" in job for job in jobs_at(almanac, "sown"))
    assert any("judge" in job for job in jobs_at(almanac.at(EVE), "sown"))
    assert any("guard" in job for job in jobs_at(almanac, "sown"))


def test_moved_after_it_was_to_be_moved_it_is_kept(tmp_path: Path) -> None:
    almanac = garden(
        tmp_path,
        JudgedNote(on=dt.date(2026, 9, 1), plant="sown", plan="move"),
        MovedNote(on=dt.date(2026, 11, 7), plant="sown"),
    )
    moved = almanac.garden.plant("sown")
    assert moved is not None
    assert moved.plan == "keep"


def test_losing_one_of_several_is_asked_about(tmp_path: Path) -> None:
    text = garden_text(plant("berries", "strawberry", year=2025, at=[1, 1], count=12))
    almanac = almanac_of(tmp_path, text, DAY)
    assert almanac.question_about(LossNote(on=DAY, plant="berries")) == (
        "berries is 12 plants: are all of them lost? Of some of them, note damage."
    )
