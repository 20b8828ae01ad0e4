"""Stories of a garden on a disk that may only be read, with nowhere to keep what can be made again."""

from __future__ import annotations

import re
import shutil
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest
from tests.in_process import run
from tests.samples.garden_text import garden_text, plant
from tests.stories.terminal import Terminal, environment
from tests.stories.without_rights import COMMAND

ON = ("--on", "2027-04-19")
TEXT = garden_text(plant("comice", "pear", cultivar="Comice"), plant("conference", "pear"))
NOTE = '[[entry]]\non = 2027-04-01\nwhat = "look"\ntext = "buds swell"\n'
NO_NOTES = "The journal's folder cannot be written, so no note can be kept: it may not be written to."

NOT_WRITTEN = "garden.toml: nothing was written: it may not be written to."


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    folder = tmp_path / "garden"
    (folder / "journal").mkdir(parents=True)
    (folder / "garden.toml").write_text(TEXT)
    (folder / "journal" / "2027.toml").write_text(NOTE)
    (tmp_path / "cache").mkdir()
    return folder


@pytest.fixture
def closed(garden: Path) -> Iterator[Path]:
    """The garden, once neither it nor the folder for what can be made again may be written to."""
    shut = [garden.parent / "cache", garden, *garden.rglob("*")]
    for path in shut:
        path.chmod(0o555 if path.is_dir() else 0o444)
    yield garden
    for path in shut:
        path.chmod(0o755)


def told(garden: Path, command: str, *words: str, cache: str = "cache") -> subprocess.CompletedProcess[str]:
    env = environment({"XDG_CACHE_HOME": str(garden.parent / cache)})
    start = [*COMMAND, command, str(garden), *words, *ON]
    done = subprocess.run(start, capture_output=True, text=True, env=env, timeout=60, check=False)
    if "cannot give up its rights" in done.stderr:
        pytest.skip(done.stderr)
    assert "Traceback" not in done.stderr, done.stderr[-300:]
    return done


def held(garden: Path) -> dict[Path, bytes]:
    """Every file beside the garden and in it."""
    return {path: path.read_bytes() for path in garden.parent.rglob("*") if path.is_file()}


@pytest.mark.long
def test_a_garden_that_may_only_be_read_is_checked_and_answered(closed: Path) -> None:
    before = held(closed)
    check = told(closed, "check")
    assert check.returncode == 0
    assert NO_NOTES in check.stdout.splitlines()
    for command in ("round", "season", "book"):
        open_to_all = run(command, str(closed), *ON)
        done = told(closed, command)
        assert done.returncode == 0
        assert [line for line in done.stdout.splitlines() if line != NO_NOTES] == [
            line for line in open_to_all.stdout.splitlines() if line != NO_NOTES
        ]
    assert held(closed) == before


@pytest.mark.sweep(each=3)
@pytest.mark.parametrize(
    ("command", "words"),
    [("note", ("comice", "first", "open")), ("feed", ()), ("sheet", ("-o", "{garden}/week.txt"))],
)
def test_what_would_write_is_refused_in_a_sentence(
    closed: Path, command: str, words: tuple[str, ...]
) -> None:
    before = held(closed)
    done = told(closed, command, *(word.format(garden=closed) for word in words))
    assert done.returncode == 2
    assert done.stdout == ""
    assert done.stderr.count("\n") == 1
    assert re.search("(cannot|could not) be written", done.stderr)
    assert held(closed) == before


@pytest.mark.sweep(each=3)
@pytest.mark.parametrize(
    ("command", "words", "why"),
    [
        ("change", ("comice", "year", "2012"), NOT_WRITTEN),
        (
            "move",
            ("comice", "5n"),
            "Nothing was noted: the journal cannot be written; leafturn check says why.",
        ),
        ("add", ("medlar",), NOT_WRITTEN),
    ],
)
def test_an_edit_that_the_disk_refuses_is_no_fault_of_the_words_typed(
    closed: Path, command: str, words: tuple[str, ...], why: str
) -> None:
    """So no way to the help on them is shown, which would not help."""
    before = held(closed)
    done = told(closed, command, *words)
    assert done.returncode == 2
    assert done.stderr == f"{why}\n"
    assert "Written" not in done.stdout
    assert held(closed) == before


