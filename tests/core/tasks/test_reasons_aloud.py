"""Reasons as they are read aloud: no wrong plural, no year twice, nothing told as done that is ahead."""

from __future__ import annotations

import datetime as dt
import re
from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, heap, own_job, own_rule, plant

from leafturn.almanac import Almanac
from leafturn.journal.entries import HeapReading

STRAWBERRIES = plant("strawberries", "garden strawberry", year=2024, count=20, at=[3, 4])
HEAP = heap("bay", stage="working", at=[3, 3])


def first_reason(folder: Path, day: str, when: str) -> str:
    own = own_job("own", "look", plant="strawberries", when=when)
    almanac = almanac_of(folder, garden_text(STRAWBERRIES, HEAP, own), day)
    job = next(job for job in almanac.jobs() if job.verb == "own job")
    return job.why[0]


def test_moments_of_a_plant_are_told_without_a_verb_that_must_agree(tmp_path: Path) -> None:
    assert "Picking of strawberries begins about" in first_reason(tmp_path, "2027-04-19", "ripe")
    assert first_reason(tmp_path, "2027-07-25", "6 w after ripe").startswith("Six weeks after picking of ")
    assert "Bloom of strawberries ends about" in first_reason(tmp_path, "2027-04-19", "bloom end")


def test_leaves_that_are_still_up_come_down(tmp_path: Path) -> None:
    assert "Leaves come down about" in first_reason(tmp_path, "2027-04-19", "leaf fall")


@pytest.mark.parametrize(
    ("day", "said"),
    [
        ("2027-04-19", r"Heat above 5 C since 1 Mar is \d+ of 400 degree-days\."),
        ("2027-07-19", r"Heat above 5 C since 1 Mar is \d+ degree-days; 400 were wanted\."),
    ],
)
def test_more_heat_than_was_wanted_is_not_told_as_a_part_of_it(tmp_path: Path, day: str, said: str) -> None:
    own = own_job("own", "look", when="heat 400 above 5 from 03-01")
    almanac = almanac_of(tmp_path, garden_text(STRAWBERRIES, own), day)
    job = next(job for job in almanac.jobs() if job.verb == "own job")
    assert any(re.fullmatch(said, line) for line in job.why), job.why


def test_no_chance_of_0_of_10(tmp_path: Path) -> None:
    said = first_reason(tmp_path, "2027-02-01", "last frost")
    assert "0 of 10" not in said
    assert "The last frost is about " in said


@pytest.fixture
def quiet_heap(tmp_path: Path) -> Almanac:
    return almanac_of(tmp_path, garden_text(STRAWBERRIES, HEAP), "2027-03-20")


@pytest.mark.parametrize("day", ["2027-03-14", "2027-03-20", "2027-10-30"])
def test_a_heap_of_which_nothing_is_noted_is_never_late_and_asks_for_a_note(
    quiet_heap: Almanac, day: str
) -> None:
    turn = quiet_heap.at(dt.date.fromisoformat(day)).job("bay:turn")
    assert turn is not None
    assert turn.state in ("soon", "due")
    assert "no turn or temperature is noted yet: note one" in turn.why[0]


def test_one_note_is_enough_to_count_from(quiet_heap: Almanac) -> None:
    noted, _ = quiet_heap.note(HeapReading(on=quiet_heap.on, heap="bay", temp_c=58.0), quiet_heap.on)
    turn = noted.at(dt.date(2027, 3, 21)).job("bay:turn")
    assert turn is not None
    assert "was still 58 C on 20 Mar" in turn.why[0]
    assert turn.state in ("soon", "not yet")


def test_readings_of_a_season_gone_by_are_too_old_to_count_from(quiet_heap: Almanac) -> None:
    old = dt.date(2026, 9, 1)
    noted, _ = quiet_heap.note(HeapReading(on=old, heap="bay", temp_c=58.0), old)
    turn = noted.job("bay:turn")
    assert turn is not None
    assert turn.state == "due"
    assert "no turn is noted, nor a temperature since 1 Sep" in turn.why[0]


def test_what_is_past_its_best_day_is_not_told_to_wait(tmp_path: Path) -> None:
    rule = own_rule(
        "net", title="net {name}", applies={"kinds": ["garden strawberry"]},
        open="03-01", best="03-10", close="07-01",
    )  # fmt: skip
    job = almanac_of(tmp_path, garden_text(STRAWBERRIES, HEAP, rule), "2027-04-19").job("strawberries:net")
    assert job is not None
    assert job.state == "due"
    assert "It was best done by 10 Mar; its time ends 1 Jul." in job.why
    assert not any("can wait" in said for said in job.why)


def test_where_any_of_several_may_be_the_first_it_is_said_that_a_day_is_of_the_first(tmp_path: Path) -> None:
    """Two pears of one season: the first flower of the two comes before the likely day of either."""
    dates = {"lat": 52.3, "lon": 5.2, "last_frost": "05-05", "first_frost": "10-20"}
    one = plant("a", "pear", cultivar="Concorde", year=2010, at=[0, 0])
    other = plant("b", "pear", cultivar="Conference", year=2010, at=[6, 0])
    told = {}
    for name, plants in {"two": (one, other), "one": (one,)}.items():
        almanac = almanac_of(tmp_path / name, garden_text(*plants, **dates), dt.date(2027, 4, 19))
        told[name] = [job.why[0] for job in almanac.jobs() if job.title.startswith("note first open")]
    assert all("bloom of the first of these, likely a, begins" in why for why in told["two"])
    assert all("bloom of a begins" in why for why in told["one"])
    assert told["two"]
    assert told["one"]
