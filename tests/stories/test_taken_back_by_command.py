"""What a command noted or wrote is taken back by a command, and had again."""

from __future__ import annotations

from pathlib import Path

import pytest
from test_garden_kept_by_commands import said
from test_garden_kept_from_pages import WRITTEN
from tests.in_process import refused

ON = ("--on", "2027-04-19")


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    (tmp_path / "garden.toml").write_text(WRITTEN)
    return tmp_path


def ids(at: str) -> dict[str, str]:
    """The id of each note by its words, as `leafturn book` tells them."""
    notes = (line.rsplit(", note ", 1) for line in said("book", at, *ON).splitlines() if ", note " in line)
    return {words.split(", ", 1)[1].rsplit("2027, ")[-1]: note for words, note in notes}


def test_the_last_note_is_taken_back_and_had_again(garden: Path) -> None:
    at = str(garden)
    said("note", at, "bloom", "pear-1", *ON)
    said("note", at, "a toad", *ON)
    told = said("take-back", at)
    assert "taken back: a toad" in told
    again = told.split("To have it again: leafturn ")[1].split()
    assert "taken back: " in said(*again)
    assert said("take-back", at).startswith("taken back: a toad"), "it counts again, and is the newest"


def test_a_note_is_taken_back_by_its_id(garden: Path) -> None:
    at = str(garden)
    said("note", at, "bloom", "pear-1", *ON)
    said("note", at, "a toad", *ON)
    bloom = next(note for words, note in ids(at).items() if "first open" in words)
    assert "taken back: pear-1: first open" in said("take-back", at, bloom)
    assert "is taken back already" in refused("take-back", at, bloom)
    assert "leafturn book tells the id of each" in refused("take-back", at, "xyzzy")
    assert "one note at a time" in refused("take-back", at, bloom, bloom).lower()


def test_a_plant_told_as_gone_is_taken_back_with_its_note(garden: Path) -> None:
    at, file = str(garden), garden / "garden.toml"
    said("change", at, "pear-1", "year", "2013")
    changed = file.read_text()
    said("gone", at, "heartnut", "hail", "--on", "2026-07-08")
    told = said("take-back", at)
    assert "garden.toml is as it was before heartnut was changed" in told
    assert "taken back: heartnut: loss by hail" in told
    assert file.read_text() == changed
    assert "as it was before pear-1 was changed" in said("take-back", at)
    assert file.read_text() == WRITTEN
    assert said("take-back", at) == "There is nothing to take back.\n"


def test_a_file_changed_by_hand_since_is_left_alone(garden: Path) -> None:
    at, file = str(garden), garden / "garden.toml"
    said("change", at, "pear-1", "year", "2013")
    by_hand = file.read_text() + "# mine\n"
    file.write_text(by_hand)
    assert said("take-back", at) == "There is nothing to take back.\n"
    assert file.read_text() == by_hand


def test_help_names_every_command(garden: Path) -> None:
    from leafturn_tui.commands import commands

    told = said("--help")
    missing = [name for name in commands() if f"  leafturn {name}" not in told]
    assert not missing
