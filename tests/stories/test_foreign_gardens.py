"""Stories of a garden folder that came from someone else: links out of it, pipes and devices in it."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from tests.in_process import run
from tests.samples.garden_text import garden_text, plant

ON = ("--on", "2027-04-19")


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    folder = tmp_path / "garden"
    folder.mkdir()
    text = garden_text(plant("comice", "pear", cultivar="Comice"), plant("conference", "pear"))
    (folder / "garden.toml").write_text(text)
    return folder


@pytest.mark.parametrize("linked", ["papers", "papers/bloom.ics"])
def test_a_feed_never_writes_through_a_link_out_of_the_garden(garden: Path, linked: str) -> None:
    outside = garden.parent / "outside"
    outside.mkdir()
    victim = outside / "bloom.ics"
    victim.write_text("another's")
    (garden / linked).parent.mkdir(exist_ok=True)
    (garden / linked).symlink_to(outside if linked == "papers" else victim)
    done = run("feed", str(garden), *ON)
    assert done.returncode == 2
    assert "outside the garden's folder" in done.stderr
    assert len(done.stderr.splitlines()) == 1
    assert "papers/bloom.ics" in done.stderr.split(" could not be written: ")[0]
    assert ("papers/jobs-steward.ics" in done.stdout) == (linked != "papers"), "the others are written"
    assert victim.read_text() == "another's"
    assert list(outside.iterdir()) == [victim]


@pytest.mark.long
def test_what_is_no_file_is_said_and_never_waited_for(garden: Path) -> None:
    """A pipe nobody writes to, a device without an end, a folder, links in a ring: all of them at once."""
    (garden / "journal").mkdir()
    with (garden / "garden.toml").open("r+") as file:
        text = file.read().replace("[place]\n", '[place]\nweather = "weather.csv"\n')
        file.seek(0)
        file.write(text)
    os.mkfifo(garden / "weather.csv")
    (garden / "kinds.toml").symlink_to("/dev/zero")
    os.mkfifo(garden / "journal.toml")
    (garden / "journal" / "2025.toml").symlink_to("2025.toml")
    (garden / "journal" / "2026.toml").mkdir()
    (garden / "journal" / "2027.toml").symlink_to("/dev/zero")
    (garden / "papers").mkdir()
    os.mkfifo(garden / "papers" / "bloom.ics")
    said = told("check", garden)
    for file, why in (
        ("weather.csv", "a pipe"),
        ("kinds.toml", "outside the garden's folder"),
        ("journal.toml", "a pipe"),
        ("journal/2025.toml", "round in a ring"),
        ("journal/2026.toml", "a folder"),
        ("journal/2027.toml", "outside the garden's folder"),
    ):
        assert any(line.startswith(f"{file}: ") and why in line for line in said.splitlines()), file
    assert "first open" in told("season", garden)
    assert "a pipe" in told("feed", garden)


def told(command: str, garden: Path) -> str:
    """What a command says, started as its own process, since it may hang."""
    start = [sys.executable, "-m", "leafturn_tui.command_line", command, str(garden), *ON]
    done = subprocess.run(start, capture_output=True, text=True, timeout=60, check=False)
    assert "Traceback" not in done.stderr, done.stderr[-300:]
    return done.stdout + done.stderr


@pytest.mark.parametrize("file", ["garden.toml", "kinds.toml", "weather.csv", "journal/2027.toml"])
def test_no_word_of_a_file_outside_the_garden_is_told(garden: Path, file: str) -> None:
    secret = garden.parent / "secret"
    secret.write_text("the secret word\n")
    with (garden / "garden.toml").open("a") as own:
        own.write('also = ["../secret"]\n')
    (garden / file).unlink(missing_ok=True)
    (garden / file).parent.mkdir(exist_ok=True)
    (garden / file).symlink_to(secret)
    if file == "weather.csv":
        text = (garden / "garden.toml").read_text()
        (garden / "garden.toml").write_text(text.replace("[place]\n", '[place]\nweather = "weather.csv"\n'))
    for command in ("check", "round", "note"):
        words = ("the gate stuck",) if command == "note" else ()
        done = run(command, str(garden), *words, *ON)
        assert "secret word" not in done.stdout + done.stderr
        assert "folder" in done.stdout + done.stderr
    assert secret.read_text() == "the secret word\n"
