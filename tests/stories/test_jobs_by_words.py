"""Jobs are named as people name them, and no line of text carries an id."""

from __future__ import annotations

import datetime as dt
import json
import re
from pathlib import Path

import pytest
from tests.in_process import run
from tests.samples.garden_text import garden_text, plant

from leafturn.almanac import open_almanac
from leafturn.journal.entries import Done, LetGo, PutOff

ON = "2027-02-10"
PLANTS = (
    plant("comice-1", "pear", year=2012),
    plant("comice-2", "pear", year=2012),
    plant("quince", "quince", year=2012),
)


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    (tmp_path / "garden.toml").write_text(garden_text(*PLANTS), encoding="utf-8")
    return tmp_path


def noted(garden: Path) -> list[tuple[type, tuple[str, ...]]]:
    entries = open_almanac(garden, dt.date.fromisoformat(ON)).entries
    return [(type(e), e.closes) for e in entries if isinstance(e, Done | LetGo | PutOff)]


@pytest.mark.parametrize("typed", ["prune comice-1", "comice-1 prune", "Comice-1 PRUNE", "prun comice-1"])
def test_a_job_is_done_by_its_words(garden: Path, typed: str) -> None:
    done = run("done", str(garden), typed, "--on", ON)
    assert done.returncode == 0, done.stderr
    assert noted(garden) == [(Done, ("comice-1:winter-prune:2027",))]
    assert not re.search(r"\(note ", done.stdout)


def test_words_need_no_quotes_and_several_jobs_are_noted_together(garden: Path) -> None:
    assert run("done", str(garden), "prune", "quince", "--on", ON).returncode == 0
    two = run("done", str(garden), "prune comice-1", "comice-2:winter-prune", "--on", ON, "--minutes", "50")
    assert two.returncode == 0, two.stderr
    assert [closed for _, closed in noted(garden)] == [
        ("quince:winter-prune:2027",),
        ("comice-1:winter-prune:2027", "comice-2:winter-prune:2027"),
    ]


def test_what_may_be_several_is_asked_with_their_names(garden: Path) -> None:
    refused = run("done", str(garden), "prune", "--on", ON)
    assert refused.returncode == 2
    assert "Which job is meant by 'prune': winter prune " in refused.stderr
    assert all(plant in refused.stderr for plant in ("comice-1", "comice-2", "quince"))
    assert refused.stderr.count("\n") == 1
    missing = run("done", str(garden), "shear comice-1", "--on", ON)
    assert (missing.returncode, noted(garden)) == (2, [])
    assert "There is no job 'shear comice-1' this season." in missing.stderr


def test_a_group_is_told_as_a_group(garden: Path) -> None:
    done = run("done", str(garden), "pear:bring-pollen", "--on", "2027-04-25")
    assert done.returncode == 0, done.stderr
    assert "done: bring pollen (pear)" in done.stdout
    assert "done: bring pollen (pear)" in run("book", str(garden), "--on", "2027-04-26").stdout


@pytest.mark.long
def test_numbers_are_lines_of_the_last_sheet(garden: Path) -> None:
    assert run("sheet", str(garden), "--on", ON).returncode == 0
    line = open_almanac(garden, dt.date.fromisoformat(ON)).entries[-1].closes
    assert run("done", str(garden), "1", "--on", ON).returncode == 0
    assert noted(garden) == [(Done, (line[0],))]
    refused = run("done", str(garden), "99", "--on", ON)
    assert "No line 99 on sheet" in refused.stderr


def test_jobs_are_let_go_and_put_off_by_the_same_words(garden: Path) -> None:
    assert run("let-go", str(garden), "prune quince", "--why", "frost", "--on", ON).returncode == 0
    assert run("put-off", str(garden), "comice-2 prune", "--until", "+7", "--on", ON).returncode == 0
    assert noted(garden) == [
        (LetGo, ("quince:winter-prune:2027",)),
        (PutOff, ("comice-2:winter-prune:2027",)),
    ]
    refused = run("put-off", str(garden), "prune comice-1", "--until", "2027-02-01", "--on", ON)
    assert "is not after Wed 10 Feb 2027" in refused.stderr


def test_ids_stand_in_json_and_where_they_are_asked_for(garden: Path) -> None:
    plain = run("round", str(garden), "--on", ON).stdout
    assert not re.search(r":2027\b", plain)
    asked = run("round", str(garden), "--on", ON, "--ids").stdout
    ids = {job["id"] for job in json.loads(run("round", str(garden), "--on", ON, "--json").stdout)["jobs"]}
    assert ids <= {line.strip().removeprefix("id ") for line in asked.splitlines() if "    id " in line}


