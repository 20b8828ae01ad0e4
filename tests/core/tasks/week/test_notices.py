"""What does not fit the hands of a week is said: who is waited for, and what no week of theirs holds."""

from __future__ import annotations

import datetime as dt

from msgspec.structs import replace
from tests.samples.jobs import job

from leafturn.garden.model import Garden, Helper, Place
from leafturn.tasks.model import Job
from leafturn.tasks.week.plan import week_round

MONDAY = dt.date(2027, 4, 19)
STRONG = Helper(name="steward", can=("anything",), hours_per_week=2)
LIGHT = Helper(name="Ben", can=("light",), hours_per_week=5)
GARDEN = Garden(place=Place(lat=47.0, lon=15.9), helpers=(STRONG, LIGHT))


def heavy(number: int, minutes: float) -> Job:
    return replace(job(f"job-{number}", minutes=minutes), demands=("lift",), cost_of_delay=1.0 / number)


def notice(*jobs: Job) -> tuple[str, ...]:
    return week_round(GARDEN, jobs, MONDAY).notice


def test_what_waits_for_the_hours_of_one_names_them_and_what_of_these_is_given() -> None:
    assert notice(heavy(1, 90)) == ()
    assert notice(heavy(1, 90), heavy(2, 60)) == (
        "1 job waits for hands: only steward can do it, 1 h 30 of 2 h given; the list says until when.",
    )
    said = "2 jobs wait for hands: only steward can do them, 2 h of 2 h given"
    until = "the list says until when each can wait."
    assert notice(heavy(1, 120), heavy(2, 60), heavy(3, 60)) == (f"{said}; {until}",)


def test_what_no_week_of_those_who_can_do_it_holds_is_to_be_done_bit_by_bit() -> None:
    (alone,) = notice(heavy(1, 200))
    assert alone.endswith("takes 3 h 20, longer than a week of steward: do it bit by bit.")
    (both,) = notice(heavy(1, 200), heavy(2, 300))
    assert "each take longer than a week of whoever can do them: do them bit by bit." in both
