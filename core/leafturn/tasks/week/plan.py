"""This week's round: what is due, who does it, in which order."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence

from msgspec.structs import replace

from leafturn.base import day_words, prose
from leafturn.base.tunables import Numbers
from leafturn.garden.model import Garden
from leafturn.tasks.model import A_CROP, DUE, SETTLED, Job
from leafturn.tasks.week.grouping import lines_of, within_lines
from leafturn.tasks.week.labour import A_WEEK, allot, likely_helpers
from leafturn.tasks.week.model import Round, Stop, Walk
from leafturn.tasks.week.notices import notices
from leafturn.tasks.week.route import GATE, length, short_way

_ORDER = {"late": 0, "due": 0, "soon": 1, "held": 2, "passed": 3, "let go": 4, "done": 5}


def week_round(garden: Garden, jobs: Iterable[Job], on: dt.date, helper: str | None = None) -> Round:
    """The week's round.

    Parameters
    ----------
    jobs : iterable of Job
        All jobs of the season, whatever their state.
    on : date
        The day of asking; its week runs from Monday.
    helper : str or None
        Show only what falls to this helper, with their hours and their way.
    """
    numbers = Numbers(garden.rules)
    all_jobs = list(jobs)
    open_jobs = [j for j in all_jobs if j.state in DUE]
    pressing = [j for j in open_jobs if _presses(j, on, numbers)]
    most = round(numbers["round_lines"])
    chosen, left = within_lines(pressing, most, lambda job: _closes_this_week(job, on))
    done = [j for j in all_jobs if j.state == "done" and _closed_this_week(j, on)]
    allotment = allot(chosen, garden.all_helpers, on, done)
    taken = list(in_order(allotment.taken, on))
    ahead = (j for j in all_jobs if j.state in ("soon", "held"))
    beside = [replace(j, helpers=likely_helpers(j, garden.all_helpers, on)) for j in ahead]
    beside += [j for j in all_jobs if _still_told(j, on, numbers)]
    beside.sort(key=lambda j: (_ORDER[j.state], j.open.likely or dt.date.max, j.order))
    shown = [*taken, *beside]
    waiting = [*allotment.waiting, *left, *(j for j in open_jobs if not _presses(j, on, numbers))]
    loads, notice = allotment.loads, notices(allotment)
    quiet = "" if pressing else _quiet(garden, all_jobs, waiting, len(done), on)
    if helper is not None:
        taken, shown = ([j for j in jobs if _falls_to(helper, j, garden, on)] for jobs in (taken, shown))
        loads = tuple(load for load in loads if load.name == helper)
        waiting, notice = [], ()
        quiet = "" if taken else f"Nothing falls to {helper} now."
    waiting.sort(key=lambda j: (j.loses_nothing, j.wait_until or dt.date.max, j.order))
    return Round(
        jobs=tuple(shown),
        waiting=tuple(waiting),
        hours_needed=sum(j.minutes for j in taken) / 60,
        hours_available=sum(h.hours_available for h in loads),
        helpers=loads,
        walk=_walk(taken),
        beyond_reach=allotment.beyond,
        quiet=quiet,
        notice=notice,
        lines=lines_of(shown, waiting, most),
    )


def _falls_to(helper: str, job: Job, garden: Garden, on: dt.date) -> bool:
    """Whether it is this helper's; what is over is whose note it is, or of whom would have done it."""
    if job.state not in SETTLED:
        return helper in job.helpers
    return helper in ((job.closed_by,) if job.closed_by else likely_helpers(job, garden.all_helpers, on))


def _presses(job: Job, on: dt.date, numbers: Numbers) -> bool:
    """Whether a job that may be done now is truly due: late, or best done within days."""
    best = job.best.likely
    return job.state == "late" or best is None or (best - on).days <= numbers["pressing_days"]


