"""Nothing is told of a crop that cannot set for want of pollen."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn.journal.entries import Done, Entry, FruitSetNote, HarvestNote

ON = dt.date(2027, 6, 20)
GARDEN = garden_text(
    plant("lonely-kiwi", "hardy kiwi", sex="female", year=2012, at=[0, 0]),
    plant("cherry", "sour cherry", year=2010, at=[20, 0]),
    plant("apple-a", "apple", cultivar="Boskoop", year=2005, at=[40, 0]),
    plant("apple-b", "apple", cultivar="Cox's Orange Pippin", year=2005, at=[45, 0]),
    plant("apple-c", "apple", cultivar="James Grieve", year=2005, at=[45, 5]),
)


def test_a_female_without_a_male_is_neither_picked_nor_in_the_larder(tmp_path: Path) -> None:
    almanac = almanac_of(tmp_path, GARDEN, ON)
    review = {tree.plant: tree.standing for tree in almanac.partners()}
    assert review["lonely-kiwi"] == "lacks"
    picked = {name for job in almanac.jobs() if job.verb == "pick" for name in job.plants or (job.plant,)}
    assert "lonely-kiwi" not in picked
    assert "cherry" in picked
    larder = almanac.larder()
    assert "lonely-kiwi" not in {name for week in larder.weeks for name in week.picked}
    assert larder.barren == ("lonely-kiwi",)
    assert any("lonely-kiwi" in week.forage for week in larder.weeks), "bees find what bears nothing"


@pytest.mark.parametrize(
    "note",
    [
        FruitSetNote(on=ON, plant="lonely-kiwi", set="fair"),
        HarvestNote(on=dt.date(2025, 10, 3), plant="lonely-kiwi", kg=4),
        Done(on=dt.date(2027, 6, 10), task="hardy-kiwi:bring-pollen:2027"),
    ],
)
def test_what_it_bore_or_was_done_for_it_counts_more(tmp_path: Path, note: Entry) -> None:
    almanac = almanac_of(tmp_path, GARDEN, ON, note)
    assert "lonely-kiwi" in {job.plant for job in almanac.jobs() if job.verb == "pick"}
    assert almanac.larder().barren == ()


def test_cherries_are_not_propped_and_their_set_is_not_asked_for(tmp_path: Path) -> None:
    """Common practice, no source: props go under apples, pears and plums that were to be thinned."""
    jobs = almanac_of(tmp_path, GARDEN, ON).jobs()
    assert {job.plant for job in jobs if job.verb == "prop limbs"} == {"apple"}
    assert "sour-cherry" not in {job.plant for job in jobs if job.verb == "note set"}


QUEBEC_CITY = {  # normals from memory, to about a degree
    "tmax_c": [-7.9, -5.6, 0.2, 8.3, 17.0, 22.3, 25.0, 23.6, 17.9, 11.1, 2.9, -4.2],
    "tmin_c": [-17.7, -16.0, -9.4, -1.3, 5.4, 10.6, 13.5, 12.5, 7.5, 2.0, -4.2, -12.9],
}


def test_a_lone_old_walnut_lacks_pollen_and_has_nuts_to_pick(tmp_path: Path) -> None:
    """Walnuts are generally self-fruitful, with an incomplete overlap of pollen and receptive flowers
    (Krueger 2000, HortTechnology 10, abstract read). A Bing cherry sets none by its own pollen.
    """
    text = garden_text(
        plant("walnut", "persian walnut", year=1935, state="declining", at=[0, 0]),
        plant("cherry", "sweet cherry", cultivar="Bing", year=1990, at=[30, 0]),
    )
    almanac = almanac_of(tmp_path, text, ON)
    standing = {tree.plant: tree.standing for tree in almanac.partners()}
    assert standing == {"walnut": "lacks", "cherry": "lacks"}
    picked = {job.plant for job in almanac.jobs() if job.verb == "pick"}
    assert picked == {"walnut"}
    assert almanac.larder().barren == ("cherry",)


def test_a_lone_walnut_too_young_to_flower_is_not_picked(tmp_path: Path) -> None:
    text = garden_text(plant("walnut", "persian walnut", year=2026, at=[0, 0]))
    assert not [job for job in almanac_of(tmp_path, text, ON).jobs() if job.verb == "pick"]


def test_butternuts_of_southern_quebec_ripen_where_they_are_native(tmp_path: Path) -> None:
    """From September on in New York (Forest Farming, Cornell Cooperative Extension, read); native as far
    north as southern Quebec (Purdue Extension FNR-420-W, read).
    """
    text = garden_text(
        plant("butternut", "butternut", year=1960, at=[0, 0]), climate=QUEBEC_CITY, lat=46.8, lon=-71.4
    )
    (pick,) = [job for job in almanac_of(tmp_path, text, ON).jobs() if job.verb == "pick"]
    assert pick.open.likely is not None
    assert dt.date(2027, 9, 5) <= pick.open.likely <= dt.date(2027, 10, 10)
