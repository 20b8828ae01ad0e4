"""Two batches in one bay."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, heap

from leafturn.almanac import Almanac
from leafturn.garden.model import Garden, Heap, Place
from leafturn.journal.entries import Done, Entry, HeapReading
from leafturn.kinds.library import load_library
from leafturn.season.garden_day import GardenDay
from leafturn.soil.compost.batches import Batch, batch_of
from leafturn.tasks.rule_model import verbs_that_count

ON = dt.date(2027, 6, 20)


def day(text: str) -> dt.date:
    return dt.date.fromisoformat(f"2027-{text}")


def reading(text: str, celsius: float) -> Entry:
    return HeapReading(on=day(text), heap="bay", temp_c=celsius)


def done(text: str, verb: str) -> Entry:
    return Done(on=day(text), task=f"bay:{verb}:2027")


OLD = [reading("04-02", 61), reading("04-10", 58), done("04-12", "turn"), reading("05-20", 18)]


def almanac(folder: Path, *notes: Entry, stage: str = "working") -> Almanac:
    return almanac_of(folder, garden_text(heap("bay", stage=stage), climate=None), ON, *notes)


def lying(*notes: Entry) -> Batch:
    garden = Garden(place=Place(lat=47, lon=15), heaps=(Heap(id="bay"),))
    return batch_of("bay", GardenDay(garden, load_library()[0], notes, ON, verbs_that_count(())))


@pytest.mark.parametrize("verb", ["spread", "empty"])
def test_readings_and_turnings_before_the_emptying_do_not_count(verb: str) -> None:
    new = [reading("06-05", 48), done("06-12", "turn"), reading("06-18", 57)]
    batch = lying(*OLD, done("05-25", verb), *new)
    assert batch.begun == day("05-25")
    assert batch.readings == [(day("06-05"), 48), (day("06-18"), 57)]
    assert batch.turns == (day("06-12"),)


def test_without_an_emptying_all_notes_are_of_one_heap_and_other_heaps_are_left_out() -> None:
    other = HeapReading(on=day("05-01"), heap="bay-2", temp_c=70)
    batch = lying(*OLD, other, done("05-02", "spread-elsewhere"))
    assert batch.begun is None
    assert len(batch.readings) == 3
    assert batch.turns == (day("04-12"),)


def test_the_page_tells_only_of_the_heap_that_lies_there_now(tmp_path: Path) -> None:
    found = almanac(tmp_path, *OLD, done("05-25", "spread"), reading("06-05", 48), reading("06-18", 50))
    (bay,) = found.heaps()
    assert [celsius for _, celsius in bay.course] == [48, 50]
    assert bay.hot.days == 0
    assert bay.hot.turns == 0
    assert any("emptied on 25 May; what was noted before is left out" in line for line in bay.says)
    assert "No reading of 55 C or more is noted." in bay.says


def test_a_new_heap_is_not_due_for_the_cooling_of_the_one_before(tmp_path: Path) -> None:
    """The old one was 61 C and fell to 18; the new one has not been hot."""
    found = almanac(tmp_path, *OLD, done("05-25", "spread"), reading("06-05", 41))
    turn = next(j for j in found.jobs() if j.verb == "turn" and j.state not in ("done",))
    told = " ".join(turn.why)
    assert "61 C" not in told
    assert "not turned since the bay was emptied on 25 May" in told


def test_a_ripe_heap_that_was_spread_is_gone_until_the_file_says_otherwise(tmp_path: Path) -> None:
    (bay,) = almanac(tmp_path, done("06-19", "spread"), stage="ready").heaps()
    assert bay.to_do == "emptied on 19 Jun"
    assert bay.spread == ()
    assert any('stage = "filling"' in line for line in bay.says)


def test_a_note_taken_back_brings_the_old_readings_back(tmp_path: Path) -> None:
    found = almanac(tmp_path, *OLD, done("05-25", "spread"))
    assert found.heaps()[0].course == ()
    found, _ = found.take_back(found.takeable().id, ON)  # type: ignore[union-attr]
    assert len(found.heaps()[0].course) == 3
