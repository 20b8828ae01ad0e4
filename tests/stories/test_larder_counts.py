"""The larder as a command: a count for every week, nothing that cannot set, what would fill empty weeks."""

from __future__ import annotations

import datetime as dt
import json
import re
from pathlib import Path

import pytest
from tests.in_process import run
from tests.samples.garden_text import garden_text, plant
from tests.samples.towns import TENERIFE, TIFTON

from leafturn.kinds.library import load_library

ON = "2027-04-19"
PLANTS = (
    plant("currant", "redcurrant", year=2015, at=[6, 3]),
    plant("lonely-kiwi", "hardy kiwi", sex="female", year=2010, at=[9, 0]),
    plant("quince", "quince", year=2010, at=[15, 0]),
    plant("whip", "pear", cultivar="Bartlett", year=2026, at=[20, 0]),
)


def weeks(folder: Path) -> list[tuple[int, int, str]]:
    said = run("larder", str(folder), "--on", ON).stdout
    return [
        (int(picked), int(open_now), told)
        for picked, open_now, told in re.findall(
            r"^week \d+, from [^,]+, (\d+) to pick, (\d+) open\. (.*)$", said, re.M
        )
    ]


def test_every_week_is_counted_and_what_cannot_set_is_left_out(tmp_path: Path) -> None:
    (tmp_path / "garden.toml").write_text(garden_text(*PLANTS), encoding="utf-8")
    found = weeks(tmp_path)
    assert len(found) == 53
    for picked, open_now, told in found:
        names = re.search(r"To pick: ([^.]*)\.", told)[1]
        assert picked == (0 if names == "nothing" else len(names.split(", ")))
        assert open_now == (0 if "pollen: nothing" in told else told.split("pollen: ")[1].count(",") + 1)
        assert "lonely-kiwi" not in names, "no male: it sets no fruit"
        assert "whip" not in names, "a year old: it bears nothing"
    assert {picked for picked, *_ in found} >= {0, 1}
    assert any("currant" in told for _, _, told in found)
    said = run("larder", str(tmp_path), "--on", ON).stdout
    assert "lonely-kiwi: hardly any fruit sets without a partner" in " ".join(said.split())
    larder = json.loads(run("larder", str(tmp_path), "--on", ON, "--json").stdout)["larder"]
    empty = {week["first"] for week in larder["weeks"] if not week["picked"] and not week["kept"]}
    inside = [(gap["start"], gap["end"]) for gap in larder["picking_gaps"]]
    gaps = {w["first"] for w in larder["weeks"] for start, end in inside if start <= w["first"] <= end}
    assert gaps == empty
    assert any(gap["fillers"] for gap in larder["picking_gaps"])


def test_a_partner_puts_it_into_the_larder(tmp_path: Path) -> None:
    male = plant("male", "hardy kiwi", sex="male", year=2010, at=[11, 0])
    (tmp_path / "garden.toml").write_text(garden_text(*PLANTS, male), encoding="utf-8")
    assert any("lonely-kiwi" in told.split("Open")[0] for _, _, told in weeks(tmp_path))


@pytest.mark.parametrize(("lat", "on", "first", "last"), [
    (46.9, "2027-04-19", (53, "2026-12-28"), (52, "2027-12-27")),
    (-41.3, "2027-04-19", (27, "2026-06-29"), (26, "2027-06-28")),
    (46.9, "2024-12-31", (1, "2024-01-01"), (1, "2024-12-30")),
])  # fmt: skip
def test_weeks_are_those_of_the_calendar_and_hold_every_day(
    tmp_path: Path, lat: float, on: str, first: tuple[int, str], last: tuple[int, str]
) -> None:
    """Numbers as ISO 8601 has them, from Monday: the same week is meant here, on sheets and in the Round."""
    (tmp_path / "garden.toml").write_text(garden_text(*PLANTS, climate=None, lat=lat), encoding="utf-8")
    larder = json.loads(run("larder", str(tmp_path), "--on", on, "--json").stdout)["larder"]
    told = [(week["number"], dt.date.fromisoformat(week["first"])) for week in larder["weeks"]]
    assert (told[0], told[-1]) == tuple((n, dt.date.fromisoformat(day)) for n, day in (first, last))
    assert all(day.isocalendar()[1:] == (number, 1) for number, day in told)
    assert [day for _, day in told] == [told[0][1] + dt.timedelta(weeks=n) for n in range(len(told))]
    assert told[0][1] <= dt.date.fromisoformat(on) < told[-1][1] + dt.timedelta(weeks=1)
    sheet = run("sheet", str(tmp_path), "--on", on).stdout
    week = dt.date.fromisoformat(on).isocalendar().week
    assert f"week {week}," in run("larder", str(tmp_path), "--on", on).stdout
    assert re.search(rf"\b{week}-A\b", sheet)


