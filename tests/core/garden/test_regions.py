"""What depends on the region: nests, oak wilt, lists of invasive plants."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, helper, numbers, plant

from leafturn.almanac import Almanac
from leafturn.garden.regions import region_named, regions
from leafturn.tasks.model import Job

PLANTS = (
    plant("plum", "european plum", year=1980, state="declining"),
    plant("rambler", "rambling rose", year=2010, host="plum"),
    plant("oak", "northern red oak", year=2019),
    helper("tree workers", people=2, can=["licensed", "ladder", "saw"]),
    plant("alien", "tree of heaven", year=2024),
)


def garden(folder: Path, on: dt.date, region: str | None, *more: str, **place: float) -> Almanac:
    named = {} if region is None else {"region": region}
    return almanac_of(folder, garden_text(*PLANTS, *more, **place, **named), on)


def job(almanac: Almanac, plant: str, verb: str) -> Job:
    return next(j for j in almanac.jobs() if j.plant == plant and j.verb == verb and j.state != "done")


@pytest.mark.parametrize(
    ("region", "held_until"),
    [("germany", dt.date(2027, 10, 1)), ("ireland", dt.date(2027, 9, 1)), ("france", dt.date(2027, 8, 16)),
     ("England", dt.date(2027, 9, 1)), ("elsewhere", dt.date(2027, 9, 1)), (None, dt.date(2027, 9, 1))],
)  # fmt: skip
def test_nests_hold_until_the_regions_own_day(
    tmp_path: Path, region: str | None, held_until: dt.date
) -> None:
    """BNatSchG s.39(5) to 30 September (read); Irish Acts to 31 August, French farm rule to 15 August."""
    lighten = job(garden(tmp_path, dt.date(2027, 6, 1), region), "rambler", "lighten")
    assert lighten.state == "held"
    assert lighten.hold is not None
    assert lighten.hold.until == held_until


def test_a_region_not_stated_is_asked_for_and_the_hold_stands_meanwhile(tmp_path: Path) -> None:
    asked = job(garden(tmp_path, dt.date(2027, 6, 1), None), "rambler", "lighten")
    assert sum("No region is written down" in line for line in asked.why) == 1
    told = job(garden(tmp_path, dt.date(2027, 6, 1), "elsewhere"), "rambler", "lighten")
    assert told.state == "held"
    assert not any("No region" in line for line in told.why)


def test_a_garden_s_own_dates_come_before_the_regions_and_nothing_is_asked(tmp_path: Path) -> None:
    own = numbers(nesting_from="03-15", nesting_to="07-20")
    held = job(garden(tmp_path, dt.date(2027, 6, 1), None, own), "rambler", "lighten")
    assert held.hold is not None
    assert held.hold.until == dt.date(2027, 7, 21)
    assert not any("No region" in line for line in held.why)


@pytest.mark.parametrize(
    ("region", "lon", "state"),
    [("texas", -98.0, "held"), ("wisconsin", -90.0, "not held"), (None, -90.0, "held"),
     (None, 15.9, "not held"), ("germany", 15.9, "not held"), ("pacific northwest", -122.0, "not held")],
)  # fmt: skip
def test_oaks_wait_where_oak_wilt_occurs(tmp_path: Path, region: str | None, lon: float, state: str) -> None:
    """State notices, read: Texas from 1 February, Wisconsin from April; none in Europe or the north-west."""
    almanac = garden(tmp_path, dt.date(2027, 2, 20), region, lat=43.0, lon=lon)
    prune = job(almanac, "oak", "winter prune")
    assert (prune.state == "held") == (state == "held")
    if state == "held":
        assert "oak wilt" in prune.why[0]


def test_an_unknown_region_costs_one_sentence_and_the_usual_dates_stay(tmp_path: Path) -> None:
    almanac = garden(tmp_path, dt.date(2027, 6, 1), "germny")
    (fault,) = [f for f in almanac.faults if "region" in f.message]
    assert "germny" in fault.message
    assert fault.line == 4
    assert "germany" in fault.hint
    assert job(almanac, "rambler", "lighten").state == "held"


def test_invasive_lists_follow_the_region(tmp_path: Path) -> None:
    """Tree of heaven is on the European Union's list (recalled)."""
    on = dt.date(2027, 6, 1)
    stated = {s.plant: s for s in garden(tmp_path, on, "austria").heed().spreaders}
    assert stated["alien"].here is True
    assert "listed for Austria" in stated["alien"].says
    care = garden(tmp_path, on, None).heed()
    unknown = {s.plant: s for s in care.spreaders}
    assert unknown["alien"].here is None
    assert "known to spread into wild land, listed for" in unknown["alien"].says
    assert any("which local rules bind" in call for call in care.calls)


def test_the_gardens_own_land_is_named_once_among_those_that_list_a_plant(tmp_path: Path) -> None:
    """Japanese honeysuckle is on a list of New Zealand and on others."""
    more = plant("vine", "japanese honeysuckle")
    there = garden(tmp_path, dt.date(2027, 10, 5), "New Zealand", more, lat=-41.0, lon=173.0)
    said = next(s.says for s in there.heed().spreaders if s.plant == "vine")
    assert "listed for New Zealand, as in eastern United States" in said
    assert said.count("New Zealand") == 1


