"""Lines that growers of Tartu, Kakheti, Simla, Elgin, Chengdu and the savanna of Bogota would not sign.

Months of Tartu 1991 to 2020 are read (Climi e viaggi), the others recalled, to about a degree C.
"""

from __future__ import annotations

import datetime as dt
import json
import tomllib
from pathlib import Path
from typing import Any

import pytest
from tests.in_process import run
from tests.samples.garden_text import almanac_of, garden_text, heap, plant
from tests.samples.places import ROOT
from tests.samples.towns import SIMLA

STATIONS = tomllib.loads((ROOT / "tests/checks/published_dates.toml").read_text("utf-8"))["station"]
TARTU = {
    "tmax_c": [-1.8, -1.6, 3.3, 11.1, 17.1, 20.6, 23.2, 21.8, 16.3, 9.2, 3.2, -0.1],
    "tmin_c": [-6.6, -7.4, -4.1, 1.1, 5.8, 10.2, 12.9, 11.9, 7.9, 3.2, -0.8, -4.2],
    "rain_mm": [45, 35, 35, 35, 55, 85, 70, 80, 55, 65, 55, 50],
}
ELGIN = {
    "tmax_c": [25.5, 25.8, 24.2, 21.3, 18.2, 15.8, 15.2, 15.7, 17.4, 19.8, 22.2, 24.2],
    "tmin_c": [14, 14.2, 12.9, 10.6, 8.5, 6.5, 5.7, 6.2, 7.6, 9.2, 11, 12.9],
    "rain_mm": [25, 30, 35, 75, 120, 160, 150, 140, 85, 60, 40, 35],
}
BOGOTA = {
    "tmax_c": [20.2, 20.3, 20.2, 19.8, 19.6, 19.0, 18.6, 18.9, 19.2, 19.3, 19.5, 19.7],
    "tmin_c": [7.6, 8.4, 9.5, 10.3, 10.3, 9.9, 9.4, 9.0, 8.9, 9.2, 9.3, 8.3],
    "rain_mm": [50, 68, 91, 135, 120, 55, 45, 45, 70, 137, 127, 82],
}
ADDIS = {
    "tmax_c": [23.9, 24.6, 25.0, 24.6, 25.1, 23.3, 20.9, 20.8, 21.8, 23.0, 23.2, 23.1],
    "tmin_c": [8.2, 9.5, 11.0, 11.8, 11.8, 11.2, 11.4, 11.4, 10.8, 9.3, 8.0, 7.4],
    "rain_mm": [13, 30, 58, 82, 84, 138, 280, 290, 149, 27, 7, 7],
}
PLACES: dict[str, tuple[dict[str, Any], dict[str, Any]]] = {
    "tartu": (TARTU, {"lat": 58.4, "lon": 26.7, "region": "estonia"}),
    "simla": (SIMLA, {"lat": 31.1, "lon": 77.2, "region": "india"}),
    "elgin": (ELGIN, {"lat": -34.15, "lon": 19.0, "region": "south africa"}),
    "addis": (ADDIS, {"lat": 9.0, "lon": 38.75, "region": "africa"}),
    "bogota": (BOGOTA, {"lat": 4.7, "lon": -74.1, "region": "colombia"}),
}


def garden(folder: Path, place: str, *things: str) -> Path:
    climate, where = PLACES[place]
    (folder / "garden.toml").write_text(garden_text(*things, climate=climate, **where), "utf-8")
    return folder


def jobs(where: Path, on: str) -> list[dict[str, Any]]:
    told = json.loads(run("round", str(where), "--on", on, "--json").stdout)
    return [*told["jobs"], *told["waiting"]]


def verbs(where: Path, on: str) -> set[str]:
    return {job["verb"] for job in jobs(where, on)}


def test_a_state_of_america_is_not_taken_for_a_country_that_bears_its_name(tmp_path: Path) -> None:
    """Georgia beside the Caucasus had the nests and the oak wilt of the southern United States."""

    def said(region: str, **place: float) -> str:
        text = garden_text(plant("vine", "grape", year=2010), region=region, **place)
        (tmp_path / "garden.toml").write_text(text, "utf-8")
        return " ".join(run("check", str(tmp_path)).stdout.split())

    beside_the_caucasus = {"lat": 41.75, "lon": 44.8}
    assert 'region = "caucasus" gives the dates of Asia: nests on the usual dates, no oak wilt' in said(
        "Georgia", **beside_the_caucasus
    )
    assert "is read as Southern United States, where lon = 44.8 does not lie" in said(
        "Virginia", **beside_the_caucasus
    )
    assert "gives the dates of Southern United States" in said("georgia", lat=33.0, lon=-83.5)


def test_bushes_of_estonia_are_cut_in_march(tmp_path: Path) -> None:
    """No felling in state forests from 15 April on (Postimees, April 2024, read); in March there is snow."""
    where = garden(tmp_path, "tartu", plant("bush", "blackcurrant", year=2015))
    (march,) = [job for job in jobs(where, "2027-03-20") if job["verb"] == "winter prune"]
    assert march["state"] == "due"
    assert "2027-04-05" <= march["close"] <= "2027-04-24"


