"""A helper who sees only what falls to them ticks as others do: it stays, and Space again takes it back."""

from __future__ import annotations

import datetime as dt
import json
from pathlib import Path

from tests.at_the_desk import AtTheDesk
from tests.in_process import run
from tests.samples.garden_text import garden_text, helper, own_job

ON = dt.date(2027, 3, 3)


def shed(folder: Path) -> Path:
    """Six small jobs that are shared out between two, of whom the one who can do least would do any alone."""
    jobs = [
        own_job(f"job-{n}", f"oil hinge {n}", when="2027-03-02", within_days=9, minutes=20) for n in range(6)
    ]
    hands = [
        helper("Moana", hours_per_week=1, can=["light", "kneel"]),
        helper("Rua", hours_per_week=1, can=["anything"], keeper=True),
    ]
    (folder / "garden.toml").write_text(garden_text(*jobs, *hands), encoding="utf-8")
    return folder


def rows_of(desk: AtTheDesk, words: str) -> list[str]:
    return [line for line in desk.lines if words in line]


def test_what_a_helper_ticks_in_their_own_list_stays_there_and_is_taken_back_by_the_same_key(
    tmp_path: Path,
) -> None:
    for key in ("1", "2"):
        with AtTheDesk(shed(tmp_path), ON) as desk:
            desk.press("s", key)
            mine = rows_of(desk, "oil hinge")
            assert len(mine) == 3
            first = mine[0].split("oil hinge ")[1][0]
            desk.press("space")
            (done,) = rows_of(desk, f"oil hinge {first}")
            assert "done" in done
            assert len(rows_of(desk, "oil hinge")) >= 3
            desk.press("space")
            assert not [line for line in rows_of(desk, f"oil hinge {first}") if "done" in line]


def test_the_week_of_a_helper_tells_what_they_did_and_not_what_others_did(tmp_path: Path) -> None:
    at = str(shed(tmp_path))
    for job, who in (("oil hinge 1", "Moana"), ("oil hinge 2", "Rua")):
        run("done", at, job, "--by", who, "--on", "2027-03-03")
    for who, own in (("Moana", "oil hinge 1"), ("Rua", "oil hinge 2")):
        told = json.loads(run("round", at, "--helper", who, "--on", "2027-03-03", "--json").stdout)
        assert [job["title"] for job in told["jobs"] if job["state"] == "done"] == [own]


def test_a_job_of_ones_own_is_noted_in_its_own_words(tmp_path: Path) -> None:
    gate = '[[job]]\nwhat = "paint the gate"\nwhen = "2027-03-02"\n'
    (tmp_path / "garden.toml").write_text(garden_text(gate), encoding="utf-8")
    said = "done: paint the gate, 3 Mar"
    assert f"noted: {said}" in run("done", str(tmp_path), "paint the gate", "--on", "2027-03-03").stdout
    assert "done: paint the gate" in run("book", str(tmp_path), "--on", "2027-03-03").stdout
