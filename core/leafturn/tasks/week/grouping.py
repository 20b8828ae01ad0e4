"""The round in few lines: like jobs told as one, looks as one, and what can wait as one."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable, Sequence

from leafturn.base import day_words, prose
from leafturn.tasks.model import DUE, SETTLED, Job
from leafturn.tasks.week.model import Line

SOON_LINES = 3  # so many kinds of job stand by themselves before their time, the others in one line


def alike_together(jobs: Iterable[Job]) -> list[tuple[Job, ...]]:
    """Like jobs together, in the order in which the first of each kind stands.

    Looks are of one kind: they are done on the way round. Other jobs are alike if their work is. What is late
    stands apart from what is not.
    """
    return _grouped(jobs, lambda job: ("look" if job.look else job.work, job.state == "late"))


def lines_by(jobs: Iterable[Job], key: Callable[[Job], object]) -> list[Line]:
    """A line for all jobs of which the key is the same, in the order in which the first of each stands."""
    return list(map(_line, _grouped(jobs, key)))


def within_lines(jobs: Iterable[Job], most: int, must: Callable[[Job], bool]) -> tuple[list[Job], list[Job]]:
    """Jobs that make so many lines at most, dearest to delay first, and those left over.

    Parameters
    ----------
    jobs : iterable of Job
    most : int
        How many lines there may be.
    must : callable
        Whether a job cannot be left over.
    """
    groups = sorted(alike_together(jobs), key=lambda group: -max(job.cost_of_delay for job in group))
    kept: list[Job] = []
    left: list[Job] = []
    for n, group in enumerate(groups):
        for job in group:
            (kept if n < most or must(job) else left).append(job)
    return kept, left


def lines_of(jobs: Sequence[Job], waiting: Sequence[Job], most: int) -> tuple[Line, ...]:
    """The lines of a round.

    Parameters
    ----------
    jobs : sequence of Job
        What the round shows, open jobs in walking order first.
    waiting : sequence of Job
        What can wait, the most urgent first.
    most : int
        So many lines of open jobs there may be; those least dear to delay share the last of them.

    Returns
    -------
    tuple of Line
        Open jobs folded; what comes soon, the kinds that come first by themselves where lines are free;
        what is held, what is passed and what can wait in one line each; then what is done or let go, each by
        itself so that it can be taken back.
    """
    now = _at_most(alike_together(j for j in jobs if j.state in DUE), most)
    soon = sorted(alike_together(j for j in jobs if j.state == "soon"), key=_first_open)
    named = min(SOON_LINES, most - len(now))
    lines = [_line(group) for group in (*now, *soon[:named])]
    rest = tuple(job for group in soon[named:] for job in group)
    for group in (rest, *(tuple(j for j in jobs if j.state == word) for word in ("held", "passed"))):
        if group:
            lines.append(_line(group))
    if waiting:
        lines.append(_waiting(waiting))
    return (*lines, *(_line((job,)) for job in jobs if job.state in SETTLED))


def _at_most(groups: list[tuple[Job, ...]], most: int) -> list[tuple[Job, ...]]:
    """Groups in their order; where there are more than so many, the least dear to delay as one at the end."""
    if len(groups) <= most:
        return groups
    kept = sorted(groups, key=lambda group: -max(job.cost_of_delay for job in group))[: most - 1]
    rest = tuple(job for group in groups if group not in kept for job in group)
    return [*(group for group in groups if group in kept), rest]


def _grouped(jobs: Iterable[Job], key: Callable[[Job], object]) -> list[tuple[Job, ...]]:
    groups: dict[object, list[Job]] = {}
    for job in jobs:
        groups.setdefault(key(job), []).append(job)
    return [tuple(group) for group in groups.values()]


def _first_open(group: Sequence[Job]) -> dt.date:
    return min(job.open.likely or dt.date.max for job in group)


def _line(jobs: Sequence[Job]) -> Line:
    """One line for jobs in one state; of due and late ones the latest gives the word."""
    dearest = max(jobs, key=lambda job: job.cost_of_delay)
    latest = max(jobs, key=lambda job: job.days_late)
    return Line(
        title=_title(jobs),
        state=latest.state,
        days_late=latest.days_late,
        jobs=tuple(jobs),
        dearest=dearest,
        minutes=sum(job.minutes for job in jobs),
        where=_where(jobs),
        who=_only({job.who for job in jobs}, "several"),
    )


def _waiting(jobs: Sequence[Job]) -> Line:
    return Line(
        title=prose.count(len(jobs), "more job"),
        state="can wait",
        days_late=0,
        jobs=tuple(jobs),
        dearest=jobs[0],
        minutes=sum(job.minutes for job in jobs),
        where="",
        who=None,
    )


def _title(jobs: Sequence[Job]) -> str:
    """What to do, of one job or several: "tie in rambler and 5 more", "look for: slugs, sawfly"."""
    if len(jobs) == 1:
        return jobs[0].title
    verbs = list(dict.fromkeys(job.work for job in jobs))
    if len(verbs) > 1 and all(job.look for job in jobs):
        return f"look for: {', '.join(dict.fromkeys(job.look for job in jobs))}"
    if len(verbs) > 1 and all(job.state == "soon" for job in jobs):
        return ", ".join(_coming(verb, [job for job in jobs if job.work == verb]) for verb in verbs)
    if len(verbs) > 1:
        return f"{len(jobs)} jobs: {', '.join(verbs)}"
    if not _titled_alike(jobs):
        return f"{verbs[0]}: {_names(jobs)}"
    return jobs[0].title.replace(jobs[0].name, _names(jobs), 1)


def _coming(verb: str, jobs: Sequence[Job]) -> str:
    """A kind of job with the first day of it, "tie in from 23 Apr"."""
    first = _first_open(jobs)
    return verb if first == dt.date.max else f"{verb} from {day_words.day(first)}"


def _names(jobs: Sequence[Job]) -> str:
    """What several jobs are done to: "rose, hop", "rose and 2 more", "7 pear trees"."""
    names = list(dict.fromkeys(name for job in jobs for name in job.plants or (job.plant,)))
    kinds = {member.several for job in jobs for member in job.members}
    if len(names) > 3 and len(kinds) == 1:
        return f"{len(names)} {kinds.pop()}"
    return ", ".join(names) if len(names) == 2 else f"{names[0]} and {len(names) - 1} more"


def _titled_alike(jobs: Sequence[Job]) -> bool:
    """Whether all titles say the same of their plants."""
    return all(j.name in j.title for j in jobs) and len({j.title.replace(j.name, "", 1) for j in jobs}) == 1


def _where(jobs: Sequence[Job]) -> str:
    if len(jobs) == 1:
        return jobs[0].where
    places = {job.where for job in jobs}
    if len(places) == 1:
        return places.pop()
    areas = {job.area for job in jobs}
    if len(areas) > 1:
        return f"{len(areas)} places"
    area = areas.pop()
    return f"round the {area}" if jobs[0].guild else jobs[0].where


def _only(names: set[str | None], several: str) -> str | None:
    return names.pop() if len(names) == 1 else several
