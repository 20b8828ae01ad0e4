"""Lines of the Round that a grower would not sign, met in gardens lived through, and that they are gone."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from tests.in_process import run
from tests.samples.garden_text import garden_text, helper, plant
from tests.samples.towns import SAPPORO

OCEANIC = {  # Galway 1991 to 2020, recalled, to about half a degree C
    "tmax_c": [8.7, 9.1, 10.7, 12.9, 15.7, 17.9, 19.2, 19.2, 17.4, 14.2, 11.1, 9.1],
    "tmin_c": [3.2, 3.2, 4.1, 5.5, 8.0, 10.7, 12.6, 12.5, 10.8, 8.4, 5.6, 3.8],
    "rain_mm": [118, 92, 85, 72, 75, 80, 87, 108, 100, 129, 120, 130],
}
PRAIRIE = {  # Lincoln, Nebraska 1991 to 2020, recalled, to about one degree F
    "tmax_f": [34, 39, 51, 63, 73, 84, 88, 86, 79, 66, 51, 38],
    "tmin_f": [13, 17, 27, 38, 50, 61, 66, 64, 54, 41, 28, 17],
    "rain_in": [0.7, 0.9, 1.7, 2.8, 4.6, 4.4, 3.3, 3.5, 3.0, 2.1, 1.3, 1.0],
}


ANCHORAGE = {
    "tmax_c": [-4.9, -2.3, 1.3, 7.2, 13.2, 17.3, 18.9, 17.7, 13.0, 4.9, -2.6, -4.1],
    "tmin_c": [-11.6, -9.9, -7.4, -1.5, 4.2, 9.0, 11.4, 9.9, 5.3, -1.4, -8.8, -10.6],
    "rain_mm": [19, 19, 16, 10, 19, 26, 46, 74, 76, 52, 30, 28],
}


def garden(
    folder: Path,
    climate: dict[str, list[float]] | None,
    lat: float,
    lon: float,
    *things: str,
    **place: object,
) -> Path:
    text = garden_text(*things, climate=climate, lat=lat, lon=lon, **place)
    (folder / "garden.toml").write_text(text, "utf-8")
    return folder


def galway(folder: Path, *things: str) -> Path:
    return garden(folder, OCEANIC, 53.3, -9.0, *things)


def lincoln(folder: Path, *things: str) -> Path:
    return garden(folder, PRAIRIE, 40.8, -96.7, *things)


def jobs(where: Path, on: str) -> list[dict[str, Any]]:
    told = json.loads(run("round", str(where), "--on", on, "--json").stdout)
    return [*told["jobs"], *told["waiting"]]


@pytest.mark.parametrize(
    ("kind", "on"),
    [("hawthorn", "2027-05-08"), ("rowan", "2027-05-08"), ("elderberry", "2027-06-08")],
)
def test_nobody_carries_pollen_to_what_stands_in_every_hedge(tmp_path: Path, kind: str, on: str) -> None:
    """Their kin stand wild within a bee's way (common practice, no source)."""
    where = galway(tmp_path, plant("bush", kind, year=2010), plant("pear", "pear", year=2010))
    verbs = {job["verb"] for job in jobs(where, on) if "bush" in [m["plant"] for m in job["members"]]}
    assert not verbs & {"bring pollen", "look at partners", "note set"}
    told = {job["verb"] for on in ("2027-04-12", "2027-04-16") for job in jobs(where, on)}
    assert "bring pollen" in told  # the pear, which has nobody


def test_nobody_carries_pollen_into_a_tall_crown(tmp_path: Path) -> None:
    where = lincoln(
        tmp_path,
        plant("old-walnut", "black walnut", year=1990),
        plant("oak", "bur oak", year=1990, at=[40, 0]),
        plant("hazel", "american hazel", year=2012, at=[0, 40]),
    )
    told = {(job["verb"], m["plant"]) for on in ("2027-04-01", "2027-05-09") for job in jobs(where, on)
            for m in job["members"]}  # fmt: skip
    assert ("bring pollen", "hazel") in told
    assert not {("bring pollen", "old-walnut"), ("bring pollen", "oak")} & told


