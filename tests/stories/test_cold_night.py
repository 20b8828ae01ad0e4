"""A cold night is typed in; the answer comes at once, plant by plant."""

from __future__ import annotations

import json
import os
import sys
from pathlib import Path
from subprocess import CompletedProcess
from typing import Any

import pexpect
import pytest
from terminal import COMMAND, SOURCES
from tests import in_process

ON = ["--on", "2027-04-19"]
ENVIRONMENT = os.environ | {"PYTHONPATH": SOURCES}


def run(*words: str | Path, cwd: Path | None = None) -> CompletedProcess[str]:
    return in_process.run(*map(str, words), cwd=cwd)


def answer(*words: str | Path) -> dict[str, Any]:
    done = run(*words, *ON, "--json")
    assert done.returncode == 0, done.stderr
    found: dict[str, Any] = json.loads(done.stdout)
    return found


def test_every_plant_in_flower_with_its_range(asked: Path) -> None:
    done = run("tonight", asked, "-3", *ON)
    assert (done.returncode, done.stderr) == (0, "")
    lines = done.stdout.splitlines()
    assert lines[0].startswith("What would a night of -3.0 C do?  Mon 19 Apr 2027, Weir Meadow")
    assert "In the garden -3.0 C; the weather station would read -2.0 C." in lines
    plum = next(line for line in lines if line.startswith("early-plum: "))
    assert " of 10 (" in plum
    assert "computed from first open noted 29 Mar" in plum
    assert "a tenth at -2.2 C" in plum
    assert not (asked / "journal").joinpath("2027.toml").read_text().count("tmin_c = -3.0") > 1


def test_every_spelling_of_one_temperature_gets_one_answer(asked: Path) -> None:
    answers = [
        answer("tonight", asked, *words) for words in (["-3"], ["-3C"], ["-3,0"], ["26.6", "f"], ["26.6F"])
    ]
    for found in answers:
        assert found["garden_celsius"] == -3
        assert found["question"] is None
        assert found["plants"] == answers[0]["plants"]


def test_minus_three_fahrenheit_is_converted_and_asked_about(asked: Path) -> None:
    done = run("tonight", asked, "-3F", *ON)
    assert done.returncode == 0
    assert done.stderr == "That is -19.4 C: sure? It was taken as typed.\n"
    found = answer("tonight", asked, "-3F")
    assert found["question"] == "that is -19.4 C: sure?"
    assert found["garden_celsius"] == pytest.approx(-19.444, abs=0.001)


@pytest.mark.sweep(each=2)
@pytest.mark.parametrize(("key", "told"), [("n", False), ("y", True)])
def test_at_a_terminal_the_answer_waits_for_a_yes(asked: Path, key: str, told: bool) -> None:
    child = pexpect.spawn(
        sys.executable,
        [*COMMAND[1:], "tonight", str(asked), "-3F", *ON],
        env=ENVIRONMENT,
        encoding="utf-8",
        timeout=60,
        dimensions=(40, 200),
    )
    child.expect_exact("That is -19.4 C: sure? (y/n)")
    child.sendline(key)
    child.expect(pexpect.EOF)
    assert ("In the garden -19.4 C" in (child.before or "")) is told


def test_the_answer_for_a_program_has_plain_nouns_and_units(asked: Path) -> None:
    found = answer("tonight", asked, "-3")
    assert {"leafturn", "garden", "on", "faults", "notes", "garden_celsius", "station_celsius", "question",
            "plants", "not_known", "caution"} == set(found)  # fmt: skip
    shares = [plant["share_lost"] for plant in found["plants"]]
    assert shares == sorted(shares, reverse=True)
    for plant in found["plants"]:
        assert {
            "plant", "kind", "stage", "stage_from", "share_lost", "share_lost_low", "share_lost_high",
            "tenth_lost_at_celsius", "nine_tenths_lost_at_celsius", "height_metres", "cover", "cover_words",
            "words", "basis",
        } == set(plant)  # fmt: skip
        assert 0 <= plant["share_lost_low"] <= plant["share_lost"] <= plant["share_lost_high"] <= 1


