"""Who can do what."""

import datetime as dt

import msgspec
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.samples.jobs import BENCH, DAY, PAIR, STEWARD, job

from leafturn.base.date_range import Likely
from leafturn.garden.model import Helper, Point
from leafturn.tasks.model import Job
from leafturn.tasks.week.labour import able, allot


def test_reach_and_posture_are_kept_to() -> None:
    assert able(BENCH, job(), DAY)
    assert not able(BENCH, job(point=Point(24, 18 - 20)), DAY)
    assert not able(BENCH, job(point=None), DAY)
    assert not able(BENCH, job(demands=("ladder",)), DAY)
    assert able(STEWARD, job(demands=("ladder", "saw")), DAY)


def test_work_for_two_never_falls_to_one_alone() -> None:
    wanted = job("lift-stone", demands=("two people", "lift"))
    assert allot([wanted], [PAIR], DAY).taken[0].who == "pair"
    assert allot([wanted], [STEWARD], DAY).taken == ()
    both = allot([job("saw-limb", demands=("two people", "saw"))], [STEWARD, PAIR], DAY)
    assert both.taken[0].who == "steward with pair"


def test_licensed_work_falls_to_nobody_without_a_licence() -> None:
    wanted = job("fell", demands=("licensed",))
    able_to_all = Helper(name="anyone", can=("anything",))
    assert allot([wanted], [able_to_all], DAY).beyond == ("fell",)
    assert allot([wanted], [Helper(name="tree worker", can=("licensed",))], DAY).taken[0].who == "tree worker"


def test_a_helper_who_comes_on_saturdays_is_not_given_tonights_job() -> None:
    saturdays = msgspec.structs.replace(PAIR, days=("sat",))
    tonight = job("cover")  # closes on the day of asking, a Monday
    later = job("mulch", close=Likely(DAY, DAY + dt.timedelta(days=5), DAY + dt.timedelta(days=5)))
    assert not able(saturdays, tonight, DAY)
    assert able(saturdays, later, DAY)


def test_the_least_able_hands_that_can_take_a_job_first() -> None:
    assert allot([job()], [STEWARD, BENCH], DAY).taken[0].who == "bench helper"


def test_what_costs_most_to_delay_goes_first_and_the_rest_waits() -> None:
    slow = job("mulch", minutes=200, cost_of_delay=0.1)
    urgent = job("cover", minutes=200, cost_of_delay=2.0)
    done = allot([slow, urgent], [Helper(name="steward", hours_per_week=5)], DAY)
    assert [j.title for j in done.taken] == ["cover"]
    assert [j.title for j in done.waiting] == ["mulch"]


jobs = st.lists(
    st.builds(
        lambda n, d, m, c: job(f"j{n}", demands=d, minutes=m, cost_of_delay=c),
        st.integers(0, 10_000),
        st.sampled_from([(), ("lift",), ("ladder",), ("two people", "saw"), ("licensed",)]),
        st.floats(1, 240),
        st.floats(0, 5),
    ),
    max_size=14,
)


@given(jobs)
@settings(max_examples=60, deadline=None)
def test_hours_are_never_exceeded_and_no_job_is_lost(wanted: list[Job]) -> None:
    helpers = [STEWARD, BENCH, PAIR]
    result = allot(wanted, helpers, DAY)
    for load, helper in zip(result.loads, helpers, strict=True):
        assert load.minutes <= helper.hours_per_week * 60 + 1e-6
    assert sorted(j.id for j in (*result.taken, *result.waiting)) == sorted(j.id for j in wanted)
    assert all(j.who for j in result.taken)


def test_what_is_done_this_week_is_no_longer_at_hand() -> None:
    done = [job("mow", minutes=300, state="done", closed_on=DAY, closed_by="steward")]
    allotted = allot([job("a", minutes=40), job("b", minutes=40)], [STEWARD], DAY, done)
    assert [j.title for j in allotted.taken] == ["a"]
    assert [j.title for j in allotted.waiting] == ["b"]
    assert allotted.loads[0].hours_available == 1
    unnamed = [job("mow", minutes=300, state="done", closed_on=DAY)]
    assert allot([], [STEWARD], DAY, unnamed).loads[0].hours_available == 1
