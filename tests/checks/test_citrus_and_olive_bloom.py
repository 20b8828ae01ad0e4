"""Citrus, olives and almonds open and are picked when growers say; temperatures are recalled, to a degree.

Bloom: K. Christensen, a grower of navels in California's valley (2014: "until after the first week of
April", in 25 years, once in March); University of Florida, Citrus Research and Education Center (Lake Alfred:
full bloom of a first wave 27 February to 5 March, of a second 14 to 23 March; mandarins 7 to 10 days after
Valencia); Micheloud et al. 2018 (Santa Fe, Argentina, oranges and mandarins: full bloom 12 September to
2 October); "Phenological cycle and thermal accumulation in the genotypes of sweet orange in Southern Brazil",
Rev. Bras. Frutic. (Eldorado do Sul: full bloom 28 August to 22 September); a page on orange blossom about
Valencia (end of March and April); satsumas about Shizuoka flower in the first half of May (recalled);
University of Jaen (most olive pollen "in early May"); olive growers near Corinth (blossoming on 19 May 2024).
The response of citrus was set on those of oranges (stated.toml), the level of mandarins on Florida's.
So only mandarins at Santa Fe and Shizuoka test what was not set by hand; the others hold it in place.

Harvest: a packer of Greek table olives (green ones of Halkidiki mid-September to mid-October); olive growers
of Messinia (Koroneiki for oil from the middle of October to January); a guide to California's harvest (table
olives mid-September to mid-November, oil October to December); a Spanish nurseryman (almonds August to
September). The days of olives were set on these; those of almonds were not.
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import NamedTuple

import numpy as np
import pytest
from tests.samples.garden_text import garden_text, plant
from tests.samples.towns import VALENCIA as MONTHS_OF_VALENCIA

from leafturn.almanac import Almanac, open_almanac


class Site(NamedTuple):
    """A place and its monthly means [degC], January first."""

    lat: float
    lon: float
    tmax_c: list[float]
    tmin_c: list[float]


FRESNO = Site(
    36.7, -119.8,
    [12.8, 16.5, 20, 23.5, 28.5, 33, 36.7, 36, 33, 26.5, 18.5, 12.8],
    [4, 5.5, 7.5, 9.5, 13, 16.5, 19.5, 18.8, 16.5, 11.5, 6.5, 3.5],
)  # fmt: skip
LAKE_ALFRED = Site(
    28.1, -81.7,
    [22.5, 24, 26.3, 29, 32, 33.3, 33.8, 33.8, 32.5, 29.8, 26.2, 23.5],
    [9.5, 11, 13, 15.8, 19, 22, 22.8, 23, 22.3, 18.8, 14.2, 11.3],
)  # fmt: skip
SANTA_FE = Site(
    -31.6, -60.7,
    [31.8, 30.6, 28.5, 25, 21.3, 18.2, 17.7, 20.2, 22, 25.2, 28, 30.8],
    [20.3, 19.6, 17.8, 14.4, 11, 8.1, 7.1, 8.3, 10.3, 13.8, 16.2, 18.8],
)  # fmt: skip
ELDORADO = Site(
    -30.1, -51.7,
    [30.3, 30, 28.6, 25.5, 22, 19.5, 19.2, 21, 22, 24.5, 27, 29.3],
    [20, 20, 18.5, 15.5, 12.2, 10, 9.3, 10.3, 11.8, 14.3, 16, 18.3],
)  # fmt: skip
VALENCIA = Site(39.5, -0.4, MONTHS_OF_VALENCIA["tmax_c"], MONTHS_OF_VALENCIA["tmin_c"])
SHIZUOKA = Site(
    35.0, 138.4,
    [11.7, 12.6, 15.5, 19.8, 23.7, 26.4, 30.1, 31.3, 28.4, 23.6, 18.8, 14.1],
    [2.1, 2.9, 6.2, 10.9, 15.5, 19.5, 23.4, 24.4, 21.3, 15.6, 9.9, 4.5],
)  # fmt: skip
JAEN = Site(
    37.8, -3.8,
    [12.5, 14.5, 18, 20, 25, 30.5, 34.5, 34, 29, 22.5, 16.5, 13],
    [5, 6, 8.5, 10.5, 14.5, 19, 22.5, 22.3, 18.5, 14, 9, 6],
)  # fmt: skip
CORINTH = Site(
    37.9, 22.9,
    [13.5, 14.5, 17, 20.5, 26, 31, 33.5, 33.5, 29, 24, 19, 15],
    [5.5, 5.5, 7, 10, 14, 18.5, 21.5, 21.5, 18, 14, 10, 7],
)  # fmt: skip
HALKIDIKI = Site(
    40.4, 23.4,
    [9.5, 11, 14, 18.5, 24, 28.8, 31.3, 31.3, 26.8, 21, 15.5, 11],
    [1.5, 2.3, 4.7, 8, 12.8, 17.3, 19.8, 19.8, 15.8, 11.5, 7, 3],
)  # fmt: skip
KALAMATA = Site(
    37.0, 22.1,
    [15.3, 15.7, 17.7, 20.7, 25.3, 29.9, 32.4, 32.5, 29, 24.8, 20.2, 16.7],
    [5.7, 5.8, 7, 9.2, 12.9, 16.6, 18.9, 19.2, 16.5, 13.4, 10, 7.3],
)  # fmt: skip


def almanac_of(folder: Path, site: Site, kind: str, cultivar: str = "", kinds: str = "") -> Almanac:
    named = {"cultivar": cultivar} if cultivar else {}
    text = garden_text(
        plant("tree", kind, year=1990, **named),
        climate={"tmax_c": site.tmax_c, "tmin_c": site.tmin_c},
        lat=site.lat,
        lon=site.lon,
    )
    (folder / "garden.toml").write_text(text, encoding="utf-8")
    if kinds:
        (folder / "kinds.toml").write_text(kinds, encoding="utf-8")
    return open_almanac(folder, on=dt.date(2027, 7, 5) if site.lat < 0 else dt.date(2027, 1, 5))


def ripe_on(almanac: Almanac) -> dt.date:
    ripe = almanac.forecasts["tree"].ripe
    assert ripe is not None
    return almanac.axis.date(float(np.median(ripe)))


@pytest.mark.parametrize(
    ("kind", "site", "begins", "ends"),
    [
        ("orange", FRESNO, "04-01", "04-20"),
        ("orange", LAKE_ALFRED, "02-27", "03-23"),
        ("mandarin", LAKE_ALFRED, "03-06", "04-02"),
        ("orange", SANTA_FE, "09-12", "10-02"),
        ("mandarin", SANTA_FE, "09-12", "10-02"),
        ("orange", ELDORADO, "08-28", "09-22"),
        ("orange", VALENCIA, "03-28", "04-30"),
        ("mandarin", SHIZUOKA, "05-01", "05-20"),
        ("olive", JAEN, "04-28", "05-15"),
        ("olive", CORINTH, "05-05", "05-25"),
    ],
)
def test_full_bloom_lies_where_growers_saw_it(
    kind: str, site: Site, begins: str, ends: str, tmp_path: Path
) -> None:
    almanac = almanac_of(tmp_path, site, kind)
    full = almanac.axis.date(float(np.median(almanac.forecasts["tree"].full)))
    assert dt.date.fromisoformat(f"2027-{begins}") <= full <= dt.date.fromisoformat(f"2027-{ends}")


@pytest.mark.parametrize(
    ("kind", "cultivar", "site", "begins", "ends"),
    [
        ("olive", "Manzanilla", HALKIDIKI, "09-15", "10-15"),
        ("olive", "Manzanillo", FRESNO, "09-08", "10-15"),
        ("olive", "Koroneiki", KALAMATA, "10-15", "11-30"),
        ("olive", "Arbequina", FRESNO, "10-01", "10-31"),
        ("olive", "", JAEN, "10-15", "11-30"),
        ("almond", "", KALAMATA, "08-01", "09-05"),
        ("almond", "", VALENCIA, "08-01", "09-05"),
    ],
)
def test_picking_begins_when_growers_begin(
    kind: str, cultivar: str, site: Site, begins: str, ends: str, tmp_path: Path
) -> None:
    ripe = ripe_on(almanac_of(tmp_path, site, kind, cultivar))
    assert dt.date.fromisoformat(f"2027-{begins}") <= ripe <= dt.date.fromisoformat(f"2027-{ends}")


def test_the_days_that_a_kind_states_move_its_picking(tmp_path: Path) -> None:
    """Stated days told apart by fifty are told apart by weeks, not by nothing: what stating them is for."""
    on = []
    for days in (140, 190):
        folder = tmp_path / str(days)
        folder.mkdir()
        kinds = f"[olive.harvest]\nafter_full_bloom_days = {days}\n"
        on.append(ripe_on(almanac_of(folder, KALAMATA, "olive", kinds=kinds)))
    assert 30 <= (on[1] - on[0]).days <= 70
