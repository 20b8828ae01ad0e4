"""Winter chill as a user reads it: portions and hours, plants that want more, wider ranges, warm places."""

from __future__ import annotations

import datetime as dt
import json
from pathlib import Path

import pytest
from tests.in_process import run
from tests.samples.garden_text import MONTHS, almanac_of, garden_text, plant
from tests.samples.towns import KALAMATA

from leafturn_tui.pages.season import SeasonPage

ON = "2027-01-01"
# Monthly means [degC] of an island, about those of Honolulu.
WARM = {
    "tmax_c": [27, 27, 27.5, 28.4, 29.3, 30.4, 30.8, 31.3, 31.3, 30.6, 29, 27.5],
    "tmin_c": [18.6, 18.6, 19.4, 20.4, 21.4, 22.7, 23.4, 23.7, 23.3, 22.7, 21.6, 19.7],
}
THINGS = (
    plant("redhaven", "peach", cultivar="Redhaven", year=2000, at=[0, 0]),  # 75 portions
    plant("elberta", "peach", cultivar="Elberta", year=2000, at=[5, 0]),  # 42 portions
    plant("blueberry", "highbush blueberry", year=2000, at=[9, 0]),  # 800 to 1000 hours
)


@pytest.fixture(scope="module")
def gardens(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """The same three plants in the cold, on the mild coast, and where there is no winter."""
    found = {}
    for name, climate, lat in (("cold", MONTHS, 46.9), ("mild", KALAMATA, 37.0), ("warm", WARM, 21.3)):
        found[name] = tmp_path_factory.mktemp(name)
        almanac_of(found[name], garden_text(*THINGS, climate=climate, lat=lat), ON)
    return found


def season(folder: Path) -> dict:
    return json.loads(run("season", str(folder), "--on", ON, "--json").stdout)


@pytest.mark.parametrize("command", ["season", "weather"])
def test_portions_stand_beside_hours(gardens: dict[str, Path], command: str) -> None:
    said = run(command, str(gardens["mild"]), "--on", ON).stdout
    line = next(line for line in said.splitlines() if line.startswith("winter chill, "))
    assert " portions, " in line
    assert " hours at or below 7.2 C, " in line
    assert line.endswith("of them above freezing")


def test_hours_above_freezing_are_some_of_the_hours_and_the_cold_have_more_of_both(
    gardens: dict[str, Path],
) -> None:
    chill = {name: season(folder)["winter_chill"] for name, folder in gardens.items()}
    for one in chill.values():
        assert one["hours_0_to_7_2_celsius"]["p50"] <= one["hours_to_7_2_celsius"]["p50"]
        assert one["portions"]["p10"] <= one["portions"]["p50"] <= one["portions"]["p90"]
    for count in ("portions", "hours_to_7_2_celsius"):
        assert chill["cold"][count]["p50"] > chill["mild"][count]["p50"] > chill["warm"][count]["p50"] == 0


def test_needs_in_portions_and_in_hours_are_held_against_the_winter(gardens: dict[str, Path]) -> None:
    cold, mild = (season(gardens[name])["winter_chill"] for name in ("cold", "mild"))
    assert all(one["short"] == 0 for one in cold["plants"])
    short = {one["plant"]: (one["wants"], one["unit"], one["short"] > 0.5) for one in mild["plants"]}
    assert short["redhaven"] == (75, "portions", True)
    assert short["blueberry"] == (900, "hours", True)
    assert not short["elberta"][2]
    said = " ".join(mild["says"])
    assert "so the ranges are wider: " in said
    assert "redhaven wants 75 portions, short in " in said
    assert "elberta" not in said


def test_ranges_are_wider_where_chill_is_short_and_cultivars_bloom_within_days(
    gardens: dict[str, Path],
) -> None:
    blooms = {e["plant"]: e for e in season(gardens["mild"])["events"] if e["event"] == "full bloom"}

    def days(one: dict, late: str, early: str) -> int:
        return (dt.date.fromisoformat(one[late]) - dt.date.fromisoformat(one[early])).days

    width = {plant: days(blooms[plant], "late", "early") for plant in ("redhaven", "elberta")}
    assert width["redhaven"] >= width["elberta"] + 3
    likely = [dt.date.fromisoformat(blooms[plant]["likely"]) for plant in ("redhaven", "elberta")]
    assert abs((likely[0] - likely[1]).days) <= 3


def test_where_there_is_no_winter_it_is_said_of_each_plant(gardens: dict[str, Path]) -> None:
    said = run("season", str(gardens["warm"]), "--on", ON).stdout
    assert "winter chill: none, as no day here is usually under 15 C" in said
    assert "Winter chill falls short, and they may hardly bloom or leaf out here: " in said
    for words in ("blueberry wants 900 hours", "elberta wants 42 portions", "redhaven wants 75 portions"):
        assert words in said


def test_the_page_says_the_same(gardens: dict[str, Path]) -> None:
    almanac = almanac_of(gardens["mild"], garden_text(*THINGS, climate=KALAMATA, lat=37.0), ON)
    shown = " ".join(row.text.strip() for row in SeasonPage().rows(almanac, 100))
    assert "frost and chill" in shown
    assert " hours at or below 7.2 C" in shown
    assert "redhaven wants 75 portions" in shown