def test_rhubarb_is_pulled_in_spring_and_not_in_the_last_week_of_its_season(tmp_path: Path) -> None:
    where = galway(tmp_path, plant("rhubarb", "rhubarb", year=2015))
    (pick,) = [job for job in jobs(where, "2027-04-20") if job["verb"] == "pick"]
    assert pick["best"] < "2027-05-10"
    assert pick["state"] == "due"


def test_autumn_raspberries_are_picked_into_october(tmp_path: Path) -> None:
    """Heritage bears on the canes of the year until the first hard frost (growers' pages, read)."""
    where = lincoln(
        tmp_path,
        plant("heritage", "raspberry", cultivar="Heritage", year=2020),
        plant("meeker", "raspberry", cultivar="Meeker", year=2020, at=[10, 0]),
    )
    heritage = [job for job in jobs(where, "2027-09-20") if job["id"].startswith("heritage:pick")]
    assert [job["state"] for job in heritage] == ["due"]
    assert heritage[0]["close"] >= "2027-10-01"
    summer = [job for job in jobs(where, "2027-07-01") if job["id"].startswith("meeker:pick")]
    assert summer[0]["close"] < "2027-08-15"


@pytest.mark.parametrize("kind", ["blackcurrant", "redcurrant", "gooseberry", "american hazel"])
def test_where_winters_are_cold_bushes_are_cut_until_they_grow(tmp_path: Path, kind: str) -> None:
    """Just before growth resumes, March or early April in Pennsylvania (Penn State on currants, read)."""
    bush = garden_text(
        plant("bush", kind, year=2015), climate=PRAIRIE, lat=40.8, lon=-96.7, region="nebraska"
    )
    (tmp_path / "garden.toml").write_text(bush, "utf-8")
    (cut,) = [job for job in jobs(tmp_path, "2027-03-22") if job["verb"] in ("winter prune", "winter cut")]
    assert cut["state"] == "due" or cut["wants"] == "a second person"  # who cuts the stems of a hazel
    assert "2027-03-25" <= cut["close"] <= "2027-04-30"


HOKKAIDO = {**SAPPORO, "rain_mm": [108, 92, 78, 55, 56, 61, 91, 127, 142, 110, 114, 115]}


@pytest.mark.parametrize(
    ("region", "march", "asks"),
    [("japan", "due", "No nesting dates are known for Japan"), (None, "due", "No region is written down")],
)
def test_where_winters_are_cold_the_usual_nesting_dates_begin_in_april_and_ask_for_yours(
    tmp_path: Path, region: str | None, march: str, asks: str
) -> None:
    """Nesting follows the year's mean temperature (Rousseu and Drolet 2017, summary read)."""
    stated = {} if region is None else {"region": region}
    text = garden_text(
        plant("vine", "climbing rose", year=2012, host="plum"),
        plant("plum", "european plum", year=1980, state="declining"),
        plant("honeysuckle", "honeysuckle", year=2012, host="fence"),
        helper("pair", people=2, can=["ladder", "saw"]),
        climate=HOKKAIDO, lat=43.06, lon=141.33, **stated,
    )  # fmt: skip
    (tmp_path / "garden.toml").write_text(text, "utf-8")
    cut = [j for j in jobs(tmp_path, "2027-03-20") if j["id"].startswith("honeysuckle:winter-cut")]
    assert [job["state"] for job in cut] == [march]
    lighten = next(j for j in jobs(tmp_path, "2027-06-01") if j["verb"] == "lighten")
    assert lighten["state"] == "held"
    assert any(asks in why for why in lighten["why"])


def place_of_two_frosts(folder: Path, lat: float, lon: float, last: str, first: str, *things: str) -> Path:
    return garden(folder, None, lat, lon, *things, last_frost=last, first_frost=first)


def test_late_apples_do_not_ripen_where_the_season_is_short(tmp_path: Path) -> None:
    """Yellow Transparent is grown for its fruit in Alaska; Summerred and State Fair end the season of apples.

    Of Anchorage, Alaska Pioneer Fruit Growers, "Determining fruit ripening dates"; its monthly means and
    frost dates are recalled: a year made up from these dates alone is six degrees warmer in August.
    """
    early = plant("early", "apple", cultivar="Yellow Transparent", year=2010)
    late = plant("late", "apple", cultivar="Braeburn", year=2010)
    where = garden(
        tmp_path, ANCHORAGE, 61.2, -149.9, early, late, last_frost="05-10", first_frost="09-20"
    )  # fmt: skip
    season = run("season", str(where), "--on", "2026-08-01").stdout
    assert "early, ripe" in season
    assert "late, ripe" not in season
    assert "do not ripen before their leaves are down: late." in season
    for on in ("2026-08-20", "2026-10-25", "2026-11-10"):
        assert "pick late" not in run("round", str(where), "--on", on).stdout
    assert "pick early" in run("round", str(where), "--on", "2026-09-03").stdout