def test_a_job_of_months_to_come_is_asked_about_before_it_counts_as_done(tmp_path: Path) -> None:
    """In April the only prune of a damson is that of summer; who did another cut then says no."""
    (tmp_path / "garden.toml").write_text(garden_text(plant("damson", "damson", year=2012)), encoding="utf-8")
    done = run("done", str(tmp_path), "prune damson", "--on", "2027-04-19")
    assert re.search(r"not due before about \d+ J(un|ul)\. Was it done on 19 Apr\?", done.stderr)
    again = run("done", str(tmp_path), "prune damson", "--on", "2027-07-19")
    assert "not due" not in again.stderr


def test_a_job_that_is_done_is_not_let_go_or_put_off_besides(garden: Path) -> None:
    run("done", str(garden), "prune comice-1", "--on", ON)
    for command, *more in (("let-go",), ("put-off", "--until", "+7"), ("done",)):
        again = run(command, str(garden), "comice-1:winter-prune:2027", "--on", ON, *more)
        assert again.stdout == "winter prune comice-1: done already; nothing was noted.\n"
        assert again.returncode == 0
    assert noted(garden) == [(Done, ("comice-1:winter-prune:2027",))]


def test_what_was_done_in_all_the_garden_stays_done_when_the_garden_is_renamed(garden: Path) -> None:
    """The id of such a job held the garden's name, so that a new name asked for all of it once more."""
    day = "2027-05-25"
    assert "done: look for blight," in run("done", str(garden), "scorched tips", "--on", day).stdout
    file = garden / "garden.toml"
    file.write_text(
        file.read_text(encoding="utf-8").replace("[place]", '[place]\nname = "New Hill"'), "utf-8"
    )
    told = run("round", str(garden), "--on", day).stdout
    assert "New Hill" in told
    assert "done, look for scorched tips on" in told
    assert "now, look for scorched tips" not in told


def test_a_journal_that_calls_the_whole_garden_by_its_name_has_closed_its_jobs(garden: Path) -> None:
    """Older journals write the name of the garden where a job is done to all of it."""
    day, file = "2027-05-25", garden / "garden.toml"
    file.write_text(
        file.read_text(encoding="utf-8").replace("[place]", '[place]\nname = "New Hill"'), "utf-8"
    )
    assert "done, look" not in run("round", str(garden), "--on", day).stdout
    run("done", str(garden), "scorched tips", "--on", day)
    (journal,) = (garden / "journal").glob("2027*.toml")
    noted_now = journal.read_text(encoding="utf-8")
    assert '"garden:look-for-blight:2027"' in noted_now
    journal.write_text(noted_now.replace('"garden:look', '"New-Hill:look'), "utf-8")
    told = run("round", str(garden), "--on", day).stdout
    assert "now, look for scorched tips" not in told
    assert "done, look for scorched tips on" in told


@pytest.mark.parametrize(
    ("typed", "minutes"), [("1 hour", 60), ("1 h 30", 90), ("35", 35), ("half an hour", 30)]
)
def test_minutes_may_be_told_as_hours_by_command_as_in_the_pages(
    garden: Path, typed: str, minutes: int
) -> None:
    assert run("done", str(garden), "prune quince", "--on", ON, "--minutes", typed).returncode == 0
    (entry,) = open_almanac(garden, dt.date.fromisoformat(ON)).entries
    assert entry.minutes == minutes


def test_a_folder_with_a_blank_in_its_name_is_told_as_a_shell_takes_it(tmp_path: Path) -> None:
    folder = tmp_path / "my garden"
    said = run("new", str(folder), "--lat", "47").stdout
    assert f"Open it with: leafturn '{folder}'" in said


def test_a_job_of_the_plant_that_gave_the_garden_its_name_is_done(garden: Path) -> None:
    file = garden / "garden.toml"
    told = file.read_text(encoding="utf-8").replace("[place]", '[place]\nname = "quince"')
    file.write_text(told, encoding="utf-8")
    run("done", str(garden), "quince prune", "--on", ON)
    jobs = json.loads(run("round", str(garden), "--on", ON, "--json").stdout)["jobs"]
    assert ("quince:winter-prune:2027", "done") in [(job["id"], job["state"]) for job in jobs]
