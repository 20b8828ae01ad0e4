"""What stands above and below the week's lines: quiet weeks, one helper's week, the way round."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from msgspec.structs import replace
from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn.base.date_range import Likely
from leafturn.garden.model import Garden, Helper, Place, Point
from leafturn.tasks.model import DUE, Job, Reasons
from leafturn.tasks.week.plan import week_round

ON = dt.date(2027, 4, 19)
ANN = Helper(name="Ann", hours_per_week=5, can=("ladder", "light"), keeper=True)
JOANN = Helper(name="Jo Ann", hours_per_week=3, can=("lift", "light"))
GARDEN = Garden(place=Place(lat=-43.4, lon=170.0), helpers=(ANN, JOANN))


def day(later: int) -> Likely:
    date = ON + dt.timedelta(days=later)
    return Likely(date, date, date)


def job(name: str, *, demands: tuple[str, ...] = ("ladder",), best: int = 2, **more: object) -> Job:
    made = Job(
        id=f"{name}:do:2027", plant=name, verb=f"do {name}", title=f"do {name}", state="due",
        open=day(-3), best=day(best), close=day(60), minutes=60, where="", point=Point(3, 4),
        telling=lambda: Reasons(why=("Because.",)), basis="guess", demands=demands,
    )  # fmt: skip
    return replace(made, **more)  # type: ignore[arg-type]


def test_no_nothing_is_due_above_jobs_that_are_due() -> None:
    ahead = job("later", state="not yet", open=day(12))
    week = week_round(GARDEN, [job("now", best=50), job("too", best=50), ahead], ON)
    assert len(week.waiting) == 2
    assert "Nothing is due" not in week.quiet
    assert week.quiet.startswith("Nothing presses this week; 2 jobs may be done now and can wait.")
    assert week_round(GARDEN, [ahead], ON).quiet.startswith("Nothing is due before 1 May: then do later.")
    assert week_round(GARDEN, [job("now")], ON).quiet == ""


def test_pressing_jobs_beyond_anyone_here_are_not_called_nothing() -> None:
    week = week_round(GARDEN, [job("fell", demands=("licensed",))], ON)
    assert week.quiet == ""
    assert week.notice


def test_one_helpers_week_has_their_jobs_hours_and_way() -> None:
    jobs = [
        job("high", point=Point(0, 10)),
        job("heavy", demands=("lift",), point=Point(0, 100)),
    ]
    whole, anns = week_round(GARDEN, jobs, ON), week_round(GARDEN, jobs, ON, "Ann")
    assert whole.hours_available == 8
    assert whole.walk.metres == 100
    assert [j.who for j in anns.jobs] == ["Ann"]
    assert (anns.hours_needed, anns.hours_available) == (1.0, 5.0)
    assert [load.name for load in anns.helpers] == ["Ann"]
    assert anns.walk.metres == 10
    assert anns.walk.stops == ("gate", "high")
    idle = week_round(GARDEN, jobs[:1], ON, "Jo Ann")
    assert idle.jobs == ()
    assert idle.quiet == "Nothing falls to Jo Ann now."


def test_a_stop_passed_twice_is_named_once() -> None:
    jobs = [
        job("a", guild="plum", point=Point(0, 10)),
        job("b", guild="pear", point=Point(0, 20)),
        job("c", guild="plum", point=Point(0, 30)),
    ]
    assert week_round(GARDEN, jobs, ON).walk.stops == ("gate", "plum guild", "pear guild")


def test_what_tonight_would_take_stands_before_the_walk() -> None:
    """Dearest first; all else in walking order. What is late has no night to wait for."""
    near = job("near", harm=1.0, point=Point(0, 5))
    far = job("cover far", close=day(0), best=0, harm=2.0, cost_of_delay=4.0, point=Point(0, 90))
    look = job("look", close=day(0), best=0, harm=0.4, cost_of_delay=9.0, point=Point(0, 60))
    week = week_round(GARDEN, [near, far, look], ON)
    assert [j.plant for j in week.jobs] == ["cover far", "near", "look"]
    assert week.lines[0].title == "do cover far"


def test_a_job_in_several_guilds_is_no_stop_at_the_guild_of_its_first_plant(tmp_path: Path) -> None:
    """Dried fruit is taken out of a2, p1 and p2 of which a2 alone stands in the guild."""
    orchard = garden_text(
        plant("a1", "apple", year=2012, guild="Back-Lane", at=[10, 10]),
        plant("a2", "apple", cultivar="Boskoop", year=2012, guild="Back-Lane", at=[20, 10]),
        plant("p1", "pear", year=2012, at=[40, 10]),
        plant("p2", "pear", year=2012, at=[60, 10]),
    )
    week = almanac_of(tmp_path, orchard, dt.date(2027, 2, 10)).round()
    mixed = next(job for job in week.jobs if job.plants == ("a2", "p1", "p2"))
    assert mixed.state in DUE
    assert mixed.name in week.walk.stops
