"""Acorns and their like are gathered from the ground or left, and are no food to count on.

Common practice, no source: acorns and beech mast fall and are gathered for animals and for sowing; nobody
picks an oak. What grows for the table beside them is picked as ever.
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from tests.samples.garden_text import garden_text, plant

from leafturn.almanac import Almanac, open_almanac

MAST = ("sessile oak", "english oak", "white oak", "bur oak", "beech", "bitternut hickory", "honey locust")
FOOD = ("sweet chestnut", "hazel", "rowan", "hawthorn", "crowberry", "medlar")


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    made = tmp_path_factory.mktemp("mast")
    plants = [
        plant(f"{kind.replace(' ', '-')}-{n}", kind, year=1950, at=[40 * n, 12 * place])
        for place, kind in enumerate((*MAST, *FOOD))
        for n in (1, 2)
    ]
    (made / "garden.toml").write_text(garden_text(*plants), encoding="utf-8")
    return made


@pytest.fixture(scope="module")
def almanac(folder: Path) -> Almanac:
    return open_almanac(folder, on=dt.date(2027, 10, 12))


def verbs(almanac: Almanac, kind: str) -> set[str]:
    begins = kind.replace(" ", "-")
    return {job.verb for job in almanac.jobs() if any(plant.startswith(begins) for plant in job.plants)}


def test_an_oak_is_gathered_and_not_picked(almanac: Almanac) -> None:
    for kind in MAST:
        told = verbs(almanac, kind)
        assert "gather" in told, kind
        assert not told & {"pick", "bring pollen", "cover"}, kind
    assert "pick" in verbs(almanac, "sweet chestnut")


def test_nobody_counts_on_acorns(almanac: Almanac) -> None:
    larder = almanac.larder()
    eaten = {plant for week in larder.weeks for plant in (*week.picked, *week.kept)}
    assert eaten
    assert not {p for p in eaten if p.startswith(tuple(kind.replace(" ", "-") for kind in MAST))}
    assert any(p.startswith("sweet-chestnut") for p in eaten)
    fillers = {kind for gap in larder.picking_gaps for kind in gap.fillers}
    assert not fillers & set(MAST)
