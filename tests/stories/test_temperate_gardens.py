"""What growers of cool and cold countries would not sign, met in gardens lived through for a year."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from tests.samples.garden_text import garden_text, plant

from in_process import run

EDINBURGH = {  # 1991 to 2020, recalled, to about half a degree C
    "tmax_c": [7.0, 7.7, 9.4, 12.1, 15.1, 17.5, 19.4, 19.2, 16.9, 13.3, 9.7, 7.2],
    "tmin_c": [1.5, 1.6, 2.7, 4.4, 7.0, 9.8, 11.6, 11.4, 9.5, 6.5, 3.7, 1.4],
    "rain_mm": [64, 53, 48, 40, 48, 66, 70, 72, 58, 76, 66, 66],
}
MANHATTAN = {  # Kansas, 1991 to 2020, recalled, to about half a degree C
    "tmax_c": [4.3, 7.2, 13.5, 19.2, 24.4, 29.6, 32.3, 31.4, 26.9, 20.2, 12.4, 5.9],
    "tmin_c": [-8.3, -6.0, -0.6, 5.5, 11.8, 17.4, 19.9, 18.7, 13.2, 6.2, -0.9, -6.3],
    "rain_mm": [18, 26, 54, 82, 127, 135, 108, 107, 79, 60, 38, 27],
}


def garden(folder: Path, climate: dict[str, Any], lat: float, lon: float, *things: str, **place: Any) -> Path:
    text = garden_text(*things, climate=climate, lat=lat, lon=lon, **place)
    (folder / "garden.toml").write_text(text, "utf-8")
    return folder


def edinburgh(folder: Path, *things: str) -> Path:
    return garden(folder, EDINBURGH, 55.95, -3.2, *things, region="scotland")


def manhattan(folder: Path, *things: str) -> Path:
    return garden(folder, MANHATTAN, 39.2, -96.6, *things, region="kansas")


def told(where: Path, *words: str) -> Any:
    return json.loads(run(*words[:1], str(where), *words[1:], "--json").stdout)


def jobs(where: Path, on: str) -> list[dict[str, Any]]:
    answer = told(where, "round", "--on", on)
    return [*answer["jobs"], *answer["waiting"]]


def standing(where: Path, plant_id: str) -> str:
    (row,) = [row for row in told(where, "partners", "--on", "2027-04-20")["trees"] if row["plant"] == plant_id]
    return str(row["standing"])


@pytest.mark.parametrize("kind", ["rowan", "hawthorn", "blackthorn", "elderberry"])
def test_what_stands_in_every_hedge_is_served_by_wild_ones(tmp_path: Path, kind: str) -> None:
    """Hedge and woodland plants of all Scotland (common practice, no source)."""
    assert standing(edinburgh(tmp_path, plant("bush", kind, year=2005, at=[0, 0])), "bush") == "served"


def test_it_is_not_where_none_grow_wild(tmp_path: Path) -> None:
    """European rowans grow wild nowhere near Kansas (range as in plant handbooks, recalled)."""
    assert standing(manhattan(tmp_path, plant("bush", "rowan", year=2005, at=[0, 0])), "bush") == "lacks"