MILD = {
    "tmax_c": [24.4, 24.6, 22.9, 20.4, 17.5, 15.1, 14.4, 15.0, 16.5, 18.3, 20.3, 22.4],
    "tmin_c": [14.7, 15.2, 13.3, 10.6, 8.1, 6.1, 5.1, 6.0, 7.7, 9.5, 11.3, 13.4],
    "rain_mm": [80, 85, 105, 110, 110, 120, 125, 120, 100, 90, 80, 95],
}  # about the Bay of Plenty, rounded


def test_fruit_that_hangs_over_the_turn_of_the_year_is_still_picked_after_it(tmp_path: Path) -> None:
    """Navel oranges of New Zealand's north are picked through winter into spring (common practice)."""
    orange = plant("orange", "orange", cultivar="Navel", year=2008, at=[0, 0])
    text = garden_text(orange, climate=MILD, lat=-37.7, lon=176.2)
    (tmp_path / "garden.toml").write_text(text, encoding="utf-8")
    larder = json.loads(run("larder", str(tmp_path), "--on", "2026-11-10", "--json").stdout)["larder"]
    picked = {week["first"][:7] for week in larder["weeks"] if week["picked"] == ["orange"]}
    assert {"2026-07", "2026-08", "2027-06"} <= picked
    assert not any("2026-07" <= gap["start"][:7] <= "2026-08" for gap in larder["picking_gaps"])


SITES = {
    "kent": (51.3, 0.4, {
        "tmax_c": [8.0, 8.5, 11.4, 14.5, 18.0, 21.1, 23.6, 23.3, 20.0, 15.7, 11.2, 8.4],
        "tmin_c": [2.0, 1.8, 3.2, 4.7, 7.6, 10.5, 12.7, 12.6, 10.1, 7.6, 4.4, 2.4],
        "rain_mm": [65, 48, 42, 45, 48, 48, 46, 54, 55, 76, 76, 70],
    }),
    "tifton": (31.5, -83.5, TIFTON),
}  # fmt: skip


@pytest.mark.parametrize(("site", "kind", "cultivar", "from_day", "to_day"), [
    # Mote Cobnuts Project, Ightham, Kent: green from late August on, golden brown at the end of September.
    ("kent", "hazel", "Kentish Cob", "2027-08-17", "2027-09-30"),
    # D. Sparks, University of Georgia, south-west Georgia: ripe 4 October 2007, 11 October 2008 foretold.
    ("tifton", "pecan", "Desirable", "2027-09-20", "2027-10-18"),
])  # fmt: skip
def test_nuts_are_picked_when_growers_pick_them(
    tmp_path: Path, site: str, kind: str, cultivar: str, from_day: str, to_day: str
) -> None:
    lat, lon, months = SITES[site]
    one = plant("one", kind, cultivar=cultivar, year=1990, at=[0, 0])
    other = plant("other", kind, cultivar="Cosford" if kind == "hazel" else "Elliott", year=1990, at=[4, 4])
    text = garden_text(one, other, climate=months, lat=lat, lon=lon)
    (tmp_path / "garden.toml").write_text(text, encoding="utf-8")
    larder = json.loads(run("larder", str(tmp_path), "--on", ON, "--json").stdout)["larder"]
    first = next(week["first"] for week in larder["weeks"] if "one" in week["picked"])
    assert from_day <= first <= to_day


def test_nuts_that_winter_overtakes_are_not_picked(tmp_path: Path) -> None:
    """On a prairie of 50 N a Barcelona has leaves for too few weeks: no picking is told for January."""
    prairie = {
        "tmax_c": [-11, -8, -1, 11, 19, 23, 26, 25, 19, 11, 0, -9],
        "tmin_c": [-22, -19, -11, -2, 5, 11, 13, 12, 6, 0, -9, -18],
        "rain_mm": [20, 15, 25, 30, 55, 90, 75, 75, 45, 35, 25, 20],
    }
    two = [
        plant(name, "hazel", cultivar=name, year=2005, at=[e, 0])
        for name, e in (("Barcelona", 0), ("Gamma", 5))
    ]
    text = garden_text(*two, climate=prairie, lat=50.0, lon=-97.0)
    (tmp_path / "garden.toml").write_text(text, encoding="utf-8")
    larder = json.loads(run("larder", str(tmp_path), "--on", ON, "--json").stdout)["larder"]
    assert not any("Barcelona" in week["picked"] for week in larder["weeks"])


