"""Stories of days and numbers nobody can mean, of a day far ahead, and of a program ended from outside."""

from __future__ import annotations

import datetime as dt
import os
import signal
import time
import warnings
from pathlib import Path

import pytest
from terminal import Terminal
from tests.in_process import run
from tests.samples.garden_text import garden_text, heap, plant
from tests.samples.journal import toml_entries

from leafturn_tui.command_line import main

ON = ("--on", "2027-04-19")
TODAY = dt.date(2027, 4, 19)
COMMANDS = ("round", "season", "partners", "canopy", "heaps", "larder", "heed", "weather")


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    return with_text(
        tmp_path, garden_text(plant("comice", "pear", at=[0, 0]), plant("plum", "european plum"))
    )


def with_text(folder: Path, text: str) -> Path:
    (folder / "garden.toml").write_text(text)
    return folder


def check(garden: Path) -> str:
    return run("check", str(garden), *ON).stdout


# ---- days ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("day", ["0001-01-01", "0202-04-19", "1849-12-31", "2201-01-01", "9999-12-31"])
def test_a_note_of_a_year_nobody_means_is_left_out_and_said(garden: Path, day: str) -> None:
    (garden / "journal").mkdir()
    note = f'[[entry]]\non = {day}\nwhat = "weather"\ntmin_c = 2\n'
    (garden / "journal" / "2027.toml").write_text(note)
    assert f"line 1: on = {day} lies outside the years 1850 to 2200" in check(garden)
    for command in COMMANDS:
        run(command, str(garden), *ON)


def test_weather_rows_of_a_year_nobody_means_are_left_out_and_said(garden: Path) -> None:
    with_text(garden, garden_text(plant("comice", "pear"), weather="weather.csv"))
    rows = [f"0001-01-{day:02},1,9" for day in range(1, 20)]
    (garden / "weather.csv").write_text("\n".join(["date,tmin_c,tmax_c", *rows]))
    assert "lies outside the years 1850 to 2200" in check(garden)
    for command in COMMANDS:
        run(command, str(garden), *ON)


def test_a_note_far_ahead_is_asked_about_confirmed_with_its_year_and_moves_nothing(
    garden: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """It once sent every later note into the file of that year."""
    far = ["note", str(garden), "harvest comice 4 kg", "--on", "2072-04-19"]
    assert main(far, today=TODAY) == 0
    told = capsys.readouterr()
    assert "Tue 19 Apr 2072 is 45 years ahead. Note it of that day?" in told.err
    assert "19 Apr 2072" in told.out
    assert main(["note", str(garden), "harvest comice 5 kg"], today=TODAY) == 0
    assert "5 kg, 19 Apr\n" in capsys.readouterr().out
    main(["sheet", str(garden), "--on", "2072-04-19"], today=TODAY)
    main(["done", str(garden), "comice:winter-prune", "--on", "2071-02-19"], today=TODAY)
    (file,) = (garden / "journal").glob("*.toml")
    assert file.name == "2027.toml"
    assert {entry["id"][:10] for entry in toml_entries(file)} == {"2027-04-19"}


def test_a_no_keeps_nothing(garden: Path) -> None:
    with Terminal(["note", str(garden), "harvest comice 4 kg", "--on", "2199-04-19"]) as terminal:
        terminal.wait_for("(y/n)")
        terminal.type("n\r")
        terminal.wait_for("Nothing was noted.")
    assert not (garden / "journal").exists()


# ---- numbers -------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "text",
    [
        garden_text(plant("a", "pear", at=[0, 0]), "[[path]]\nline = [[1e200, 0], [0, 0]]\n"),
        garden_text(plant("a", "pear", at=[1e300, 0])),
        garden_text(plant("a", "pear"), heap("h", mix=[{"what": "straw", "kg": 1e308}], bay_m=[1e308, 1, 1])),
        garden_text(plant("a", "pear", guard={"height_cm": 1e300})),
        garden_text(plant("a", "pear", patch_m2=1e300)),
        garden_text(plant("a", "pear"), height_m=1e308),
        garden_text(plant("a", "pear"), height_m=-1e9),
        garden_text(plant("a", "pear"), warming_c_per_decade=1e308),
    ],
    ids=["path", "place", "heap", "guard", "patch", "height", "depth", "warming"],
)
def test_a_number_nobody_means_is_said_and_all_is_answered(tmp_path: Path, text: str) -> None:
    said = check(with_text(tmp_path, text))
    assert any(words in said for words in ("lies above", "lies below"))
    for command in COMMANDS:
        run(command, str(tmp_path), *ON)


def test_weather_of_every_second_day_warns_of_nothing(garden: Path) -> None:
    with_text(garden, garden_text(plant("comice", "pear"), weather="weather.csv", climate=None))
    first = dt.date(2020, 1, 1)
    days = [first + dt.timedelta(days=2 * n) for n in range(1_300)]
    rows = [f"{day},{day.month},{day.month + 9}" for day in days]
    (garden / "weather.csv").write_text("\n".join(["date,tmin_c,tmax_c", *rows]))
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        for command in COMMANDS:
            assert "Warning" not in run(command, str(garden), *ON).stderr


# ---- ended from outside --------------------------------------------------------------------------


@pytest.mark.sweep(each=2)
@pytest.mark.parametrize("ending", [signal.SIGTERM, signal.SIGHUP])
def test_ended_from_outside_it_gives_the_terminal_back(garden: Path, ending: signal.Signals) -> None:
    with Terminal([str(garden), *ON]) as terminal:
        terminal.wait_for("What needs hands this week?")
        terminal.settle()
        os.kill(terminal.child.pid, ending)
        end = time.monotonic() + 30
        while time.monotonic() < end and terminal.child.isalive():
            terminal.read(0.1)
        terminal.settle(0.1)
        assert b"\x1b[?1049l" in terminal.bytes[-400:], "the alternate screen is left"
        assert b"\x1b[?25h" in terminal.bytes[-400:], "the cursor is shown"
        terminal.child.close()
        assert terminal.child.exitstatus == 128 + ending
