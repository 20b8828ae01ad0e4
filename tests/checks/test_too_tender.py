"""Who is too tender for a place, by the coldest nights of its usual years.

Monthly normals of Winnipeg (Environment Canada, 1981 to 2010) and Seattle-Tacoma (NOAA, 1991 to 2020), both
recalled and rounded. Nurseries of western Washington sell fig, bay, rosemary and olive for the open ground
and warn of citrus; on the Canadian prairies none of them lives outdoors: common knowledge, no single source.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.in_process import run
from tests.samples.garden_text import almanac_of, garden_text, plant
from tests.samples.towns import WINNIPEG

SEATTLE = {
    "tmax_c": [8.6, 9.9, 12.2, 15.4, 19.4, 22.1, 25.9, 26.0, 22.4, 15.9, 10.9, 8.1],
    "tmin_c": [2.9, 2.9, 4.2, 6.1, 9.1, 11.8, 14.1, 14.2, 11.7, 8.2, 5.0, 2.7],
    "rain_mm": [147, 95, 106, 81, 49, 37, 15, 24, 41, 99, 160, 146],
}
TENDER = ("olive", "lemon", "loquat", "feijoa", "rosemary", "bay", "fig", "carob")
HARDY = ("saskatoon", "caragana", "honeyberry", "rhubarb", "silver birch", "chives")


def told(
    folder: Path, normals: dict[str, list[float]], lat: float, lon: float, *plants: str
) -> dict[str, bool]:
    """Of each plant told of in care, whether it is too tender or but at its limit."""
    text = garden_text(*plants, climate=normals, lat=lat, lon=lon)
    return {
        t.plant: t.standing == "too tender"
        for t in almanac_of(folder / "garden", text, "2027-05-01").heed().tender
    }


def kinds(*names: str) -> list[str]:
    return [plant(name.replace(" ", "-"), name, year=2025) for name in names]


def test_on_the_prairie_every_tender_plant_is_too_tender_and_the_hardy_are_not(tmp_path: Path) -> None:
    found = told(tmp_path, WINNIPEG, 49.9, -97.2, *kinds(*TENDER, *HARDY))
    assert found == dict.fromkeys(TENDER, True)


def test_by_puget_sound_citrus_and_carob_are_too_tender_and_fig_bay_and_rosemary_are_not(
    tmp_path: Path,
) -> None:
    found = told(tmp_path, SEATTLE, 47.45, -122.31, *kinds(*TENDER, *HARDY))
    assert found.get("lemon") is True
    assert not {name for name, too in found.items() if too} - {"lemon", "carob"}
    assert not {"fig", "bay", "rosemary", "olive"} & set(found)


def test_a_hardy_cultivar_bears_more_than_its_kind(tmp_path: Path) -> None:
    cold = {
        **SEATTLE,
        "tmin_c": [t - 8 for t in SEATTLE["tmin_c"]],
        "tmax_c": [t - 6 for t in SEATTLE["tmax_c"]],
    }
    found = told(
        tmp_path, cold, 47.45, -122.31,
        plant("plain", "rosemary", year=2025), plant("arp", "rosemary", cultivar="Arp", year=2025),
    )  # fmt: skip
    assert found.get("plain") is True
    assert not found.get("arp", False)


@pytest.mark.parametrize("year", [2025, 1990])
def test_the_plants_own_page_says_so_and_care_only_while_it_has_not_stood_long(
    tmp_path: Path, year: int
) -> None:
    text = garden_text(plant("kitchen-fig", "fig", year=year), climate=WINNIPEG, lat=49.9, lon=-97.2)
    almanac = almanac_of(tmp_path / "garden", text, "2027-05-01")
    card = almanac.plant("kitchen-fig")
    assert card is not None
    assert "too tender here" in card.cautions[0]
    assert ("37 years all the same" in card.cautions[0]) == (year == 1990)
    assert [t.plant for t in almanac.heed().tender] == ([] if year == 1990 else ["kitchen-fig"])


def test_the_command_tells_the_tender_under_their_own_heading(tmp_path: Path) -> None:
    folder = tmp_path / "garden"
    almanac_of(
        folder, garden_text(*kinds("olive", "rhubarb"), climate=WINNIPEG, lat=49.9, lon=-97.2), "2027-05-01"
    )
    told = run("heed", str(folder), "--on", "2027-05-01").stdout
    _, _, after = told.partition("too tender for the winters here")
    assert (
        "olive: too tender here. Below -12 C it dies or is killed to the ground. "
        "Nights so cold come nearly always." in " ".join(after.split())
    )
    assert "rhubarb: too tender" not in told


def test_nothing_too_tender_is_proposed_for_a_gap(tmp_path: Path) -> None:
    text = garden_text(*kinds("rhubarb"), climate=WINNIPEG, lat=49.9, lon=-97.2)
    larder = almanac_of(tmp_path / "garden", text, "2027-05-01").larder()
    proposed = {kind for gap in (*larder.picking_gaps, *larder.forage_gaps) for kind in gap.fillers}
    assert proposed
    assert not proposed & {*TENDER, "oca", "yacon", "kaki", "maypop"}


def test_on_the_prairie_an_apple_is_at_its_limit_and_a_peach_too_tender(tmp_path: Path) -> None:
    # Apples of zone 3 and 4 are grown in Manitoba, peaches (zone 5) are not: common knowledge.
    found = told(tmp_path, WINNIPEG, 49.9, -97.2, *kinds("apple", "peach", "american plum"))
    assert found == {"apple": False, "peach": True}