def test_only_what_bees_seek_is_proposed_for_its_flowers(tmp_path: Path) -> None:
    """Oca is grown for its tubers; bees hardly go to it (beekeepers' lists give it 1 of 4, a guess)."""
    (tmp_path / "garden.toml").write_text(garden_text(plant("oak", "english oak", year=1950)), "utf-8")
    larder = json.loads(run("larder", str(tmp_path), "--on", ON, "--json").stdout)["larder"]
    proposed = {kind for gap in larder["forage_gaps"] for kind in gap["fillers"]}
    assert proposed
    library, _ = load_library()
    for name in proposed:
        forage = library.match(name).kind.forage
        assert max(fact.value for fact in (forage.nectar, forage.pollen) if fact) >= 3, name


YOUNG = (
    plant("whip", "peach", year=2026, at=[0, 0]),
    plant("slip", "redcurrant", year=2027, at=[20, 0]),
    plant("grown", "peach", year=2015, at=[200, 0]),
    plant("bush", "redcurrant", year=2015, at=[220, 0]),
)
OF_FRUIT = {
    "pick",
    "thin fruit",
    "prop limbs",
    "put nets on",
    "take mummies off",
    "scout shoot tips",
    "note bloom",
    "note set",
}


@pytest.mark.long
def test_what_fruits_alone_is_promised_nothing_while_it_is_too_young(tmp_path: Path) -> None:
    """A peach bears two to four years after planting, a redcurrant two to three (guides, recalled)."""
    (tmp_path / "garden.toml").write_text(garden_text(*YOUNG), encoding="utf-8")
    of_fruit: dict[str, set[str]] = {}
    for week in range(52):
        on = (dt.date(2027, 1, 4) + dt.timedelta(weeks=week)).isoformat()
        told = json.loads(run("round", str(tmp_path), "--on", on, "--json").stdout)
        for job in (*told["jobs"], *told["waiting"]):
            for member in job["members"]:
                of_fruit.setdefault(member["plant"], set()).add(job["verb"])
    assert {"pick", "prop limbs"} <= of_fruit["grown"]
    assert "pick" in of_fruit["bush"]
    assert not OF_FRUIT & (of_fruit["whip"] | of_fruit["slip"])
    said = run("larder", str(tmp_path), "--on", ON).stdout
    assert not re.search(r"\b(whip|slip)\b", said)
    (alone,) = re.findall(r"^needs none: (.*)$", run("partners", str(tmp_path), "--on", ON).stdout, re.M)
    assert re.search(r"whip \(flowers about 20(28|29|30)\)", alone)
    assert "grown," in f"{alone},"
    trees = json.loads(run("partners", str(tmp_path), "--on", ON, "--json").stdout)["trees"]
    crops = {tree["plant"]: tree["crop_chance"] for tree in trees}
    assert crops["whip"] == 0 < crops["grown"]


def test_nobody_is_told_to_fill_an_empty_store_with_lavender(tmp_path: Path) -> None:
    (tmp_path / "garden.toml").write_text(garden_text(*YOUNG), encoding="utf-8")
    larder = json.loads(run("larder", str(tmp_path), "--on", ON, "--json").stdout)["larder"]
    fillers = {kind for gap in larder["picking_gaps"] for kind in gap["fillers"]}
    assert fillers
    assert not {"lavender", "hop"} & fillers


def test_what_the_season_dates_is_not_told_as_without_a_day(tmp_path: Path) -> None:
    """Stalks and leaves are dated by the warmth of spring even where nothing is known of the flowers."""
    stalks = [plant(kind, kind, year=2015) for kind in ("rhubarb", "angelica")]
    text = garden_text(*stalks, climate=TENERIFE, lat=28.5, lon=-16.3)
    (tmp_path / "garden.toml").write_text(text, encoding="utf-8")
    season = json.loads(run("season", str(tmp_path), "--on", ON, "--json").stdout)
    dated = {event["plant"] for event in season["events"] if event["event"] == "ready to pick"}
    larder = json.loads(run("larder", str(tmp_path), "--on", ON, "--json").stdout)["larder"]
    in_weeks = {plant for week in larder["weeks"] for plant in week["picked"]}
    assert dated == in_weeks
    assert not dated & set(larder["undated"])
