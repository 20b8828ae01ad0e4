"""What the climbers command says: growth in its season, and what is cut instead of trained."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from tests.in_process import run
from tests.samples.garden_text import garden_text, plant

PLACE = {"lat": 40.0, "lon": -75.2, "region": "pennsylvania"}


def garden(folder: Path, *things: str) -> Path:
    (folder / "garden.toml").write_text(garden_text(*things, **PLACE), "utf-8")
    return folder


def climber(where: Path, on: str) -> dict[str, Any]:
    """The first climber as JSON tells it."""
    told: dict[str, Any] = json.loads(run("climbers", str(where), "--on", on, "--json").stdout)["climbers"][0]
    return told


def rounds(where: Path, on: str) -> list[dict[str, Any]]:
    told = json.loads(run("round", str(where), "--on", on, "--json").stdout)
    return [*told["jobs"], *told["waiting"]]


@pytest.mark.parametrize("cut", ["2026-07-04", ""])
def test_growth_comes_in_the_growing_season_and_not_at_new_year(tmp_path: Path, cut: str) -> None:
    """Shoots grow in leaf: from leaf fall until the next leaves nothing told of them changes."""
    where = garden(tmp_path, plant("kiwi", "hardy kiwi", sex="female", year=2015, host="post trellis"))
    if cut:
        assert run("done", str(where), "kiwi:summer-cut", "--on", cut).returncode == 0
    december = climber(where, "2026-12-31")
    assert december["grown_m"] > 2
    assert december["topped"]["likely"].startswith("2026-")
    for on in ("2027-01-01", "2027-03-01"):
        later = climber(where, on)
        assert (later["grown_m"], later["topped"]) == (december["grown_m"], december["topped"])
        assert "no growth" not in run("climbers", str(where), "--on", on).stdout
    assert run("done", str(where), "kiwi:winter-cut", "--on", "2027-03-02").returncode == 0
    after = climber(where, "2027-03-03")
    assert after["grown_m"] == 0
    assert after["topped"]["likely"].startswith("2027-")
    assert climber(where, "2027-07-20")["grown_m"] > 1


def test_a_climber_of_this_spring_has_not_grown_last_year(tmp_path: Path) -> None:
    where = garden(tmp_path, plant("kiwi", "hardy kiwi", sex="female", year=2027, host="post trellis"))
    assert climber(where, "2027-03-01")["grown_m"] == 0


@pytest.mark.parametrize("kind", ["Lonicera japonica", "oriental bittersweet", "kudzu"])
def test_a_climber_that_is_listed_here_is_cut_at_its_foot_and_led_nowhere(tmp_path: Path, kind: str) -> None:
    """Cut near the ground and left to die in the crown (pages of the North-east, excerpts read)."""
    where = garden(
        tmp_path,
        plant("vine", kind, year=2015, host="plum"),
        plant("plum", "european plum", year=1990, state="declining", height_m=6, trunk_cm=31, at=[0, 0]),
        plant("nut", "persian walnut", year=1985, trunk_cm=45, at=[15, 0]),
    )
    told = climber(where, "2027-02-01")
    assert told["next_cut"] == "cut out now"
    assert (told["train_by"], told["other_hosts"]) == (None, [])
    assert not any("train the climber" in said or "could carry it" in said for said in told["says"])
    for on in ("2027-02-01", "2027-05-15", "2027-07-10"):
        verbs = {job["verb"] for job in rounds(where, on) if "vine" in [m["plant"] for m in job["members"]]}
        assert verbs <= {"cut out", "cut regrowth"}, on
    (cut,) = [job for job in rounds(where, "2027-02-01") if job["verb"] == "cut out"]
    assert "Pull nothing down" in " ".join(cut["cautions"])
    heed = run("heed", str(where), "--on", "2027-02-01").stdout
    assert "known to spread into wild land, listed for Pennsylvania" in heed


def test_what_a_listed_climber_sends_up_again_is_cut_every_few_weeks(tmp_path: Path) -> None:
    """Every two weeks until autumn, till the root starves (Walter Reeves, Kudzu - Control in Winter)."""
    where = garden(
        tmp_path, plant("vine", "kudzu", year=2019, host="maple"),
        plant("maple", "red maple", year=1930, height_m=16, trunk_cm=45, at=[0, 0]),
    )  # fmt: skip
    assert climber(where, "2027-07-05")["verdict"] == "cut out"

    def due(on: str) -> bool:
        return any(j["verb"] == "cut regrowth" and j["state"] in ("due", "soon") for j in rounds(where, on))

    assert not due("2027-04-01")
    assert due("2027-07-05")
    assert climber(where, "2027-07-05")["next_cut"] == "cut regrowth now"
    assert run("done", str(where), "vine:cut-regrowth", "--on", "2027-07-05").returncode == 0
    assert not due("2027-07-12")
    assert due("2027-08-05")
    assert not due("2027-11-30")


@pytest.mark.parametrize(
    ("kind", "place"),
    [
        ("ivy", {"lat": 53.3, "lon": -9.0, "region": "ireland"}),  # native there
        ("ivy", {"lat": 53.3, "lon": -9.0}),
        ("hardy kiwi", PLACE),  # listed, and planted for its fruit
        ("rambling rose", PLACE),  # one of its species is listed
    ],
)
def test_others_are_tended_and_led_on(tmp_path: Path, kind: str, place: dict[str, Any]) -> None:
    text = garden_text(plant("vine", kind, year=2015, host="old-wall"), **place)
    (tmp_path / "garden.toml").write_text(text, "utf-8")
    verbs = {job["verb"] for on in ("2027-02-01", "2027-05-20") for job in rounds(tmp_path, on)}
    assert verbs & {"tie in", "winter cut"}
    assert "cut out" not in verbs


def test_what_holds_by_roots_of_its_own_is_not_tied(tmp_path: Path) -> None:
    """Ivy clings by roots and wants no tie (common practice, no source); a kiwi and a rose do."""
    text = garden_text(
        plant("oak", "white oak", year=1950, at=[0, 0]),
        plant("ivy", "ivy", year=1990, host="oak"),
        plant("kiwi", "hardy kiwi", sex="female", year=2010, at=[9, 0]),
    )
    (tmp_path / "garden.toml").write_text(text, "utf-8")
    tied = {job["plant"] for job in rounds(tmp_path, "2027-05-20") if job["verb"] in {"tie in", "check ties"}}
    assert tied == {"kiwi"}
