"""What a plan of a plant does to its jobs: danger is looked at whatever it is, and a move is a job."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn.almanac import Almanac
from leafturn.journal.entries import JudgedNote, MovedNote


def verbs(almanac: Almanac, name: str) -> set[str]:
    return {job.verb for job in almanac.jobs() if name in (job.plant, *job.plants)}


@pytest.mark.parametrize("plan", [None, "undecided", "remove", "move", "keep"])
def test_a_failing_crown_is_looked_at_whatever_the_plan(tmp_path: Path, plan: str | None) -> None:
    more = {} if plan is None else {"plan": plan}
    ash = plant("ash", "common ash", year=1930, state="declining", height_m=20.0, at=[0, 0], **more)
    almanac = almanac_of(tmp_path, garden_text(ash), "2027-08-10")
    assert "look at crown" in verbs(almanac, "ash")


def test_an_old_tree_is_not_told_to_be_small_enough_to_move(tmp_path: Path) -> None:
    text = garden_text(
        plant("ash", "common ash", year=1930, state="declining", at=[0, 0], plan="undecided"),
        plant("oak", "red oak", year=2024, at=[30, 0], plan="undecided"),
    )
    jobs = {job.plant: job for job in almanac_of(tmp_path, text, "2027-06-10").jobs() if job.verb == "judge"}
    assert "small enough to move" in " ".join(jobs["oak"].why)
    assert "small enough to move" not in " ".join(jobs["ash"].why)
    assert jobs["ash"].title == "judge ash: keep or remove"


def test_what_is_to_move_makes_a_job_until_it_is_moved(tmp_path: Path) -> None:
    day = dt.date(2026, 12, 5)
    text = garden_text(plant("pear", "pear", year=2024, at=[0, 0], plan="undecided"))
    before = almanac_of(tmp_path, text, day)
    assert "move" not in verbs(before, "pear")
    judged, _ = before.note(JudgedNote(on=day, plant="pear", plan="move"), day)
    (job,) = [job for job in judged.jobs() if job.verb == "move" and job.state in ("due", "soon", "held")]
    assert job.plant == "pear"
    moved, _ = judged.note(MovedNote(on=day, plant="pear"), day)
    assert not [
        job for job in moved.jobs() if job.verb == "move" and job.state in ("due", "soon", "held", "late")
    ]


@pytest.mark.parametrize(
    ("kind", "year", "job"),
    [
        ("pear", 2025, "it:take-out:2027"),
        ("pear", 2010, "it:take-down:2027"),
        ("redcurrant", 2010, "it:take-out:2027"),
    ],
)
def test_judged_remove_makes_the_one_job_of_taking_it_out(
    tmp_path: Path, kind: str, year: int, job: str
) -> None:
    text = garden_text(plant("it", kind, year=year, at=[0, 0]))
    almanac = almanac_of(
        tmp_path, text, "2027-01-10", JudgedNote(on=dt.date(2026, 9, 1), plant="it", plan="remove")
    )
    assert [found.id for found in almanac.jobs() if found.plant == "it"] == [job]
    (made,) = (found for found in almanac.jobs() if found.plant == "it")
    assert made.state == ("held" if job == "it:take-down:2027" else "due")  # nobody here has a licence
    assert ("licensed" in made.demands) == (job == "it:take-down:2027")
