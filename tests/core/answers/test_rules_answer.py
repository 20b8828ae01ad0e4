"""What each rule matches, on which days, and what keeps it from the rest."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, heap, own_rule, plant

from leafturn.almanac import Almanac
from leafturn.answers.rules import RuleView
from leafturn.journal.entries import LossNote

ON = dt.date(2027, 6, 20)
TEXT = garden_text(
    plant("young", "pear", year=2025, at=[0, 0]),
    plant("old", "pear", year=1990, at=[20, 0]),
    plant("to-come", "pear", year=2030, at=[40, 0]),
    plant("found", "pear", year=2025, at=[60, 0], plan="undecided"),
    plant("bush", "redcurrant", year=2025, at=[80, 0]),
    plant("bearing", "redcurrant", year=2015, at=[90, 0]),
    heap("bay-1", stage="working"),
    heap("bay-2", stage="ready"),
    own_rule("stake", title="stake {name}", id="stake", applies={"habits": ["tree"], "younger_than": 5},
             open="06-01", best="06-30", close="07-31", counts_as="look"),
    own_rule("shovel", title="shovel {name}", id="shovel", applies={"subject": "heap", "stages": ["ready"]},
             open="06-01", close="07-31"),
)  # fmt: skip


@pytest.fixture
def almanac(tmp_path: Path) -> Almanac:
    return almanac_of(tmp_path, TEXT, ON)


def rule(almanac: Almanac, named: str) -> RuleView:
    return next(view for view in almanac.rules() if view.id == named)


def test_it_tells_what_a_rule_is_for_and_when(almanac: Almanac) -> None:
    stake = rule(almanac, "stake")
    assert (stake.own, stake.counts_as) == (True, "look")
    (match,) = stake.matches
    (job,) = match.jobs
    assert (match.subject, job.id, job.state) == ("young", "young:stake:2027", "due")
    assert (job.open.likely, job.close.likely) == (dt.date(2027, 6, 1), dt.date(2027, 7, 31))


def test_a_rule_for_whatever_plan_is_not_kept_from_a_plant_by_its_plan(almanac: Almanac) -> None:
    """An undecided pear that is well wants no look at its crown: because it is well, not for its plan."""
    why = {miss.subject: miss.why for miss in rule(almanac, "crown-look").misses}
    assert why["found"] == why["young"]
    assert "states = weak, declining" in why["found"][0]


def test_it_tells_why_a_rule_is_not_for_the_rest(almanac: Almanac) -> None:
    why = {miss.subject: miss.why for miss in rule(almanac, "stake").misses}
    assert why == {
        "old": ("younger_than = 5 does not hold: it is 37 years old",),
        "to-come": ("it is planted in 2030",),
        "found": ('its plan is "undecided", and the rule does not name that among its plans',),
        "bush": ("habits = tree does not hold: it is a shrub",),
        "bearing": (
            "habits = tree does not hold: it is a shrub",
            "younger_than = 5 does not hold: it is 12 years old",
        ),
    }


def test_heaps_are_told_of_likewise(almanac: Almanac) -> None:
    shovel = rule(almanac, "shovel")
    assert [match.subject for match in shovel.matches] == ["bay-2"]
    (miss,) = shovel.misses
    assert (miss.subject, miss.why) == ("bay-1", ("stages = ready does not hold: it is working",))


def test_every_plant_is_matched_or_missed_by_every_rule_and_never_both(almanac: Almanac) -> None:
    plants, heaps = {p.id for p in almanac.garden.plants}, {h.id for h in almanac.garden.heaps}
    for view in almanac.rules():
        matched = {p for match in view.matches for p in match.plants or (match.subject,)}
        missed = {miss.subject for miss in view.misses}
        assert not matched & missed, view.id
        assert matched | missed in (plants, heaps), view.id


def test_every_job_of_a_rule_stands_under_it(almanac: Almanac) -> None:
    told = {job.id for view in almanac.rules() for match in view.matches for job in match.jobs}
    assert told == {job.id for job in almanac.jobs()}


def test_a_job_that_does_not_come_has_its_reason(almanac: Almanac) -> None:
    cover = rule(almanac, "cover-from-frost")
    assert cover.matches
    for match in cover.matches:
        assert match.jobs or match.why_none == "no night within 5 days is cold enough to call for it"


def test_a_lost_plant_is_missed_as_gone(almanac: Almanac) -> None:
    after, _ = almanac.note(LossNote(on=ON, plant="young"), ON)
    assert {miss.subject: miss.why for miss in rule(after, "stake").misses}["young"] == ("it is gone",)
