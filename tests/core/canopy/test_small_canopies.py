"""Gardens with little in them, and ones at the ends of the earth."""

from __future__ import annotations

import datetime as dt
import re

import pytest

from leafturn.almanac import Almanac
from leafturn.canopy.review import CanopyReview
from leafturn.canopy.stand.today import StandToday
from leafturn.garden.model import Garden, Place, Plant, Point
from leafturn.journal.entries import CrownNote, Entry
from leafturn.kinds.library import load_library
from leafturn.season.garden_day import GardenDay

LIBRARY, _ = load_library()
DAY = dt.date(2027, 4, 19)


def canopy(*plants: Plant, lat: float = 46.9, entries: tuple[Entry, ...] = ()):
    day = GardenDay(Garden(place=Place(lat=lat, lon=0), plants=plants), LIBRARY, entries, DAY)
    return CanopyReview(StandToday(day)).canopy()


def test_nothing_and_nothing_placed() -> None:
    assert canopy().old_trees == ()
    assert canopy(Plant(id="p", kind="pear")).old_trees == ()


def test_one_bush_alone_has_all_its_light_and_no_old_tree() -> None:
    found = canopy(Plant(id="bush", kind="redcurrant", point=Point(0, 0), year=2020))
    assert found.old_trees == ()
    assert set(found.plants[0].light.values()) == {100.0}


def test_without_an_old_tree_the_tallest_is_shown_and_no_trend_is_made_up() -> None:
    found = canopy(
        Plant(id="oak", kind="sessile oak", point=Point(0, 0), year=1990),
        Plant(id="pear", kind="pear", point=Point(4, 0), year=2010),
    )
    (old_tree,) = found.old_trees
    assert (old_tree.plant, old_tree.trend_per_year, old_tree.bare.likely) == ("oak", None, None)
    assert "Nobody has noted a look" in old_tree.says[0]
    assert old_tree.down.likely is not None
    assert old_tree.down.likely > 2057  # well: 1 in 100 a year


def test_what_has_no_place_and_what_is_taken_as_grown_is_said() -> None:
    found = canopy(
        Plant(id="lost", kind="pear"),
        Plant(id="tall", kind="pear", point=Point(0, 0)),
        Plant(id="stump", kind="pear", state="gone", point=Point(1, 0)),
    )
    assert "lost" in found.notes[0]
    assert "tall" in found.notes[1]
    assert "stump" not in " ".join(found.notes)


@pytest.mark.parametrize("lat", [-43.4, 0.0, 69.0, -89.0, 90.0])
def test_any_latitude_is_answered(lat: float) -> None:
    found = canopy(
        Plant(id="ash", kind="common ash", point=Point(0, 0), year=1930, state="declining", height_m=20),
        Plant(id="pear", kind="pear", point=Point(0, 4), year=2015),
        lat=lat,
    )
    for drawn in found.plants:
        assert all(0 <= percent <= 100.1 for percent in drawn.light.values())
    release = next(r for r in found.old_trees[0].releases if r.plant == "pear")
    assert release.full <= release.now < release.gone


def test_a_climber_and_its_host_do_not_shade_each_other_but_both_shade_a_third() -> None:
    def bush(*others: Plant) -> float:
        found = canopy(Plant(id="bush", kind="redcurrant", point=Point(0, 2), year=2015), *others)
        return found.plants[0].light[2027]

    host = Plant(id="host", kind="grey alder", point=Point(0, 0), year=2000)
    kiwi = Plant(id="kiwi", kind="hardy kiwi", host="host", point=Point(0, 0), year=2010)
    assert bush(host, kiwi) < bush(host) < bush()
    pair = canopy(host, kiwi)
    assert {p.light[2027] for p in pair.plants} == {100.0}


def test_a_dead_tree_shades_less_than_a_living_one_and_none_once_down() -> None:
    def medlar(state: str) -> dict[int, float]:
        found = canopy(
            Plant(id="ash", kind="common ash", point=Point(0, 0), year=1930, state=state, height_m=20),  # type: ignore[arg-type]
            Plant(id="medlar", kind="medlar", point=Point(-4, 0), year=2015),
        )
        return dict(found.plants[1].light)

    dead, well = medlar("dead standing"), medlar("well")
    assert well[2027] < dead[2027] < 100
    assert dead[2050] == pytest.approx(100, abs=0.1)
    assert well[2050] < 100


def test_a_look_of_nought_is_a_bare_crown() -> None:
    assessments = tuple(
        CrownNote(on=dt.date(year, 8, 1), plant="ash", live_percent=live)
        for year, live in ((2024, 20.0), (2026, 0.0))
    )
    found = canopy(
        Plant(id="ash", kind="common ash", point=Point(0, 0), year=1930, state="declining"),
        entries=assessments,
    )
    assert found.old_trees[0].live_percent == 0
    assert found.old_trees[0].bare.likely == 2026


def test_short_lived_kinds_are_told_with_the_year_to_raise_new_ones() -> None:
    """A currant of 18 years lives about 20 and crops from a cutting in two or three: raise one now."""
    currant = LIBRARY.match("redcurrant").kind
    assert currant.size.life_years is not None
    old = round(currant.size.life_years.value) - 9
    found = canopy(
        Plant(id="young", kind="redcurrant", point=Point(0, 0), year=2025),
        Plant(id="old", kind="redcurrant", point=Point(4, 0), year=2027 - old),
        Plant(id="past", kind="redcurrant", point=Point(8, 0), year=1980),
    )
    past, later = found.short_lived
    assert past.startswith("past: 47 years old")
    assert past.endswith("raise new ones now")
    assert later.startswith(f"old: {old} years old")
    assert 2028 <= int(later.rsplit(" ", 1)[1]) <= 2036


def test_a_tree_planted_later_is_not_in_the_canopy_yet() -> None:
    found = canopy(
        Plant(id="oak", kind="sessile oak", point=Point(0, 0), year=1990),
        Plant(id="pear", kind="pear", point=Point(4, 0), year=2028),
    )
    assert [drawn.plant for drawn in found.plants] == ["oak"]
    assert "pear" not in " ".join(found.old_trees[0].says)


def test_the_look_asked_for_is_told_as_it_is_typed() -> None:
    found = canopy(Plant(id="oak", kind="sessile oak", point=Point(0, 0), year=1990))
    assert "note it as: crown oak 33%" in " ".join(found.old_trees[0].says)


def test_a_range_no_wider_than_its_middle_is_told_once() -> None:
    old = Plant(id="ash", kind="common ash", point=Point(0, 0), year=1900, state="dead standing", height_m=20)
    grown = Plant(id="pear", kind="pear", point=Point(2, 0), year=1920, role=("successor",), height_m=11)
    said = " ".join(canopy(old, grown).old_trees[0].succession.says)
    assert "pear 11 m" in said
    assert not re.search(r"(\d+)-\1\)", said)
    assert not re.search(r"about 1 years", said)


def test_the_light_of_some_plants_by_month_is_that_of_them_among_all(weir_meadow: Almanac) -> None:
    every = [plant.id for plant in weir_meadow.garden.plants]
    of_all = weir_meadow.light_by_month(every, "toll-ash")
    asked = ["medlar", "toll-ash", "no such plant"]
    assert weir_meadow.light_by_month(asked, "toll-ash") == {p: of_all[p] for p in asked[:2]}
    assert weir_meadow.light_by_month([]) == {}