def test_an_oak_is_not_shaped_for_fear_of_oak_wilt_alone(tmp_path: Path) -> None:
    """Oak wilt is known from North America only (recalled)."""
    where = garden(tmp_path, "tartu", plant("oak", "english oak", year=2020))
    (shape,) = [job for job in jobs(where, "2027-02-01") if "shape oak" in job["title"]]
    because = " ".join(shape["why"])
    assert because.index("its forks and limbs can be seen") < because.index("Where oak wilt occurs")


@pytest.mark.parametrize("kind", ["japanese plum", "european plum", "sweet cherry"])
def test_stone_fruit_of_the_monsoon_is_cut_at_rest_and_not_in_the_rains(tmp_path: Path, kind: str) -> None:
    """Temperate fruit is pruned from December on, once at rest (Department of Horticulture of Himachal
    Pradesh, calendar of December, and the university at Nauni, February 2024; both read)."""
    where = garden(tmp_path, "simla", plant("tree", kind, year=2012))
    assert "winter prune" in verbs(where, "2027-02-20")
    assert not {"prune", "summer prune"} & verbs(where, "2027-07-20")


def test_no_fire_blight_is_looked_for_in_south_africa(tmp_path: Path) -> None:
    """In Africa in Egypt alone (EPPO Reporting Service 1994/48, read)."""
    pears = [plant("a", "pear", cultivar="Forelle", year=2008, at=[0, 0]),
             plant("b", "pear", cultivar="Bartlett", year=2008, at=[6, 0])]  # fmt: skip
    assert "look for blight" not in verbs(garden(tmp_path, "elgin", *pears), "2027-10-20")


@pytest.mark.parametrize(
    ("station", "published"),
    [("hastings", "10-07"), ("alexandra", "11-01")],
)
def test_codling_moths_of_new_zealand_fly_when_growers_see_them(
    tmp_path: Path, station: str, published: str
) -> None:
    """First flights on 7 October in the North Island and 1 November in Otago (a growers' weather service,
    codling moth, read). Counted from July on, mild winters called everybody out in August; Otago is told
    nineteen days early still."""
    at = STATIONS[station]
    climate = {key: at[key] for key in ("tmax_c", "tmin_c", "rain_mm")}
    trees = [plant("a", "apple", cultivar="Gala", year=2010, at=[0, 0]),
             plant("b", "apple", cultivar="Fuji", year=2010, at=[6, 0])]  # fmt: skip
    text = garden_text(*trees, climate=climate, lat=at["lat"], lon=at["lon"])
    look = almanac_of(tmp_path, text, "2027-08-01").job("garden:scout-codling-moth")
    assert look is not None
    assert look.best.likely is not None
    assert abs((look.best.likely - dt.date.fromisoformat(f"2027-{published}")).days) <= 21


def test_where_no_month_is_cold_no_leaves_are_waited_for(tmp_path: Path) -> None:
    """No autumn at Bogota: nothing is bare-rooted, bare or raked in December (common practice, no source)."""
    things = (
        plant("alder", "black alder", year=1970, state="declining", at=[0, 0]),
        plant("apple", "apple", cultivar="Anna", year=2012, at=[9, 0]),
        plant("plum", "japanese plum", year=2012, at=[18, 0]),
        plant("young", "black alder", year=2024, at=[27, 0]),
        plant("yacon", "yacon", year=2026, at=[9, 9]),
        heap("bay", stage="working", at=[0, 9]),
    )
    where = garden(tmp_path, "bogota", *things)
    of_seasons = (
        "order what is to follow",
        "leaves",
        "while it is bare",
        "prune plum",
        "summer prune",
        "lift",
    )
    for on in ("2027-01-10", "2027-07-25", "2027-09-10", "2027-12-02", "2027-12-26"):
        told = [job["title"] for job in jobs(where, on)]
        assert not [title for title in told if any(words in title for words in of_seasons)]


def test_young_trees_are_watered_in_the_dry_time_whatever_its_months(tmp_path: Path) -> None:
    """The dry time of the Ethiopian highlands is from October to February (recalled).

    Roots were followed from March on, and watering was told from April to October alone.
    """
    where = garden(tmp_path, "addis", plant("avocado", "avocado", cultivar="Hass", year=2025, at=[0, 0]))
    assert {on for on in ("2027-01-20", "2027-08-10", "2027-12-15") if "water" in verbs(where, on)} == {
        "2027-01-20", "2027-12-15",
    }  # fmt: skip


def test_packham_and_forelle_serve_each_other(tmp_path: Path) -> None:
    """Planted together in the Cape (common practice, no source)."""
    pears = [plant("packham", "pear", cultivar="Packham", year=2008, at=[0, 0]),
             plant("forelle", "pear", cultivar="Forelle", year=2008, at=[5, 0])]  # fmt: skip
    where = garden(tmp_path, "elgin", *pears)
    told = json.loads(run("partners", str(where), "--on", "2027-09-20", "--json").stdout)
    assert {row["standing"] for row in told["trees"]} == {"served"}
