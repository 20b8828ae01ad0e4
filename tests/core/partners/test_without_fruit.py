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
