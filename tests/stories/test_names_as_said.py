"""Plants are named as people name them, by cultivar and kind in one: "the Victoria plum", "Comice pears"."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.in_process import run
from tests.samples.garden_text import garden_text, heap, plant


@pytest.fixture
def garden(tmp_path: Path) -> str:
    text = garden_text(
        plant("by-the-gate", "european plum", cultivar="Victoria", year=2012, at=[0, 8]),
        plant("plum-2", "european plum", cultivar="Czar", year=2012, at=[6, 8]),
        plant("pear-1", "pear", cultivar="Comice", year=2012, at=[12, 8]),
        plant("pear-2", "pear", cultivar="Comice", year=2012, at="5 m east of the Victoria plum"),
        plant("pear-3", "pear", cultivar="Conference", year=2012, at=[18, 8]),
        heap("top-bay", at=[3, 4], stage="working"),
    )
    (tmp_path / "garden.toml").write_text(text, encoding="utf-8")
    return str(tmp_path)


def noted(garden: str, *words: str) -> str:
    return run("note", garden, *words, "--on", "2027-09-01").stdout


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        ("bloom Victoria plum --stage", "by-the-gate: first open"),
        ("the Victoria plum is in full bloom", "by-the-gate: full bloom"),
        ("Conference pear full bloom", "pear-3: full bloom"),
        ("3 kg of Czar plums", "plum-2: picked 3 kg,"),
        ("picked 3 kg off the Victoria plum", "by-the-gate: picked 3 kg,"),
        ("picked 3 kg of plums off the Victoria", "by-the-gate: picked 3 kg,"),
        ("picked 2 kg from pear-3", "pear-3: picked 2 kg,"),
        ("loss Victoria plum canker", "by-the-gate: loss by canker"),
        ("set victoria european plum good", "by-the-gate: set good"),
        ("top bay 61 degrees", "top-bay: 61 C inside"),
        ("reading top-bay 142 degrees F", "top-bay: 61.1 C inside"),
    ],
)
def test_a_plant_is_found_by_its_cultivar_and_kind(garden: str, typed: str, kept: str) -> None:
    assert f"noted: {kept}" in noted(garden, typed.removesuffix(" --stage"))


def test_of_two_plants_of_one_cultivar_and_kind_neither_is_taken(garden: str) -> None:
    told = noted(garden, "bloom Comice pear")
    assert "noted: pear" not in told
    assert "counts as no bloom" in told
    file = Path(garden) / "garden.toml"
    more = plant("quince-1", "quince", at="5 m east of the Comice pear")
    file.write_text(file.read_text() + "\n" + more, encoding="utf-8")
    assert "Comice pear are pear-1 and pear-2: write which." in run("check", garden).stdout


def test_what_was_picked_is_kept_in_words_where_these_tell_more_than_a_weight(garden: str) -> None:
    assert "picked 3 kg of small ones" in noted(garden, "picked 3 kg of small ones off the Victoria plum")


def test_a_place_may_be_told_from_such_a_plant(garden: str) -> None:
    assert run("check", garden, "--on", "2027-09-01").stdout.startswith("No faults")


@pytest.mark.parametrize(
    ("typed", "kind"), [("turned the top bay", "ticks no job"), ("a limb of pear-3 broke", "no damage")]
)
def test_words_that_count_for_nothing_say_so(garden: str, typed: str, kind: str) -> None:
    assert kind in noted(garden, typed)


def test_a_picture_is_written_only_under_a_name_that_tells_its_form(garden: str, tmp_path: Path) -> None:
    refused = run("picture", garden, "strip", "-o", str(tmp_path / "strip.png"))
    assert refused.returncode == 2
    assert ".svg" in refused.stderr
    assert not (tmp_path / "strip.png").exists()