def test_the_pages_open_and_close(closed: Path) -> None:
    before = held(closed)
    env = {"XDG_CACHE_HOME": str(closed.parent / "cache")}
    with Terminal([str(closed), *ON], env=env, command=COMMAND) as terminal:
        terminal.wait_for("What needs hands this week?")
        assert terminal.leave() == 0
    assert held(closed) == before


@pytest.mark.parametrize("stands", ["a file", "a ring"])
def test_where_no_cache_can_be_a_garden_is_checked_all_the_same(garden: Path, stands: str) -> None:
    cache = garden.parent / "cache"
    cache.rmdir()
    if stands == "a file":
        cache.write_text("of another program")
    else:
        cache.symlink_to(cache)
    check = told(garden, "check")
    assert (check.returncode, check.stderr) == (0, "")
    assert check.stdout.startswith("No faults")


def test_own_kinds_behind_links_in_a_ring_are_said_and_the_rest_is_answered(garden: Path) -> None:
    """Two links that lead to each other, as copying a garden about can leave them."""
    plain = run("round", str(garden), *ON)
    shutil.copytree(garden, linked := garden.parent / "linked")
    (linked / "kinds.toml").symlink_to("kinds-of-mine.toml")
    (linked / "kinds-of-mine.toml").symlink_to("kinds.toml")
    said = "kinds.toml: The file of own kinds cannot be read: its links lead round in a ring."
    check = run("check", str(linked), *ON)
    assert check.returncode == 1
    assert check.stdout.splitlines()[0] == said
    answered = run("round", str(linked), *ON)
    assert answered.returncode == 1
    assert [line for line in answered.stdout.splitlines() if line != said] == plain.stdout.splitlines()
    of_the_file = run("kinds", "--check", str(linked / "kinds.toml"))
    assert of_the_file.returncode == 2
    assert "round in a ring" in of_the_file.stderr
    assert of_the_file.stderr.count("\n") == 1


@pytest.mark.sweep(each=4)
@pytest.mark.parametrize(
    "words",
    [("check", "{garden}"), ("{garden}",), ("round", "{garden}", "{garden}"), ("note", "{garden}", "a"),
     ("tonight", "{garden}", "-3"), ("book", "{garden}", "--verify"), ("demo", "--into", "{garden}/demo"),
     ("new", "{garden}/mine", "--lat", "46", "--lon", "15")],
)  # fmt: skip
def test_a_folder_that_may_not_be_entered_is_said_in_a_sentence(garden: Path, words: tuple[str, ...]) -> None:
    before = held(garden)
    garden.parent.chmod(0o000)
    start = [*COMMAND, *(word.format(garden=garden) for word in words)]
    done = subprocess.run(start, capture_output=True, text=True, env=environment(), timeout=60, check=False)
    garden.parent.chmod(0o755)
    assert done.returncode == 2
    assert done.stderr.count("\n") == 1
    writes = words[0] in ("demo", "new")
    assert ("it may not be written to" if writes else "you have no right to read it") in done.stderr
    assert held(garden) == before


@pytest.mark.long
def test_pages_whose_garden_may_no_longer_be_read_say_so_and_go_on(garden: Path) -> None:
    with Terminal([str(garden), *ON], command=COMMAND) as terminal:
        terminal.wait_for("What needs hands this week?")
        garden.chmod(0o000)
        terminal.press("down")
        terminal.wait_for("you have no right to read it")
        garden.chmod(0o755)
        terminal.press("down")
        terminal.wait_for(lambda text: "you have no right to read it" not in text)
        assert terminal.leave() == 0
