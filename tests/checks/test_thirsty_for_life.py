"""Grown citrus and apples are watered through a summer without rain; a grown almond is left to its roots.

Sources: University of California, "Watering avocados and citrus" (read: in the heat of summer a mature citrus
wants 4 to 6 inches a month, every 7 to 10 days where it is hot; its root zone is shallow); University of
Arizona AZ1151 (read: every 7 to 28 days); a page on southern California (read: grown fruit trees deeply, once
or twice a month in warm weather). Almonds bear unwatered in the land of Valencia, and the months of Valencia,
Spain: recalled. Of the farmland on Peru's coast all but 4.8 of 100 parts is irrigated (a page
on its farming, read); a banana's roots, and what they draw, FAO-56 table 22.
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant
from tests.samples.towns import LIMA, VALENCIA

from leafturn.almanac import Almanac, open_almanac


@pytest.fixture(scope="module")
def almanac(tmp_path_factory: pytest.TempPathFactory) -> Almanac:
    folder: Path = tmp_path_factory.mktemp("valencia")
    things = (
        plant("orange", "orange", year=1990, at=[0, 0]),
        plant("apple", "apple", year=1990, at=[30, 0]),
        plant("almond", "almond", year=1990, at=[60, 0]),
    )
    text = garden_text(*things, climate=VALENCIA, lat=39.5, lon=-0.4)
    (folder / "garden.toml").write_text(text, encoding="utf-8")
    return open_almanac(folder, dt.date(2027, 7, 15))


@pytest.mark.parametrize("tree", ["orange", "apple"])
def test_grown_trees_that_want_water_get_it_in_a_dry_summer(almanac: Almanac, tree: str) -> None:
    job = almanac.job(f"{tree}:water")
    assert job is not None
    assert job.state in ("due", "late")
    (line,) = [line for line in almanac.water().lines if line.plant == tree]
    assert not line.established
    assert "leave it" not in line.says


def test_a_grown_almond_is_left_to_its_roots(almanac: Almanac) -> None:
    assert almanac.job("almond:water") is None
    (line,) = [line for line in almanac.water().lines if line.plant == "almond"]
    assert line.established


@pytest.mark.parametrize("kind", ["mango", "olive", "banana", "papaya"])
def test_whatever_was_planted_is_watered_where_it_hardly_ever_rains(tmp_path: Path, kind: str) -> None:
    thing = plant("it", kind, year=2015, at=[0, 0])
    dry = almanac_of(tmp_path, garden_text(thing, climate=LIMA, lat=-12.1, lon=-77.0), "2027-09-10")
    job = dry.job("it:water")
    assert job is not None
    assert job.state in ("due", "late")


def test_a_herb_whose_roots_are_not_followed_is_no_job_of_watering(tmp_path: Path) -> None:
    thing = plant("it", "rhubarb", year=2026, at=[0, 0])
    almanac = almanac_of(tmp_path, garden_text(thing, climate=VALENCIA, lat=39.5, lon=-0.4), "2027-07-15")
    assert almanac.job("it:water") is None
