"""The round in few lines: like jobs as one, looks as one, what can wait as one."""

from __future__ import annotations

import datetime as dt

from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from tests.samples.jobs import job

from leafturn.base.date_range import Likely
from leafturn.tasks.model import Job
from leafturn.tasks.week.grouping import lines_of, within_lines


def named(name: str, verb: str = "tie in", **more: object) -> Job:
    title = f"{verb} {name}"
    made = replace(job(title), id=f"{name}:{verb}:2027", verb=verb, plant=name, plants=(name,), name=name)
    return replace(made, **more)  # type: ignore[arg-type]


def test_like_jobs_are_one_line() -> None:
    (line,) = lines_of([named("rose"), named("hop"), named("kiwi")], [], 8)
    assert line.title == "tie in rose and 2 more"
    assert [j.plant for j in line.jobs] == ["rose", "hop", "kiwi"]
    assert line.minutes == 90
    (two,) = lines_of([named("rose"), named("hop")], [], 8)
    assert two.title == "tie in rose, hop"
    (one,) = lines_of([named("rose")], [], 8)
    assert one.title == "tie in rose"


def test_one_kind_of_work_titled_in_several_ways_names_its_plants() -> None:
    """ "2 jobs: pick" tells nobody what to pick."""
    young = named("ostrich-fern", "pick", title="pick fiddleheads of ostrich-fern")
    (line,) = lines_of([young, named("ramsons", "pick")], [], 8)
    assert line.title == "pick: ostrich-fern, ramsons"


def test_the_latest_of_several_gives_the_word_and_the_dearest_the_reason() -> None:
    late = named("hop", state="late", days_late=9, cost_of_delay=0.1)
    dear = named("rose", state="late", days_late=2, cost_of_delay=3.0)
    (line,) = lines_of([dear, late], [], 8)
    assert (line.state, line.days_late, line.dearest.plant) == ("late", 9, "rose")


def test_what_is_late_stands_apart_from_what_is_not() -> None:
    due, late = lines_of([named("rose"), named("hop", state="late", days_late=9), named("kiwi")], [], 8)
    assert (due.state, due.title, late.title) == ("due", "tie in rose, kiwi", "tie in hop")


def test_looks_are_told_together_by_what_there_is_to_see() -> None:
    looks = [named("rhubarb", "look for slugs", look="slugs"), named("currant", "scout", look="sawfly")]
    (line,) = lines_of(looks, [], 8)
    assert line.title == "look for: slugs, sawfly"


def test_what_can_wait_is_one_line_and_what_is_done_stays_by_itself() -> None:
    lines = lines_of([named("rose", state="done"), named("hop", state="done")], [named("a"), named("b")], 8)
    assert [line.state for line in lines] == ["can wait", "done", "done"]
    assert lines[0].title == "2 more jobs"


def test_open_jobs_stand_in_the_order_given() -> None:
    lines = lines_of([named("hop"), named("plum", "prune"), named("rose")], [], 8)
    assert [line.jobs[0].plant for line in lines] == ["hop", "plum"]


@given(
    st.lists(
        st.tuples(
            st.sampled_from(["prune", "mulch", "pick", "tie in", "look"]),
            st.sampled_from(["due", "late", "soon", "held", "passed", "done", "let go"]),
            st.floats(0, 5),
        ),
        max_size=25,
    ),
    st.integers(0, 5),
)
@settings(max_examples=60, deadline=None)
def test_no_job_is_lost_in_folding(drawn: list[tuple[str, str, float]], most: int) -> None:
    jobs = [
        named(f"p{n}", verb, state=state, cost_of_delay=cost, look="slugs" if verb == "look" else "")
        for n, (verb, state, cost) in enumerate(drawn)
    ]
    lines = lines_of(jobs, [], 8)
    assert sorted(j.id for line in lines for j in line.jobs) == sorted(j.id for j in jobs)
    kept, left = within_lines(jobs, most, lambda j: j.state == "late")
    assert sorted(j.id for j in (*kept, *left)) == sorted(j.id for j in jobs)
    assert all(j.state != "late" for j in left)
    assert len({j.look or j.verb for j in kept if j.state != "late"}) <= most


def test_a_window_that_closes_soon_outranks_a_late_job_without_end() -> None:
    """Common practice, no source: what cannot wait is done first."""
    closing = named("plum", "prune", cost_of_delay=(1 + 0.1) / 2)
    open_ended = named("bed", "mulch", state="late", days_late=20, cost_of_delay=(1 + 0.1) / 30)
    kept, left = within_lines([open_ended, closing], 1, lambda j: False)
    assert [j.plant for j in kept] == ["plum"]
    assert [j.plant for j in left] == ["bed"]
    assert kept[0].close.likely == dt.date(2027, 4, 19)


def test_a_page_has_so_many_lines_and_the_least_dear_share_the_last() -> None:
    """Eight lines of open jobs, and one each for what comes, is held, is passed and can wait;
    where lines are free, what comes first by its kinds."""
    due = [named(f"p{n}", f"verb {n}", cost_of_delay=n / 10) for n in range(11)]
    beside = [
        named(f"{state}{n}", f"{state} verb {n}", state=state)
        for state in ("soon", "held", "passed")
        for n in range(4)
    ]
    lines = lines_of([*due, *beside], [named("w")], 8)
    assert len(lines) == 12
    assert [line.jobs[0].plant for line in lines[:7]] == [f"p{n}" for n in range(4, 11)]
    assert {job.plant for job in lines[7].jobs} == {"p0", "p1", "p2", "p3"}
    few = lines_of([*due[:3], *beside], [], 8)
    assert [line.state for line in few] == ["due"] * 3 + ["soon"] * 4 + ["held", "passed"]


def test_what_is_coming_is_told_by_kind_and_by_day() -> None:
    """A line of several kinds of job says from when each can be done: nobody acts on a list of verbs."""
    coming = []
    for name, verb, number in (
        ("kiwi", "tie in", 24), ("oak", "mulch", 20), ("lime", "mulch", 21), ("plum", "net", 22),
        ("fern", "pick", 23), ("hop", "cut", 26), ("rose", "tie in", 25),
    ):  # fmt: skip
        day = dt.date(2027, 4, number)
        coming.append(named(name, verb, state="soon", open=Likely(day, day, day)))
    assert [line.title for line in lines_of(coming, [], 8)] == [
        "mulch oak, lime",
        "net plum",
        "pick fern",
        "tie in from 24 Apr, cut from 26 Apr",
    ]