@pytest.mark.parametrize(
    ("region", "place", "listed"),
    [("germany", "central Europe, locally", True), ("germany", "northern Europe", False),
     ("texas", "prairies of North America", True), ("texas", "north-eastern United States, locally", False),
     ("ireland", "Ireland and British dunes outside its home", True),
     ("pacific northwest", "woods of eastern North America", False),
     ("wisconsin", "eastern North America (Rosa multiflora)", True), ("elsewhere", "Australia", False)],
)  # fmt: skip
def test_words_of_the_lists_are_read_as_regions(region: str, place: str, listed: bool) -> None:
    assert regions()[region].lists([place]) == listed


def test_every_region_names_its_source_and_no_name_is_given_twice() -> None:
    names = [name for row in regions().values() for name in (row.name, *row.also)]
    assert len(names) == len(set(names))
    assert all(len(row.source) > 15 for row in regions().values())
    assert region_named(" Republic of  Ireland ") is regions()["ireland"]
    assert region_named(None) is None
    assert region_named("atlantis") is None


@pytest.mark.parametrize(
    ("written", "read_as"),
    [
        ("Samarkand, Uzbekistan", "asia"), ("Extremadura", "southern europe"), ("Tanzania", "africa"),
        ("usa", "united states"), ("U.S.A.", "united states"), ("Midwest USA", "northern united states"),
        ("upstate New York", "northern united states"), ("southern England", "united kingdom"),
        ("West Virginia", "northern united states"), ("New South Wales", "australia"),
        ("PNW", "pacific northwest"), ("the Northeast", "northern united states"),
        ("Germany, Bavaria", "germany"), ("Wisconsin (USA)", "wisconsin"), ("Mexico", "mexico"),
        ("Oaxaca, Mexico", "mexico"), ("Mexico City", "mexico"), ("New Mexico", "western united states"),
    ],
)  # fmt: skip
def test_regions_are_read_as_people_name_them(written: str, read_as: str) -> None:
    found = region_named(written)
    assert found is not None
    assert found.name == read_as


def test_an_unknown_region_is_told_every_word_it_could_be(tmp_path: Path) -> None:
    (fault,) = garden(tmp_path, dt.date(2027, 6, 1), "Narnia").faults
    assert all(name in fault.hint for name in regions())


@pytest.mark.parametrize(
    ("written", "read_as", "dates"),
    [
        ("Bavaria", "germany", "nests 1 Mar to 30 Sep, no oak wilt"),
        ("Oregon", "pacific northwest", "nests 1 Apr to 1 Aug, no oak wilt"),
        ("USA, Wisconsin", "wisconsin", "nests 1 Apr to 1 Aug, oak wilt 1 Apr to 31 Jul"),
        ("Ontario (Canada)", "canada", "nests 1 Apr to 31 Aug, oak wilt 1 Apr to 31 Jul"),
        ("North America", "north america", "nests on the usual dates, oak wilt 1 Feb to 31 Jul"),
        ("Spain", "southern europe", "nests on the usual dates, no oak wilt"),
        ("Japan", "asia", "nests on the usual dates, no oak wilt"),
        ("germany", "germany", "nests 1 Mar to 30 Sep, no oak wilt"),
    ],
)
def test_country_state_and_continent_are_taken_and_it_is_said_which_dates_follow(
    tmp_path: Path, written: str, read_as: str, dates: str
) -> None:
    almanac = garden(tmp_path, dt.date(2027, 6, 1), written)
    assert not [fault for fault in almanac.faults if "region" in fault.message]
    (note,) = [note for note in almanac.notes if "region" in note]
    assert f'region = "{written}" gives the dates of {read_as.title()}: {dates}.' in note


def test_a_southern_state_says_that_the_dates_are_moved(tmp_path: Path) -> None:
    almanac = garden(tmp_path, dt.date(2026, 11, 1), "Tasmania", lat=-42.0, lon=147.0)
    assert any("Australia: nests on the usual dates, moved by half a year" in note for note in almanac.notes)
    assert job(almanac, "rambler", "lighten").state == "held", "November is nesting time in the south"


def test_every_state_of_the_united_states_is_known() -> None:
    """The fifty states, from memory."""
    states = [
        "\n        alabama",
        " alaska",
        " arizona",
        " arkansas",
        " california",
        " colorado",
        " connecticut",
        " delaware",
        " florida",
        " georgia",
        "\n        hawaii",
        " idaho",
        " illinois",
        " indiana",
        " iowa",
        " kansas",
        " kentucky",
        " louisiana",
        " maine",
        " maryland",
        " massachusetts",
        "\n        michigan",
        " minnesota",
        " mississippi",
        " missouri",
        " montana",
        " nebraska",
        " nevada",
        " new hampshire",
        " new jersey",
        "\n        new mexico",
        " new york",
        " north carolina",
        " north dakota",
        " ohio",
        " oklahoma",
        " oregon",
        " pennsylvania",
        "\n        rhode island",
        " south carolina",
        " south dakota",
        " tennessee",
        " texas",
        " utah",
        " vermont",
        " virginia",
        " washington",
        "\n        west virginia",
        " wisconsin",
        " wyoming\n    ",
    ]
    assert len(states) == 50
    assert not [state for state in states if region_named(state) is None]
