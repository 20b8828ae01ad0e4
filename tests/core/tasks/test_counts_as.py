"""What a job counts as once it is done stands in its rule, and no page goes by its verb."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, heap, own_rule, plant

from leafturn.almanac import Almanac
from leafturn.journal.entries import Done
from leafturn.tasks.rule_model import load_rules

ON = dt.date(2027, 7, 20)
CLIMBER = (
    plant("plum", "european plum", year=1990, at=[0, 0]),
    plant("kiwi", "hardy kiwi", sex="female", year=2015, host="plum", at=[0, 1]),
)
SHORTEN = {
    "title": "shorten {name}",
    "applies": {"habits": ["climber"]},
    "open": "06-01",
    "best": "07-25",
    "close": "08-31",
}


def said_of_own_rule(folder: Path, **rule: object) -> tuple[Almanac, list[str]]:
    almanac = almanac_of(folder, garden_text(*CLIMBER, own_rule("shorten", **{**SHORTEN, **rule})), ON)
    return almanac, [f"{fault.message} {fault.hint}".strip() for fault in almanac.faults]


@pytest.mark.parametrize("more", [{"counts_as": "cut"}, {"id": "summer-cut-climber"}])
def test_an_own_rule_that_counts_as_a_cut_is_one_on_the_page_of_climbers(
    tmp_path: Path, more: dict[str, object]
) -> None:
    almanac, faults = said_of_own_rule(tmp_path, **more)
    assert faults == []
    (job,) = (j for j in almanac.jobs() if j.verb == "shorten")
    (before,) = almanac.climbers()
    assert before.job
    done, _ = almanac.note(Done(on=ON, plant="kiwi", task=job.id), ON)
    (after,) = done.climbers()
    assert after.grown_m < before.grown_m


def test_a_cut_by_a_rule_since_replaced_still_counts(tmp_path: Path) -> None:
    almanac, _ = said_of_own_rule(tmp_path, id="summer-cut-climber")
    done, _ = almanac.note(Done(on=ON, plant="kiwi", task="kiwi:summer-cut:2027"), ON)
    assert done.climbers()[0].grown_m < almanac.climbers()[0].grown_m


def test_without_it_a_rule_is_no_cut(tmp_path: Path) -> None:
    almanac, _ = said_of_own_rule(tmp_path)
    (job,) = (j for j in almanac.jobs() if j.verb == "shorten")
    done, _ = almanac.note(Done(on=ON, plant="kiwi", task=job.id), ON)
    assert done.climbers()[0].grown_m == almanac.climbers()[0].grown_m


def test_an_own_rule_may_water_and_empty(tmp_path: Path) -> None:
    months = {"applies": {"subject": "heap"}, "open": "03-01", "best": "04-01", "close": "05-01"}
    text = garden_text(
        plant("pear", "pear", year=2026, at=[3, 3]),
        heap("bay", stage="ready"),
        own_rule("soak", title="soak {name}", applies={"younger_than": 5}, open="06-01", best="07-01",
                 close="08-31", counts_as="water"),
        own_rule("barrow out", title="barrow out {name}", counts_as="empty", **months),
    )  # fmt: skip
    almanac = almanac_of(tmp_path, text, ON)
    assert almanac.faults == ()
    soaked, _ = almanac.note(Done(on=ON, plant="pear", task="pear:soak:2027", amount="30 l"), ON)
    emptied, _ = soaked.note(Done(on=ON, heap="bay", task="bay:barrow-out:2027"), ON)
    (line,) = emptied.water().lines
    assert line.watered == ON
    assert almanac.water().lines[0].watered is None
    (bay,) = emptied.heaps()
    assert bay.to_do == "emptied on 20 Jul"


def test_a_guard_taken_off_by_a_rule_of_ones_own_is_off(tmp_path: Path) -> None:
    old = plant("old", "apple", year=2010, at=[0, 0], guard={"kind": "mesh", "height_cm": 60, "year": 2011})
    off = own_rule("bare", id="guard-off", title="bare the stem of {name}", applies={"guard": ["outgrown"]},
                   open="03-15", close="06-10")  # fmt: skip
    almanac = almanac_of(tmp_path, garden_text(old, off), dt.date(2027, 5, 1))
    (job,) = (job for job in almanac.jobs() if job.verb == "bare")
    assert any("still wears a guard" in line.says for line in almanac.heed().bark)
    done, _ = almanac.note(Done(on=almanac.on, task=job.id), almanac.on)
    assert not any("still wears a guard" in line.says for line in done.heed().bark)
    assert not any(job.verb == "bare" for job in done.at(dt.date(2028, 5, 1)).jobs())


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        (
            {"counts_as": "cot"},
            "'cot' is no word it knows, at counts_as. counts_as is one of: cut, water, turn, empty, ",
        ),
        (
            {"closed_by": "harvst"},
            "'harvst' is no kind of note, so nothing would close it. Did you mean harvest?",
        ),
        ({"closed_by": "bloom", "closed_by_stage": "ful bloom"}, "is no stage. Did you mean full bloom?"),
        ({"closed_by_stage": "full bloom"}, "closed_by_stage is for notes of bloom alone."),
    ],
)
def test_a_word_nobody_knows_is_said(tmp_path: Path, wrong: dict[str, object], said: str) -> None:
    _, (fault,) = said_of_own_rule(tmp_path, **wrong)
    assert said in fault


def test_each_word_is_used_by_a_rule_of_the_program() -> None:
    used = {rule.counts_as for rule in load_rules().rules} - {None}
    assert used == {"cut", "water", "turn", "empty", "guard", "unguard", "look", "note"}
