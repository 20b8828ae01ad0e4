"""What is proposed to follow an old tree is at home here, and what kills heirs here is told."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from tests.in_process import run
from tests.samples.garden_text import garden_text, plant

from leafturn.kinds.library import load_library
from leafturn.kinds.wild import floras, threats

GEORGIA = {"lat": 33.9, "lon": -83.4, "region": "georgia"}
WARM = {  # Athens, Georgia, recalled, to about one degree C
    "tmax_c": [12, 14, 18, 23, 27, 31, 32, 32, 29, 23, 18, 13],
    "tmin_c": [1, 2, 5, 9, 14, 19, 21, 21, 17, 11, 5, 2],
    "rain_mm": [110, 110, 115, 90, 85, 105, 105, 95, 95, 85, 90, 105],
}
ENGLAND = {"lat": 51.2, "lon": -2.5, "region": "england"}
MILD = {  # Somerset, recalled, to about one degree C
    "tmax_c": [8, 8, 11, 13, 17, 20, 22, 21, 19, 15, 11, 8],
    "tmin_c": [2, 2, 3, 5, 8, 10, 13, 12, 11, 8, 5, 3],
    "rain_mm": [80, 60, 60, 55, 55, 60, 60, 70, 65, 85, 90, 90],
}


def old_tree(folder: Path, kind: str, climate: dict[str, Any], place: dict[str, Any], *more: str) -> Any:
    old = plant("old", kind, year=1920, state="declining", height_m=18, crown_m=7, at=[0, 0])
    (folder / "garden.toml").write_text(garden_text(old, *more, climate=climate, **place), "utf-8")
    answer = json.loads(run("canopy", str(folder), "--on", "2027-05-01", "--json").stdout)
    (found,) = answer["canopy"]["elders"]
    return found


def proposed(tree: Any) -> set[str]:
    return {one["kind"] for one in tree["succession"]["suggestions"]}


def test_every_proposal_is_at_home(tmp_path: Path) -> None:
    """Ranges as in plant handbooks (recalled): English oak is a tree of Europe, olive of its south."""
    georgia = proposed(old_tree(tmp_path, "white oak", WARM, GEORGIA))
    assert georgia & {
        "white oak",
        "red oak",
        "mockernut hickory",
        "pecan",
        "shagbark hickory",
        "black walnut",
    }
    assert not georgia & {"english oak", "sessile oak", "beech", "olive"}
    england = proposed(old_tree(tmp_path, "english oak", MILD, ENGLAND))
    assert england & {"english oak", "sessile oak", "beech", "small-leaved lime", "hornbeam"}
    assert not england & {"olive", "white oak", "carob", "common ash"}


def test_what_grows_here_already_may_follow(tmp_path: Path) -> None:
    oak = plant("guest", "english oak", year=1990, at=[90, 0])
    assert "english oak" in proposed(old_tree(tmp_path, "english oak", WARM, GEORGIA, oak))


@pytest.mark.parametrize(
    ("kind", "place", "climate", "told"),
    [
        ("common ash", ENGLAND, MILD, "Ash dieback killed up to 85 of 100"),
        ("american chestnut", GEORGIA, WARM, "Chestnut blight kills nearly all"),
        ("small-leaved lime", ENGLAND, MILD, ""),
    ],
)
def test_a_young_heir_is_told_with_what_kills_its_kind_here(
    tmp_path: Path, kind: str, place: dict[str, Any], climate: dict[str, Any], told: str
) -> None:
    """John Innes Centre on ash (summary read): 85 of 100 in plantations, 70 in woods; blight recalled."""
    heir = plant("heir", kind, year=2020, role="heir", at=[3, 0])
    says = " ".join(old_tree(tmp_path, "english oak", climate, place, heir)["says"])
    assert ("heir: " + told in says) if told else ("let a tree of another kind" not in says)


def test_floras_and_threats_name_kinds_and_sources_that_there_are() -> None:
    library, _ = load_library()
    named = [kind for row in (*floras().values(), *threats().values()) for kind in row.kinds]
    assert named
    assert not {kind for kind in named if kind not in library.kinds}
    sources = {row.source for row in floras().values()} | {row.says.source for row in threats().values()}
    assert sources <= set(library.sources)
