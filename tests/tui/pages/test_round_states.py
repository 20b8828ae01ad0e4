"""Weeks of their own kind: all done, more than the hands can do, and work longer than anybody's week."""

from __future__ import annotations

import datetime as dt
import json
from pathlib import Path

from screens import lines_as_stored, shown_after
from tests.in_process import run
from tests.samples.garden_text import garden_text, helper, own_job, plant

from leafturn.almanac import open_almanac

ON = "2027-03-01"
NARROW = (80, 24)
ANN = helper("Ann", hours_per_week=6, can=["seated"])
FRIENDS = helper(
    "two friends", people=2, hours_per_week=1, can=["ladder", "saw", "lift", "kneel"], days=["sun"]
)
ORCHARD = garden_text(
    ANN,
    FRIENDS,
    *(plant(f"pear-{n}", "pear", year=1990, at=[0, 6 * n]) for n in range(1, 9)),
    *(plant(f"apple-{n}", "apple", year=1990, at=[8, 6 * n]) for n in range(1, 13)),
    name="Hill Orchard",
)
YARD = garden_text(
    plant("apple-1", "apple", year=1990, at=[0, 6]),
    plant("currant", "redcurrant", year=2020, at=[0, 9]),
    own_job("pump", "grease the pump", when="2027-03-01", within_days=5, minutes=15),
    name="Yard",
)


def garden(folder: Path, text: str) -> str:
    (folder / "garden.toml").write_text(text)
    return str(folder)


def answer(at: str) -> dict[str, object]:
    return dict(json.loads(run("round", at, "--on", ON, "--json").stdout))


def screen(folder: Path) -> list[str]:
    return shown_after(open_almanac(folder, dt.date.fromisoformat(ON)), NARROW)


def test_whose_hours_are_short_is_said_beside_hours_at_hand(tmp_path: Path) -> None:
    at = garden(tmp_path, ORCHARD)
    said = "19 jobs wait for hands: only two friends can do them, 45 min of 1 h given"
    assert said in run("round", at, "--on", ON).stdout
    told = answer(at)
    assert told["notice"] == [f"{said}; the list says until when each can wait."]
    pruned = [job for job in told["jobs"] if "prune" in job["verb"]]  # type: ignore[attr-defined]
    assert [job["who"] for job in pruned] == ["two friends"]
    lines_as_stored(screen(tmp_path), "round-hours-short-80x24")


def test_work_longer_than_a_week_is_said(tmp_path: Path) -> None:
    text = garden_text(
        helper("Ann", hours_per_week=2, keeper=True),
        own_job("wall", "mend the wall", when="2027-03-01", within_days=5, minutes=300),
    )
    at = garden(tmp_path, text)
    said = "mend the wall takes 5 h, longer than a week of Ann: do it bit by bit."
    assert answer(at)["notice"] == [said]
    assert said in run("round", at, "--on", ON).stdout
    more = [
        own_job(f"wall-{n}", f"mend wall {n}", when="2027-03-01", within_days=5, minutes=300)
        for n in range(5)
    ]
    at = garden(tmp_path, "\n".join([text, *more]))
    titles = "mend wall 0, mend wall 1, mend wall 2 and 3 more"
    assert answer(at)["notice"] == [
        f"{titles} each take longer than a week of whoever can do them: do them bit by bit."
    ]


def test_a_week_of_which_all_is_done(tmp_path: Path) -> None:
    at = garden(tmp_path, YARD)
    due = [job["title"] for job in answer(at)["jobs"] if job["state"] == "due"]  # type: ignore[attr-defined]
    assert len(due) == 2
    assert not answer(at)["quiet"]
    assert run("done", at, "--on", ON, due[0]).returncode == 0
    assert not answer(at)["quiet"], "one is still to be done"
    assert run("done", at, "--on", ON, due[1]).returncode == 0
    told = answer(at)
    assert str(told["quiet"]).startswith("2 jobs of this week are done. Nothing more is due before ")
    assert told["quiet"] in run("round", at, "--on", ON).stdout
    assert told["hours"]["needed"] == 0  # type: ignore[index]
    lines_as_stored(screen(tmp_path), "round-all-done-80x24")


def test_jobs_of_one_verb_that_are_done_otherwise_are_not_told_as_one(tmp_path: Path) -> None:
    garden(tmp_path, YARD)
    lines = screen(tmp_path)
    assert not any("old wood out of currant, apple" in line for line in lines)
    assert any("winter prune: " in line for line in lines), "the verb of both, and what it is done to"
