"""What a person settles about a job: whom it falls to, and that a hold shall not bind it."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from tests.samples.job_garden import note, on, the
from tests.samples.jobs import BENCH, DAY, PAIR, STEWARD, job

from leafturn.journal.entries import Given
from leafturn.journal.job_id import JobId
from leafturn.tasks.assignments import Assignments
from leafturn.tasks.week.labour import allot


def test_a_held_job_shows_its_reason_and_the_day_it_is_free(folder: Path) -> None:
    held = the(on(folder, "2027-05-10"), "rose:lighten")
    assert held.state == "held"
    assert held.hold is not None
    assert held.hold.until == dt.date(2027, 9, 1)
    assert "Held until 1 Sep" in held.why[0]
    assert the(on(folder, "2027-09-01"), "rose:lighten").state in ("due", "late")


def test_a_person_may_lift_a_hold_and_is_named(folder: Path) -> None:
    almanac = on(folder, "2027-05-10")
    held = the(almanac, "rose:lighten")
    assert held.hold is not None
    lifted = note(almanac, what="hold-lifted", task=held.id, by="Anna", until=held.hold.until)
    free = the(lifted, "rose:lighten")
    assert free.state in ("due", "late")
    assert free.hold is None
    assert any("Anna lifted the hold on 10 May" in said for said in free.why)
    undone, _ = lifted.take_back(lifted.takeable().id, almanac.on)  # type: ignore[union-attr]
    assert the(undone, "rose:lighten").state == "held"


def test_a_lifted_hold_binds_again_when_there_is_a_new_reason(folder: Path) -> None:
    almanac = on(folder, "2027-05-10")
    lifted = note(
        almanac, what="hold-lifted", task="rose:lighten:2027", by="Anna", until=dt.date(2027, 5, 20)
    )
    assert the(lifted.at(dt.date(2027, 5, 19)), "rose:lighten").state in ("due", "late")
    assert the(lifted.at(dt.date(2027, 5, 20)), "rose:lighten").state == "held"


def test_a_job_given_by_name_falls_to_that_helper_before_others() -> None:
    plain = [job(f"job-{n}", cost_of_delay=9.0) for n in range(4)]
    given = job("given", point=None, given_to="bench helper", cost_of_delay=0.1)
    allotted = allot([*plain, given], [BENCH, STEWARD], DAY)
    assert {j.title: j.who for j in allotted.taken}["given"] == "bench helper"
    assert all(load.minutes <= load.hours_available * 60 for load in allotted.loads)


def test_what_nobody_may_do_alone_is_not_done_alone_by_giving_it() -> None:
    wanted = job("saw-limb", demands=("two people", "saw"), given_to="steward")
    assert allot([wanted], [STEWARD, PAIR], DAY).taken[0].who == "steward with pair"
    assert allot([wanted], [STEWARD], DAY).taken == ()
    assert allot([job("fell", demands=("licensed",), given_to="steward")], [STEWARD], DAY).taken == ()


def test_a_gift_is_noted_taken_back_and_given_to_nobody(folder: Path) -> None:
    almanac = on(folder, "2027-07-15")
    job_id = "plum:summer-prune:2027"
    assert the(almanac, job_id).given_to == ""
    given = note(almanac, what="given", task=job_id, to="steward")
    assert the(given, job_id).given_to == "steward"
    assert the(note(given, what="given", task=job_id, to="anyone"), job_id).given_to == ""
    back, _ = given.take_back(given.takeable(0).id, almanac.on)  # type: ignore[union-attr]
    assert the(back, job_id).given_to in ("", "steward")


@pytest.mark.parametrize(("day", "held"), [("2027-01-20", True), ("2027-04-20", False), ("2027-11-20", True)])
def test_a_hold_from_autumn_to_spring_holds_on_both_sides_of_new_year(
    tmp_path: Path, day: str, held: bool
) -> None:
    """Sleeping animals: 1 November to 15 March."""
    (tmp_path / "garden.toml").write_text(
        '[place]\nlat = 46.9\nlon = 15.9\nlast_frost = "04-24"\nfirst_frost = "10-16"\n'
        '[[heap]]\nid = "bay"\nstage = "working"\nat = [3, 3]\n'
        '[[rule]]\nverb = "move heap"\ntitle = "move {name}"\napplies = { subject = "heap" }\n'
        'open = "01-02"\nclose = "12-20"\nholds = ["sleeping animals"]\n'
    )
    state = the(on(tmp_path, day), "bay:move-heap").state
    assert (state == "held") == held


def test_a_job_of_the_whole_garden_is_given_in_older_journals_by_the_name_of_the_garden() -> None:
    given = Given(on=DAY, task="New-Hill:look-for-blight:2027", to="Ann")
    job_id = JobId("garden", "look-for-blight", 2027)
    assert Assignments([given], {"garden", "New-Hill"}).given_to(job_id) == "Ann"
    assert Assignments([given], {"garden"}).given_to(job_id) == ""
