"""What growers of cool and cold countries would not sign, met in gardens lived through for a year."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from tests.in_process import run
from tests.samples.garden_text import garden_text, plant

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


VICTORIA = {  # British Columbia, 1991 to 2020, recalled, to about half a degree C
    "tmax_c": [7.6, 8.7, 10.9, 13.9, 17.5, 20.3, 22.8, 22.8, 20.0, 14.5, 10.1, 7.4],
    "tmin_c": [1.5, 1.3, 2.4, 4.0, 6.9, 9.6, 11.3, 11.1, 8.6, 5.5, 3.0, 1.5],
    "rain_mm": [143, 89, 79, 48, 38, 31, 18, 24, 31, 88, 153, 142],
}
QUEBEC = {  # Quebec City, 1991 to 2020, recalled, to about one degree C
    "tmax_c": [-7.9, -5.6, 0.2, 8.3, 17.0, 22.3, 25.0, 23.6, 17.9, 11.1, 2.9, -4.2],
    "tmin_c": [-17.7, -15.6, -9.4, -1.0, 5.4, 10.5, 13.5, 12.5, 7.5, 2.0, -4.2, -12.8],
    "rain_mm": [90, 71, 90, 82, 106, 114, 128, 117, 126, 99, 102, 104],
}
TENERIFE = {  # Santa Cruz, 1991 to 2020, recalled, to about half a degree C
    "tmax_c": [20.7, 21.0, 22.1, 22.7, 24.1, 26.1, 28.2, 28.8, 27.9, 26.1, 23.7, 21.7],
    "tmin_c": [15.1, 15.1, 15.7, 16.3, 17.5, 19.2, 21.0, 21.7, 21.3, 19.9, 17.8, 16.2],
    "rain_mm": [32, 35, 38, 12, 4, 1, 0, 2, 7, 19, 34, 43],
}
KOCHI = {  # Kerala, recalled, to about one degree C
    "tmax_c": [32, 32, 33, 33, 32, 30, 29.5, 29.5, 30, 30.5, 31, 32],
    "tmin_c": [22.5, 24, 25, 25.5, 25.5, 24, 23.5, 24, 24, 24, 24, 23],
    "rain_mm": [20, 30, 50, 130, 300, 700, 570, 390, 280, 300, 180, 40],
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
    (row,) = [
        row for row in told(where, "partners", "--on", "2027-04-20")["trees"] if row["plant"] == plant_id
    ]
    return str(row["standing"])


@pytest.mark.parametrize("kind", ["rowan", "hawthorn", "blackthorn", "elderberry"])
def test_what_stands_in_every_hedge_is_served_by_wild_ones(tmp_path: Path, kind: str) -> None:
    """Hedge and woodland plants of all Scotland (common practice, no source)."""
    assert standing(edinburgh(tmp_path, plant("bush", kind, year=2005, at=[0, 0])), "bush") == "served"


@pytest.mark.parametrize(("kind", "cultivar"), [("wild cherry", "Kordia"), ("hazel", "Cosford")])
def test_wild_ones_serve_what_came_from_seed_and_no_cultivar(
    tmp_path: Path, kind: str, cultivar: str
) -> None:
    """Geans and hazels of woods seed themselves (common practice, no source).

    A single sweet cherry is unlikely to set without another nearby (Bernwode Fruit Trees, read); two hazels
    are always planted, and wild bushes near enough serve too (Orange Pippin, Growing hazelnuts, read): one
    who has them writes them down.
    """
    wild = plant("wild", kind, year=1995, raised="seedling", at=[0, 0])
    assert standing(edinburgh(tmp_path, wild), "wild") == "served"
    named = plant("named", kind, cultivar=cultivar, year=2005, at=[0, 0])
    assert standing(edinburgh(tmp_path, named), "named") == "lacks"


def test_it_is_not_where_none_grow_wild(tmp_path: Path) -> None:
    """European rowans grow wild nowhere near Kansas (range as in plant handbooks, recalled)."""
    assert standing(manhattan(tmp_path, plant("bush", "rowan", year=2005, at=[0, 0])), "bush") == "lacks"


def test_nor_is_it_where_no_flora_is_known(tmp_path: Path) -> None:
    """Rowans are no hedge plants of New Zealand (recalled); of what grows wild there nothing is packaged."""
    where = garden(tmp_path, EDINBURGH, -43.5, 172.6, plant("bush", "rowan", year=2005, at=[0, 0]))
    assert standing(where, "bush") == "lacks"


def verbs(where: Path, on: str) -> set[str]:
    return {job["verb"] for job in jobs(where, on)}


@pytest.mark.parametrize("kind", ["salmonberry", "thimbleberry", "oregon grape", "salal"])
def test_plants_of_the_pacific_forest_have_wild_kin_there(tmp_path: Path, kind: str) -> None:
    """Undergrowth of all Vancouver Island (plant handbooks, recalled)."""
    where = garden(tmp_path, VICTORIA, 48.4, -123.4, plant("bush", kind, year=2012, at=[0, 0]))
    rows = told(where, "partners", "--on", "2027-04-20")["trees"]
    assert [row["standing"] for row in rows if row["plant"] == "bush"] in ([], ["served"])


def test_young_stems_are_whitened_where_winters_are_cold_alone(tmp_path: Path) -> None:
    """University of California, Lassen, 2022 (read): of use where cold nights follow sunny days."""
    tree = plant("apple", "apple", year=2023, at=[0, 0])
    old = plant("old", "apple", year=1990, at=[9, 0])
    assert "whiten stems" in verbs(manhattan(tmp_path, tree), "2027-11-28")
    assert "whiten stems" not in verbs(manhattan(tmp_path, old), "2027-11-28")
    assert "whiten stems" not in verbs(edinburgh(tmp_path, tree), "2027-11-28")


@pytest.mark.parametrize("kind", ["globe artichoke", "french tarragon"])
def test_what_autumn_would_rot_is_divided_in_spring(tmp_path: Path, kind: str) -> None:
    """Artichokes are divided in spring (growers' pages, read); tarragon likewise (recalled)."""
    where = garden(tmp_path, VICTORIA, 48.4, -123.4, plant("clump", kind, year=2018))
    assert "divide in spring" in verbs(where, "2027-04-17")
    assert not {"divide", "divide in spring"} & verbs(where, "2027-10-10")


def test_what_was_lifted_is_not_wrapped(tmp_path: Path) -> None:
    """Sweet potatoes are lifted before frost (common practice, no source)."""
    roots, fig = plant("roots", "sweet potato", year=2026), plant("fig", "fig", year=2026)
    wrapped = [job for job in jobs(manhattan(tmp_path, roots, fig), "2027-10-16") if job["verb"] == "wrap"]
    assert {member["plant"] for job in wrapped for member in job["members"]} <= {"fig"}
    assert wrapped


def test_herbs_that_no_frost_takes_are_not_cut_down(tmp_path: Path) -> None:
    """On the coast of Tenerife comfrey and mint stay green (common practice, no source)."""
    where = garden(
        tmp_path,
        TENERIFE,
        28.5,
        -16.3,
        plant("comfrey", "comfrey", year=2018),
        plant("mint", "mint", year=2018),
    )
    assert "cut down" not in verbs(where, "2026-12-05")


def test_where_there_is_no_winter_none_is_named(tmp_path: Path) -> None:
    """At Kochi no month has a mean under 26 degC."""
    trees = (plant(kind, kind, year=2005) for kind in ("coconut", "macadamia"))
    titles = [job["title"] for job in jobs(garden(tmp_path, KOCHI, 10.0, 76.3, *trees), "2026-12-20")]
    assert any("coconut" in title for title in titles)
    assert not any("winter" in title for title in titles)


def test_shrubs_of_quebec_wait_for_the_snow_to_go(tmp_path: Path) -> None:
    """Nesting begins along the Saint Lawrence in mid-April (recalled), when the snow has gone."""
    where = garden(tmp_path, QUEBEC, 46.8, -71.2, plant("cassis", "blackcurrant", year=2015), region="quebec")
    (job,) = [job for job in jobs(where, "2026-03-22") if job["verb"] == "winter prune"]
    assert job["wait_until"] == "2026-04-14"


def test_birds_of_the_pacific_coast_nest_from_march(tmp_path: Path) -> None:
    """Canada's general nesting period may begin in mid-March (government overview, read)."""
    where = garden(tmp_path, VICTORIA, 48.4, -123.4, plant("a", "apple"), region="british columbia")
    assert "nests 15 Mar to 15 Aug" in " ".join(told(where, "round", "--on", "2026-03-16")["notes"])


def test_running_bamboo_is_kept_in_and_clumps_need_it_not(tmp_path: Path) -> None:
    """Running bamboos alone spread by long rhizomes (Connecticut Agricultural Experiment Station, read)."""
    run_, clump = plant("runs", "moso", year=2015), plant("stays", "fargesia", year=2015)
    cut = [
        job for job in jobs(manhattan(tmp_path, run_, clump), "2027-06-05") if job["verb"] == "cut runners"
    ]
    assert [job["plant"] for job in cut] == ["runs"]
    thinned = [job for job in jobs(manhattan(tmp_path, run_, clump), "2027-02-27") if job["verb"] == "thin"]
    assert {(job["plant"], job["state"]) for job in thinned} == {("runs", "due"), ("stays", "due")}


@pytest.mark.parametrize(
    ("cultivar", "month", "verb"),
    [
        ("Jackmanii", "03-06", "winter cut"),
        ("Nelly Moser", "03-06", "winter cut"),
        ("Montana", "06-05", "cut after bloom"),
    ],
)
def test_clematis_is_cut_by_its_time_of_flowering(
    tmp_path: Path, cultivar: str, month: str, verb: str
) -> None:
    """Groups 1, 2 and 3 of growers in New Zealand, Australia and England (read)."""
    where = edinburgh(tmp_path, plant("vine", "clematis", cultivar=cultivar, year=2018))
    (cut,) = [job for job in jobs(where, f"2027-{month}") if job["verb"] == verb]
    assert ("ladder" in cut["demands"]) == (verb != "winter cut")  # shears reach the rest
    other = {"winter cut", "cut after bloom"} - {verb}
    assert not other & (verbs(where, "2027-03-06") | verbs(where, "2027-06-05"))


def test_apples_of_poland_and_france_are_known_by_their_names_there(tmp_path: Path) -> None:
    """Antonovka flowers early and gives good pollen (a Polish description, read)."""
    where = edinburgh(
        tmp_path,
        plant("a", "apple", cultivar="Antonówka", year=2000, at=[0, 0]),
        plant("b", "apple", cultivar="Reine des Reinettes", year=2000, at=[8, 0]),
    )
    assert {standing(where, "a"), standing(where, "b")} == {"served"}


@pytest.mark.parametrize(
    ("lat", "lon", "warm", "cold", "first", "last"),
    [
        pytest.param(
            51.2, 0.5,
            [7.5, 8.0, 10.8, 14.0, 17.2, 20.2, 22.6, 22.5, 19.3, 15.2, 10.9, 8.0],
            [2.0, 1.9, 3.2, 4.6, 7.5, 10.3, 12.5, 12.5, 10.2, 7.7, 4.6, 2.4],
            "09-02", "09-30", id="Kent",
        ),
        pytest.param(
            52.5, 13.4,
            [3.8, 5.3, 9.5, 15.1, 19.8, 23.1, 25.2, 24.9, 19.9, 14.0, 8.2, 4.7],
            [-1.1, -0.9, 1.1, 4.4, 8.8, 12.1, 14.4, 13.9, 10.4, 6.5, 2.7, 0.2],
            "08-31", "09-30", id="Berlin",
        ),
    ],
)  # fmt: skip
def test_hazels_of_hedges_ripen_in_september(
    tmp_path: Path, lat: float, lon: float, warm: list[float], cold: list[float], first: str, last: str
) -> None:
    """Foragers in England had them on 2 and 5 September, in Germany they begin at the end of August (read).

    They were told with Barcelona, a late one, for the second week of October. Months are recalled.
    """
    climate = {"tmax_c": warm, "tmin_c": cold, "rain_mm": [50] * 12}
    where = garden(tmp_path, climate, lat, lon, plant("bush", "hazel", year=2000))
    (ripe,) = [e for e in told(where, "season", "--on", "2026-05-01")["events"] if e["event"] == "ripe"]
    assert f"2026-{first}" <= ripe["likely"] <= f"2026-{last}"


@pytest.mark.parametrize("kind", ["fig", "globe artichoke", "rosemary"])
def test_what_is_low_and_tender_is_wrapped_however_old_it_is(tmp_path: Path, kind: str) -> None:
    """Artichokes are earthed up under straw each winter (growers' pages, read); figs likewise (recalled)."""
    assert "wrap" in verbs(manhattan(tmp_path, plant("old", kind, year=2012, height_m=1.5)), "2027-10-23")
    tall = plant("old", "fig", year=2012, height_m=5)
    assert "wrap" not in verbs(manhattan(tmp_path, tall), "2027-10-23")


def test_rust_is_looked_for_on_junipers_where_it_lives(tmp_path: Path) -> None:
    """Galls are cut off junipers in late winter (garden and extension answers, read)."""
    trees = plant("apple", "apple", year=2010), plant("pear", "pear", year=2010)

    def looked(where: Path) -> set[str]:
        return {job["plant"] for job in jobs(where, "2027-03-06") if job["verb"] == "look for rust galls"}

    assert looked(manhattan(tmp_path, *trees)) == {"apple"}
    assert looked(edinburgh(tmp_path, *trees)) == {"pear"}