def test_a_plum_in_first_bloom_loses_a_tenth_at_27_f_and_nine_tenths_at_23(tmp_path: Path) -> None:
    """European plum, first bloom 27/23 F (Penn State Extension, "Orchard Frost", and Utah State, read)."""
    (tmp_path / "garden.toml").write_text(
        '[place]\nlat = 46.9\nlon = 15.9\nlast_frost = "04-24"\nfirst_frost = "10-16"\n\n'
        '[[plant]]\nid = "plum"\nkind = "european plum"\nyear = 2010\nat = "gate"\n'
    )
    noted = run("note", tmp_path, "bloom", "plum", "--stage", "first open", "--on", "2027-04-19")
    assert noted.returncode == 0, noted.stderr
    for degrees, share in (("27F", 0.1), ("23F", 0.9)):
        (plum,) = answer("tonight", tmp_path, degrees)["plants"]
        assert plum["stage"] == "first open"
        assert plum["stage_from"] == "noted today"
        assert plum["share_lost"] == pytest.approx(share, abs=0.06)
        assert plum["share_lost_low"] < share < plum["share_lost_high"]


def test_noted_it_becomes_a_cold_night_of_the_journal(tmp_path: Path) -> None:
    (tmp_path / "garden.toml").write_text(
        "[place]\nlat = 46.9\nlon = 15.9\nfrost_pocket_c = -1.0\n"
        '[[plant]]\nid = "plum"\nkind = "european plum"\nyear = 2010\n'
    )
    assert run("note", tmp_path, "slow-worm under the lid", *ON).returncode == 0
    done = run("tonight", tmp_path, "26F", "--note", *ON)
    assert done.returncode == 0, done.stderr
    assert done.stdout.splitlines()[-1] == "noted: cold night given: -3.3 C, 19 Apr"
    quietly = run("tonight", tmp_path, "-4", "--station", "--note", "--json", *ON)
    assert json.loads(quietly.stdout)["garden_celsius"] == -5
    newest, first, other = answer("book", tmp_path)["entries"]
    assert (newest["what"], first["what"], other["what"]) == ("cold", "cold", "note")
    assert "cold night given: -5 C" in newest["words"]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["tonight", "warm"], "'warm' is no temperature; write -3 or 27F."),
        (["tonight", "-300"], "-300 C has never been measured in air; write -3 or 27F."),
        (["tonight", "no-such-garden", "-3"], "no-such-garden: there is no such folder or file."),
        (["tonight"], "leafturn tonight --help"),
    ],
)
def test_what_is_not_understood_gets_one_sentence(asked: Path, words: list[str], said: str) -> None:
    assert said in in_process.refused(*words, cwd=asked)


def test_the_season_tells_frost_at_three_depths(asked: Path) -> None:
    found = answer("season", asked)
    assert [frost["threshold_celsius"] for frost in found["frosts"]] == [0, -2.2, -4.4]
    first = found["frosts"][0]
    assert {key: first[key] for key in found["frost"]} == found["frost"]
    assert set(first["station"]) == {"last", "first"}
    assert set(found["frost_free_days"]) == {"p10", "p50", "p90"}
    trend = found["frost_trend_days_per_decade"]
    assert trend["low"] <= trend["likely"] <= trend["high"]
    assert trend["words"] in run("season", asked, *ON).stdout
    assert {loss["plant"] for loss in found["frost_losses"]} >= {"early-plum", "comice-1", "boskoop"}


def test_a_job_of_tonight_says_tonight_once_as_its_state(asked: Path) -> None:
    said = run("round", asked, *ON).stdout.splitlines()
    head = next(line for line in said if line.startswith("tonight, "))
    assert head.startswith("tonight, cover ")
    assert head.count("tonight") == 1
    jobs = [job for job in answer("round", asked)["jobs"] if job["verb"] == "cover" and job["state"] == "due"]
    assert jobs
    assert not any("tonight" in job["title"] for job in jobs)
    assert all(job["why"][0].startswith("Tonight may fall to") for job in jobs)