def test_nothing_waits_for_leaves_that_never_come(tmp_path: Path) -> None:
    """On the equator no winter rests a fig, so no day is the last before it grows (no source)."""
    where = place_of_two_frosts(tmp_path, 1.35, 103.8, "never", "never", plant("fig", "fig", year=2010))
    for on in ("2026-02-10", "2026-05-15", "2026-09-20"):
        assert "before it grows" not in run("round", str(where), "--on", on).stdout


def test_shoot_tips_are_looked_at_when_there_are_shoots(tmp_path: Path) -> None:
    """Grubs of the oriental fruit moth bore into the tips of growing shoots (extension pages, recalled)."""
    peach = plant("peach", "peach", year=2016)
    mild = place_of_two_frosts(tmp_path, 32.7, -117.1, "1 year in 5", "1 year in 5", peach)
    assert "shoot tips" not in run("round", str(mild), "--on", "2026-02-10").stdout
    cold = place_of_two_frosts(tmp_path, 46.9, 15.9, "04-24", "10-16", peach)
    assert "shoot tips" in run("round", str(cold), "--on", "2026-05-20").stdout


PUGLIA = {  # near Ostuni, recalled, to about one degree C
    "tmax_c": [12, 13, 15, 18, 23, 28, 31, 31, 27, 22, 17, 14],
    "tmin_c": [5, 5, 7, 9, 13, 17, 20, 20, 17, 14, 10, 7],
    "rain_mm": [60, 55, 60, 45, 35, 22, 18, 22, 50, 70, 80, 70],
}
ISLAND = {  # Vancouver Island, Saanich, recalled, to about one degree C
    "tmax_c": [7, 8, 11, 13, 17, 20, 23, 23, 20, 14, 9, 7],
    "tmin_c": [2, 2, 3, 5, 7, 10, 12, 12, 9, 6, 4, 2],
    "rain_mm": [140, 95, 80, 50, 40, 30, 18, 22, 35, 90, 150, 150],
}


def verbs_of_a_year(where: Path) -> set[tuple[str, str]]:
    """Each verb that comes up for each plant in a year, looked at every third week."""
    days = [f"2027-{month:02}-{day:02}" for month in range(1, 13) for day in (5, 26)]
    return {(job["verb"], m["plant"]) for on in days for job in jobs(where, on) for m in job["members"]}


@pytest.mark.long
def test_where_winters_hardly_freeze_artichokes_stay_green(tmp_path: Path) -> None:
    """An artichoke is harmed at about -5 C (recalled): in Puglia it grows through the winter."""
    things = (plant("artichoke", "globe artichoke", year=2024), plant("sage", "sage", year=2020))
    south = verbs_of_a_year(garden(tmp_path, PUGLIA, 40.7, 17.3, *things))
    assert not {("wrap", "artichoke"), ("cut down", "artichoke")} & south
    assert ("trim", "sage") in south
    assert {(v, p) for v, p in south if "mulch" in v and p == "sage"} == set()  # it rots at the foot
    north = verbs_of_a_year(lincoln(tmp_path, *things))
    assert {("wrap", "artichoke"), ("cut down", "artichoke")} <= north


@pytest.mark.long
def test_no_beetle_of_the_east_is_looked_for_beside_the_pacific(tmp_path: Path) -> None:
    """Plum curculio lives in North America east of the Rockies (kinds/data/pests.toml)."""
    things = (
        plant("plum", "european plum", cultivar="Stanley", year=2010),
        plant("comfrey", "comfrey", year=2020, at=[20, 0]),
        plant("maple", "field maple", year=1985, at=[60, 0]),
        plant("young-maple", "field maple", year=2015, at=[90, 0]),
    )
    west = verbs_of_a_year(garden(tmp_path, ISLAND, 48.6, -123.5, *things))
    east = verbs_of_a_year(lincoln(tmp_path, *things))
    assert ("scout curculio", "plum") in east - west
    assert ("chop and drop", "comfrey") in west
    assert ("autumn mulch", "comfrey") not in west | east
    assert ("prune", "young-maple") in west
    assert ("prune", "maple") not in west | east  # nobody prunes a grown maple every year


