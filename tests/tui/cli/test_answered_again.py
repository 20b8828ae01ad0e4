"""A question asked again is answered at once while nothing has changed, and never by what was true before."""

from __future__ import annotations

import datetime as dt
import os
import stat
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from unittest import mock

import pytest
from tests.in_process import run
from tests.samples.garden_text import garden_text, plant
from tests.stories.terminal import environment

import leafturn_tui
from leafturn_tui.cli.kept_answers import FOLDER, answered_before, keep_answer

ON = ("--on", "2027-04-19")
ROUND = ("round", ".", "--json", *ON)


@pytest.fixture(autouse=True)
def own_cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    return tmp_path / "cache" / FOLDER


@pytest.fixture
def garden(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = tmp_path / "garden"
    (folder / "journal").mkdir(parents=True)
    (folder / "garden.toml").write_text(garden_text(plant("quince-1", "quince", year=2012)), "utf-8")
    monkeypatch.chdir(folder)
    return folder


@contextmanager
def nothing_reckoned() -> Iterator[None]:
    with mock.patch("leafturn_tui.commands.command_of", side_effect=AssertionError("reckoned anew")):
        yield


def is_reckoned(*words: str) -> bool:
    with mock.patch("leafturn_tui.cli.questions.parser_for", side_effect=ZeroDivisionError):
        try:
            run(*words)
        except ZeroDivisionError:
            return True
    return False


@pytest.mark.parametrize(
    "words",
    [("round",), ("round", "--json"), ("round", "--csv"), ("season",), ("partners", "--json"), ("check",)],
)
def test_the_same_words_are_answered_at_once(garden: Path, words: tuple[str, ...]) -> None:
    before = run(*words, *ON)
    with nothing_reckoned():
        again = run(*words, *ON)
    assert (again.stdout, again.stderr, again.returncode) == (before.stdout, "", 0)


def test_an_answer_with_a_fault_is_made_anew(garden: Path) -> None:
    """It may hang on what is not there."""
    _add("garden.toml", '\n[[plant]]\nid = "lost"\n')(garden)
    assert run(*ROUND).returncode == 1
    assert is_reckoned(*ROUND)


def test_a_started_program_does_not_load_what_it_does_not_need(garden: Path) -> None:
    code = (
        f"import sys; from leafturn_tui.command_line import main; main({[*ROUND]!r}); "
        "sys.exit(3 if 'numpy' in sys.modules else 0)"
    )
    first, again = (
        subprocess.run([sys.executable, "-c", code], capture_output=True, check=False, env=environment())
        for _ in range(2)
    )
    assert (first.returncode, again.returncode) == (3, 0)
    assert first.stdout == again.stdout


def _add(name: str, text: str) -> Callable[[Path], None]:
    def change(garden: Path) -> None:
        with (garden / name).open("a", encoding="utf-8") as file:
            file.write(text)

    return change


def _same_size_and_time(garden: Path) -> None:
    file = garden / "garden.toml"
    before, text = file.stat(), file.read_text("utf-8")
    file.write_text(text.replace("2012", "2013"), "utf-8")
    os.utime(file, ns=(before.st_atime_ns, before.st_mtime_ns))


@pytest.mark.parametrize(
    "change",
    [
        _add("garden.toml", "\n"),
        _add("kinds.toml", "\n"),
        _add("journal/2027.toml", "\n"),
        _add("journal/second.toml", "\n"),
        _add("journal.toml", "\n"),
        _add("journal/2027.toml.torn", "\n"),
        _same_size_and_time,
    ],
)
def test_a_file_that_changed_or_came_is_read(garden: Path, change: Callable[[Path], None]) -> None:
    run(*ROUND)
    change(garden)
    assert is_reckoned(*ROUND)


def test_files_that_may_not_be_written_to_any_more_are_read(garden: Path) -> None:
    run(*ROUND)
    with mock.patch("os.access", return_value=False):
        assert is_reckoned(*ROUND)


@pytest.mark.parametrize("name", ["weather", "forecast"])
def test_days_of_weather_that_came_are_read(garden: Path, name: str) -> None:
    text = (garden / "garden.toml").read_text("utf-8")
    (garden / "garden.toml").write_text(text.replace("[place]\n", f'[place]\n{name} = "days.csv"\n'), "utf-8")
    (garden / "days.csv").write_text("date,tmin_c,tmax_c\n2027-04-18,2,11\n", "utf-8")
    run(*ROUND)
    assert not is_reckoned(*ROUND)
    _add("days.csv", "2027-04-19,3,12\n")(garden)
    assert is_reckoned(*ROUND)


def test_other_words_days_and_folders_are_other_questions(garden: Path, tmp_path: Path) -> None:
    run(*ROUND)
    assert not is_reckoned(*ROUND)
    assert is_reckoned("round", ".", *ON)
    assert is_reckoned("round", ".", "--json", "--on", "2027-04-20")
    other = tmp_path / "other"
    garden.rename(other)
    garden.mkdir()
    os.chdir(other)
    assert is_reckoned(*ROUND)
    on = dt.date(2027, 4, 19)
    keep_answer("a", ["round"], on, [], lambda: True)
    assert answered_before(["round"], on) == "a"
    assert answered_before(["round"], dt.date(2027, 4, 20)) is None


def test_what_was_noted_is_told(garden: Path) -> None:
    run("plants", "--json", *ON)
    run("note", "bloom quince-1", *ON)
    assert "2027-04-19" in run("season", "--json", *ON).stdout
    run("season", "--json", *ON)
    run("note", "bloom quince-1 on 16 April", *ON)
    assert is_reckoned("season", "--json", *ON)


def test_a_garden_told_beside_is_read_when_it_changes(garden: Path, tmp_path: Path) -> None:
    text = garden_text(plant("quince-1", "quince", year=2012), also=["../beside"])
    (garden / "garden.toml").write_text(text, "utf-8")
    run(*ROUND)
    assert is_reckoned(*ROUND)  # as long as it cannot be read
    (tmp_path / "beside").mkdir()
    (tmp_path / "beside" / "garden.toml").write_text(garden_text(plant("pear-1", "pear")), "utf-8")
    (garden / "garden.toml").write_text(f"{text}\n", "utf-8")
    run(*ROUND)
    assert not is_reckoned(*ROUND)
    (tmp_path / "beside" / "garden.toml").write_text(garden_text(plant("pear-2", "pear")), "utf-8")
    assert is_reckoned(*ROUND)


def test_nothing_is_kept_of_files_that_change_meanwhile(garden: Path) -> None:
    with mock.patch("leafturn.almanac.Almanac.stale", return_value=True):
        run(*ROUND)
    assert is_reckoned(*ROUND)


def test_another_state_of_the_program_answers_anew(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    code = tmp_path / "code"
    (code / "room").mkdir(parents=True)
    (code / "room" / "rules.toml").write_text("", "utf-8")
    monkeypatch.setattr(leafturn_tui, "__path__", [str(code)])
    on = dt.date(2027, 4, 19)
    keep_answer("a", ["round"], on, [], lambda: True)
    assert answered_before(["round"], on) == "a"
    (code / "room" / "rules.toml").write_text("[rule]\n", "utf-8")
    assert answered_before(["round"], on) is None


def test_a_spoilt_answer_is_no_answer(garden: Path, own_cache: Path) -> None:
    run(*ROUND)
    (file,) = own_cache.iterdir()
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    whole = file.read_bytes()
    for at in (0, 40, len(whole) // 2, len(whole) - 1):
        for data in (whole[:at], whole[:at] + bytes([whole[at] ^ 1]) + whole[at + 1 :]):
            file.write_bytes(data)
            assert is_reckoned(*ROUND)
    file.write_bytes(whole)
    assert not is_reckoned(*ROUND)


def test_where_nothing_can_be_kept_nothing_is_said(garden: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", "/dev/null/cache")
    done = run(*ROUND)
    assert (done.returncode, done.stderr) == (0, "")
    assert is_reckoned(*ROUND)
    assert answered_before(ROUND, dt.date(2027, 4, 19)) is None
