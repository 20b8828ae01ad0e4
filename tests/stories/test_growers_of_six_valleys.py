"""What growers of six valleys miss or strike out: Cluj, Asheville, Motueka, the Cape, the Minho, Kashmir.

Pages read: the plant protection service of North Rhine-Westphalia and garten-haus.at on cherry flies; pages
on plum moths; United States Forest Service on winter moths; Environmental Entomology 37 (2008) on apple
maggots of the Southern Appalachians; Magarey et al. 2007 and a column of Wisconsin on Japanese beetles; The
Gardener of South Africa and Note 547 of Western Australia on fruit flies; EPPO Global Database on fire
blight; German and Austrian pages on walnuts; Wilder and Noticias de Aguiar on chestnuts of Portugal.
Monthly means from memory, to about a degree C and a fifth of the rain.
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import numpy as np
from tests.samples.garden_text import almanac_of, garden_text, plant
from tests.samples.towns import MINHO as MONTHS_OF_MINHO

from leafturn.almanac import Almanac
from leafturn.tasks.model import Job

CLUJ = (
    (46.8, 23.6),
    {
        "tmax_c": [1.3, 4, 9.9, 16.1, 20.8, 24.2, 26.3, 26.3, 20.9, 15.1, 8.4, 2.2],
        "tmin_c": [-5.8, -4.4, -0.6, 4, 8.6, 12.2, 13.7, 13.4, 9, 4, 0.2, -4],
        "rain_mm": [26, 24, 34, 48, 72, 92, 85, 65, 55, 42, 32, 32],
    },
)
ASHEVILLE = (
    (35.6, -82.5),
    {
        "tmax_c": [8.6, 10.8, 15, 20.3, 24.2, 27.6, 29.2, 28.6, 25.6, 20.4, 14.7, 10],
        "tmin_c": [-2.9, -1.6, 1.6, 5.9, 10.9, 15.2, 17.2, 16.6, 13.3, 7, 1.6, -1.1],
        "rain_mm": [98, 92, 104, 110, 112, 120, 116, 118, 102, 78, 92, 102],
    },
)
MOTUEKA = (
    (-41.1, 173.0),
    {
        "tmax_c": [23, 23.2, 21.4, 18.6, 15.8, 13.3, 12.8, 13.8, 15.5, 17.3, 19.3, 21.3],
        "tmin_c": [12.2, 12.1, 10.1, 7.1, 4.3, 1.8, 1.1, 2.4, 5, 7.1, 9, 11.1],
        "rain_mm": [85, 75, 95, 110, 125, 130, 120, 115, 120, 130, 105, 110],
    },
)
CAPE = (
    (-33.9, 18.9),
    {
        "tmax_c": [28.6, 28.9, 27.2, 23.9, 20.3, 17.7, 17, 17.6, 19.4, 22.6, 25, 27.2],
        "tmin_c": [15.6, 15.6, 14.2, 11.4, 9.2, 7.2, 6.5, 6.9, 8.2, 10.2, 12.3, 14.4],
        "rain_mm": [15, 15, 20, 52, 95, 120, 110, 100, 60, 40, 30, 22],
    },
)
MINHO = ((41.6, -8.4), MONTHS_OF_MINHO)
KASHMIR = (
    (34.1, 74.9),
    {
        "tmax_c": [7, 8.2, 14.1, 20.5, 24.5, 29.6, 30.1, 29.6, 27.4, 22.4, 15.1, 8.2],
        "tmin_c": [-2, -0.7, 3.4, 7.9, 10.8, 14.9, 18.1, 17.5, 12.1, 5.8, 0.9, -1.5],
        "rain_mm": [48, 68, 121, 85, 68, 39, 62, 76, 28, 33, 28, 54],
    },
)
Place = tuple[tuple[float, float], dict[str, list[float]]]


def opened(folder: Path, place: Place, *things: str) -> Almanac:
    (lat, lon), climate = place
    text = garden_text(*things, climate=climate, lat=lat, lon=lon)
    return almanac_of(folder, text, "2027-07-05" if lat < 0 else "2027-01-05")


def of_rule(almanac: Almanac, rule: str) -> list[Job]:
    return [job for job in almanac.jobs() if job.rule == rule]


def ripe(almanac: Almanac, plant_id: str) -> dt.date:
    days = almanac.forecasts[plant_id].ripe
    assert days is not None
    return almanac.axis.date(float(np.median(days)))


def likely(job: Job) -> dt.date:
    assert job.open.likely is not None
    return job.open.likely


def test_cherry_flies_and_plum_moths_are_met_in_europe(tmp_path: Path) -> None:
    trees = (
        plant("sour", "sour cherry", year=2005, at=[0, 0]),
        plant("plum", "european plum", cultivar="Stanley", year=2005, at=[9, 0]),
    )
    cluj = opened(tmp_path / "cluj", CLUJ, *trees)
    (cards,) = of_rule(cluj, "scout-european-cherry-fly")
    assert dt.date(2027, 5, 10) <= likely(cards) <= dt.date(2027, 6, 15)
    assert "bees" in " ".join(cards.cautions)
    (trap,) = of_rule(cluj, "scout-plum-moth")
    assert dt.date(2027, 4, 25) <= likely(trap) <= dt.date(2027, 5, 31)
    abroad = opened(tmp_path / "asheville", ASHEVILLE, *trees)
    assert not of_rule(abroad, "scout-european-cherry-fly")
    assert not of_rule(abroad, "scout-plum-moth")


def test_walnuts_of_cold_winters_fall_from_the_end_of_september(tmp_path: Path) -> None:
    cluj = opened(tmp_path, CLUJ, plant("walnut", "persian walnut", year=1980))
    assert dt.date(2027, 9, 15) <= ripe(cluj, "walnut") <= dt.date(2027, 10, 5)


def test_pests_of_the_southern_appalachians(tmp_path: Path) -> None:
    trees = (
        plant("apple", "apple", cultivar="Winesap", year=2008, at=[0, 0]),
        plant("other", "apple", cultivar="Jonathan", year=2008, at=[6, 0]),
        plant("vine", "muscadine", cultivar="Carlos", year=2012, at=[12, 0]),
    )
    asheville = opened(tmp_path / "asheville", ASHEVILLE, *trees)
    assert not of_rule(asheville, "band-against-winter-moth"), "no winter moths live there"
    (balls,) = of_rule(asheville, "scout-apple-maggot")
    assert dt.date(2027, 6, 1) <= likely(balls) <= dt.date(2027, 6, 30)
    (beetles,) = of_rule(asheville, "pick-off-japanese-beetles")
    assert dt.date(2027, 5, 20) <= likely(beetles) <= dt.date(2027, 6, 25)
    cluj = opened(tmp_path / "cluj", CLUJ, *trees)
    assert of_rule(cluj, "band-against-winter-moth")
    assert not of_rule(cluj, "pick-off-japanese-beetles")


def test_fruit_flies_are_met_where_winters_are_mild_and_summers_dry(tmp_path: Path) -> None:
    fig = plant("fig", "fig", cultivar="Brown Turkey", year=2005)
    cape = opened(tmp_path / "cape", CAPE, fig)
    (traps,) = of_rule(cape, "scout-fruit-flies")
    assert 21 <= (ripe(cape, "fig") - likely(traps)).days <= 35
    for name, place in (("motueka", MOTUEKA), ("cluj", CLUJ), ("kashmir", KASHMIR)):
        assert not of_rule(opened(tmp_path / name, place, fig), "scout-fruit-flies"), name


def test_no_fire_blight_is_looked_for_in_india(tmp_path: Path) -> None:
    trees = [plant(name, "apple", cultivar=name, year=1998) for name in ("Jonathan", "Golden Delicious")]
    kashmir = opened(tmp_path / "kashmir", KASHMIR, *trees)
    assert not of_rule(kashmir, "look-for-fire-blight")
    assert of_rule(kashmir, "scout-codling-moth"), "it has come to Kashmir (growers, 2023)"
    assert of_rule(opened(tmp_path / "cluj", CLUJ, *trees), "look-for-fire-blight")


def test_chestnuts_of_the_minho_fall_no_earlier_than_the_end_of_september(tmp_path: Path) -> None:
    trees = [plant(name, "sweet chestnut", year=1998) for name in ("one", "two")]
    told = ripe(opened(tmp_path, MINHO, *trees), "one")
    assert dt.date(2027, 9, 25) <= told <= dt.date(2027, 10, 20)


def test_avocados_that_hang_until_the_next_spring_are_told_and_not_said_to_lose_their_leaves(
    tmp_path: Path,
) -> None:
    """They keep their leaves (common knowledge, no source); up to 14 months on the tree in New Zealand,
    picked from August to February (the head of its growers, New Zealand Herald, read).
    """
    almanac = opened(tmp_path, MOTUEKA, plant("tree", "avocado", year=2005))
    said = " ".join(almanac.season().notes)
    assert "before their leaves are down" not in said
    assert "no day of picking is told" not in said
    opens = almanac.job("tree:pick:2026").open.likely
    assert opens is not None
    assert dt.date(2027, 8, 1) <= opens <= dt.date(2027, 12, 31)


def test_no_plant_that_spreads_in_many_lands_is_proposed_for_a_gap_away_from_its_home(tmp_path: Path) -> None:
    """Gorse is listed in South Africa (from memory), butterfly bush in Switzerland and New Zealand (read)."""
    cape = opened(tmp_path, CAPE, plant("fig", "fig", year=2005), plant("apple", "apple", year=2005))
    proposed = {kind for gap in cape.larder().forage_gaps for kind in gap.fillers}
    assert proposed
    assert not proposed & {"gorse", "butterfly bush", "guava", "tree of heaven"}


def test_one_of_several_pawpaws_speaks_of_another(tmp_path: Path) -> None:
    row = plant("row", "pawpaw", year=2010, count=2)
    said = " ".join(tree.weakest for tree in opened(tmp_path, ASHEVILLE, row).partners())
    assert "another planted with it has no cultivar noted" in said