def test_an_apple_of_unknown_season_is_told_as_one(tmp_path: Path) -> None:
    """Cox is picked about the end of September, Sturmer Pippin from 24 October on (pages, read)."""
    where = galway(
        tmp_path,
        plant("strange", "apple", cultivar="Widow Byrne", year=2005),
        plant("nameless", "apple", year=2005, at=[8, 0]),
        plant("cox", "apple", cultivar="Cox's Orange Pippin", year=2005, at=[16, 0]),
        plant("sturmer", "apple", cultivar="Sturmer Pippin", year=2005, at=[24, 0]),
    )
    picks = {job["id"].split(":")[0]: job for on in ("2027-10-02", "2027-11-05")
             for job in jobs(where, on) if job["verb"] == "pick"}  # fmt: skip
    assert "When Widow Byrne ripens is not known" in " ".join(picks["strange"]["why"])
    assert "No cultivar is named" in " ".join(picks["nameless"]["why"])
    assert "early and late ones" not in " ".join(picks["cox"]["why"])
    assert picks["sturmer"]["open"] > picks["cox"]["open"]


def test_miscanthus_stands_through_winter_and_is_cut_before_it_grows(tmp_path: Path) -> None:
    """Late winter, before new growth (common practice, no source); never in leaf."""
    where = galway(tmp_path, plant("grass", "miscanthus", year=2018))
    days = ("2027-03-01", "2027-06-20", "2027-09-09", "2027-11-20", "2027-12-10")
    seen = [{job["verb"] for job in jobs(where, on)} for on in days]
    assert ["cut down" in verbs for verbs in seen] == [True, False, False, False, False]
    assert not any("chop and drop" in verbs for verbs in seen)


def test_two_frost_dates_are_enough_for_an_english_spring(tmp_path: Path) -> None:
    """Most apples of Brogdale in Kent were in full flower on 22 April 2024, an early year, and on 2 May 2018.

    Hazel is in flower in January and February (Woodland Trust, recalled).
    """
    apple, hazel = plant("apple", "apple", year=2009), plant("hazel", "hazel", year=2009)
    where = place_of_two_frosts(tmp_path, 51.3, 0.9, "04-20", "11-10", apple, hazel)
    events = json.loads(run("season", str(where), "--on", "2027-01-05", "--json").stdout)["events"]
    likely = {(e["plant"], e["event"]): e["likely"] for e in events}
    assert "2027-04-20" <= likely["apple", "full bloom"] <= "2027-05-04"
    assert "2027-01-01" <= likely["hazel", "first open"] <= "2027-02-28"


def test_what_keeps_its_leaves_is_pruned_once_hard_frost_is_past_and_not_as_in_winter(tmp_path: Path) -> None:
    """Citrus and olive, in a mild place of the South (common practice, no source)."""
    hobart = {"last_frost": "20 September", "first_frost": "25 May"}
    trees = (plant("citrus", "lemon", year=2015), plant("oil", "olive", year=2010))
    where = garden(tmp_path, None, -42.9, 147.3, *trees, **hobart)
    told = [job for on in ("2027-08-20", "2027-10-15", "2027-11-20") for job in jobs(where, on)]
    assert not [job["title"] for job in told if "winter" in job["title"]]
    assert {m["plant"] for job in told if job["verb"] == "spring prune" for m in job["members"]} == {
        "citrus",
        "oil",
    }


@pytest.mark.parametrize(("sex", "verb"), [({}, "look for sex"), ({"sex": "female"}, "bring pollen")])
def test_a_persimmon_of_no_told_sex_is_looked_at_before_anybody_brings_it_pollen(
    tmp_path: Path, sex: dict[str, str], verb: str
) -> None:
    """American persimmons are male or female, and a male bears nothing (common practice, no source)."""
    where = lincoln(tmp_path, plant("persimmon", "american persimmon", year=2005, **sex))
    told = {job["verb"] for on in ("2027-05-20", "2027-05-27", "2027-06-03") for job in jobs(where, on)}
    assert told & {"look for sex", "bring pollen"} == {verb}
