"""Story: plants that the library knows not, told by what the garden file says of them.

A kind nobody knows is one of guesses; but what has grown as a tree may fall as one, whatever its name, and
what is led up a host is a climber.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.in_process import run
from tests.samples.garden_text import garden_text, heap, plant

PATH = '[[path]]\nline = [[-20, -9], [30, -9]]\nused = "daily"\n'
OLD = plant("giant", "mountain pippin", year=1925, height_m=22, trunk_cm=110, state="declining", at=[0, 0])


def asked(folder: Path, question: str, *things: str) -> str:
    (folder / "garden.toml").write_text(garden_text(*things), encoding="utf-8")
    done = run(question, str(folder), "--on", "2027-04-19")
    assert done.returncode in (0, 1), done.stderr
    return done.stdout


def test_a_failing_tree_of_no_known_kind_is_told_where_people_pass(tmp_path: Path) -> None:
    said = asked(tmp_path, "heed", OLD, PATH, heap("bay", at=[0, 6]))
    assert "giant is declining, 22 m high. In reach: path 9 m off" in said
    assert "inspector" in said


def test_it_is_an_old_tree_of_the_canopy_with_its_years_and_light(tmp_path: Path) -> None:
    said = asked(tmp_path, "canopy", OLD, PATH, plant("currant", "redcurrant", year=2020, at=[0, 5]))
    assert "giant, mountain pippin, 1925, 22 m:" in said
    assert "currant, 5.0 m N:" in said
    assert "its kind lives about" not in said, "of a kind nobody knows no length of life is told"


@pytest.mark.parametrize("figures", [{"height_m": 9}, {"trunk_cm": 30}])
def test_what_has_grown_as_a_tree_is_taken_for_one(tmp_path: Path, figures: dict[str, float]) -> None:
    said = asked(tmp_path, "check", plant("stranger", "mountain pippin", year=1990, at=[0, 0], **figures))
    assert '"mountain pippin" is not in the plant library: it is treated as a tree' in said


def test_what_is_low_is_taken_for_a_shrub_and_asked_about(tmp_path: Path) -> None:
    said = asked(tmp_path, "check", plant("stranger", "mountain pippin", year=2020, at=[0, 0], height_m=2))
    assert "it is treated as a shrub" in said
    assert "Write its English or botanical name. Or tell in kinds.toml beside the garden file" in said


def test_what_is_led_up_a_host_is_a_climber(tmp_path: Path) -> None:
    host = plant("apple", "apple", year=2005, at=[0, 0])
    said = asked(tmp_path, "climbers", host, plant("stranger", "purple pippin", host="apple", year=2015))
    assert "stranger on apple:" in said


def test_a_patch_of_bulbs_is_never_near_its_end(tmp_path: Path) -> None:
    """Ramsons go on by seed and offsets; a currant does not (common practice, no source)."""
    things = [
        plant("patch", "ramsons", year=1999, at=[0, 0]),
        plant("shrub", "redcurrant", year=2009, at=[5, 0]),
    ]
    said = asked(tmp_path, "canopy", OLD, *things)
    assert "near the end of its life: shrub" in said
    assert "near the end of its life: patch" not in said
