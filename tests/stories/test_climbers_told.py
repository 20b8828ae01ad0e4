"""What the climbers command says: growth in its season, and what is cut instead of trained."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from tests.samples.garden_text import garden_text, plant

from in_process import run

PLACE = {"lat": 40.0, "lon": -75.2, "region": "pennsylvania"}


def garden(folder: Path, *things: str) -> Path:
    (folder / "garden.toml").write_text(garden_text(*things, **PLACE), "utf-8")
    return folder


def climber(where: Path, on: str) -> dict[str, Any]:
    """The first climber as JSON tells it."""
    told: dict[str, Any] = json.loads(run("climbers", str(where), "--on", on, "--json").stdout)["climbers"][0]
    return told


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
