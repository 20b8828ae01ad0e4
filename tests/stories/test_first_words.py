"""What a newcomer types first: a command where no garden is, and a bloom with the plant's name before it."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.in_process import run
from tests.samples.garden_text import garden_text, plant

ON = "2027-04-19"


@pytest.mark.parametrize("command", ["season", "partners", "note"])
def test_a_folder_without_a_garden_is_told_how_to_begin_one(command: str, tmp_path: Path) -> None:
    done = run(command, str(tmp_path), *(["frost"] if command == "note" else []), "--on", ON)
    assert done.returncode != 0
    assert f"Or begin one: leafturn new {tmp_path}" in done.stderr


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        ("plum bloom", "noted: plum: first open"),
        ("plum full bloom", "noted: plum: full bloom"),
        ("plum bloom was poor", "noted: plum bloom was poor"),
    ],
)
def test_a_bloom_is_understood_with_the_plant_named_first(typed: str, kept: str, tmp_path: Path) -> None:
    (tmp_path / "garden.toml").write_text(garden_text(plant("plum", "european plum", year=2000)), "utf-8")
    done = run("note", str(tmp_path), *typed.split(), "--on", ON)
    assert done.stdout.startswith(kept)