def _closes_this_week(job: Job, on: dt.date) -> bool:
    return job.close.likely is not None and (job.close.likely - on).days < A_WEEK


def _closed_this_week(job: Job, on: dt.date) -> bool:
    return job.closed_on is not None and job.closed_on.isocalendar()[:2] == on.isocalendar()[:2]


def _still_told(job: Job, on: dt.date, numbers: Numbers) -> bool:
    """Whether a job that is over is told yet."""
    match job.state:
        case "passed":
            closed = job.close.likely
            days = numbers["passed_shown_days"] if job.harms_late else A_WEEK
            return job.harm >= 1 and closed is not None and (on - closed).days <= days
        case "done" | "let go":
            return _closed_this_week(job, on)
        case _:
            return False


def in_order(jobs: Iterable[Job], on: dt.date) -> tuple[Job, ...]:
    """What costs a crop unless it is done this day, the dearest first; then as the way round comes by; last
    what loses nothing if it is left."""
    found = list(jobs)
    first = [job for job in found if job.harm >= A_CROP and job.is_on_its_last_day(on)]
    first.sort(key=lambda job: (-job.cost_of_delay, job.order))
    last = [job for job in found if job.loses_nothing]
    between = [job for job in found if job not in first and job not in last]
    return (*first, *_in_walking_order(between), *_in_walking_order(last))


def _in_walking_order(jobs: Sequence[Job]) -> list[Job]:
    placed = [(j, j.point) for j in jobs if j.point is not None]
    order = short_way([point for _, point in placed])
    return [placed[i][0] for i in order] + [j for j in jobs if j.point is None]


def _walk(jobs: Sequence[Job]) -> Walk:
    group_of = {plant: j.area for j in jobs if len(j.plants) > 1 for plant in j.plants}
    stops = [Stop(name=group_of.get(j.plant, j.area), point=j.point) for j in jobs if j.point is not None]
    way = (Stop(name="gate", point=GATE), *stops)
    names = tuple(dict.fromkeys(stop.name for stop in way))
    return Walk(stops=names, metres=length([stop.point for stop in stops]), way=way)


def _quiet(garden: Garden, jobs: Sequence[Job], waiting: Sequence[Job], done: int, on: dt.date) -> str:
    """For weeks in which nothing presses: what is done, what may be done, the next job with its date, and
    one thing worth noting now."""
    ahead = [
        (j.open.likely, j)
        for j in jobs
        if j.state in ("soon", "not yet", "held") and j.open.likely and j.open.likely > on
    ]
    worth = _worth_noting(garden, [job for _, job in ahead], on)
    first = min(((job.loses_nothing, date, job.order, job) for date, job in ahead), default=None)
    nothing = "Nothing more" if done else "Nothing"
    then = (
        f"{day_words.near_day(first[1], on)}: {'' if waiting else 'then '}{first[3].title}." if first else ""
    )
    if waiting:
        more = prose.count(len(waiting), "job")
        said = f"{nothing} presses this week; {more} may be done now and can wait."
        said += f" Next, from {then}" if first else ""
    else:
        said = f"{nothing} is due before {then}" if first else f"{nothing} is due now."
    if done:
        said = f"{prose.count(done, 'job')} of this week {'is' if done == 1 else 'are'} done. {said}"
    return f"{said} {worth}"


def _worth_noting(garden: Garden, ahead: Sequence[Job], on: dt.date) -> str:
    """What a note would make surer: how warm a heap is, else what there is to see next, else the cold."""
    heap = next((h for h in garden.heaps if h.stage == "working"), None)
    if heap is not None:
        return f"Worth a note now: how warm {heap.name or heap.id} is inside."
    looks = [(job.open.likely, job.order, job) for job in ahead if job.look and job.open.likely]
    if looks:
        date, _, job = min(looks)
        return f"Worth a note when it comes: {job.look}, {job.name}, from {day_words.near_day(date, on)}."
    return "Worth a note now: how cold the night was."
