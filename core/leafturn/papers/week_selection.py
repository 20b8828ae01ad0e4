"""Which jobs stand on a week sheet, for whom, and in which order."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence

import msgspec
from msgspec.structs import replace

from leafturn.base.value import Value
from leafturn.garden.model import STEWARD, Helper
from leafturn.tasks.model import DUE, Job
from leafturn.tasks.week.labour import allot, helpers_for
from leafturn.tasks.week.model import Round
from leafturn.tasks.week.plan import in_order

MOST_LINES = 40  # more would not fit the page even at the least a line takes


class Share(Value):
    """The jobs of one person, or of two together, in walking order."""

    who: tuple[str, ...]
    jobs: tuple[Job, ...]

    @property
    def minutes(self) -> float:
        """Minutes they take together."""
        return sum(job.minutes for job in self.jobs)


class Week(Value):
    """The jobs of a week sheet.

    Parameters
    ----------
    on, last : date
        The first and the last of its seven days.
    shares : tuple of Share
        Jobs for hands, those of the first helper first.
    left : tuple of Job
        Jobs that could be done this week but have no room on the sheet or in the hours, soonest end first.
    coming : tuple of Job
        Jobs that begin after the week.
    held, passed : tuple of Job
        Jobs that must wait, and jobs whose window is closed.
    beyond : tuple of Job
        Jobs that nobody here can do.
    pressing : frozenset of str
        Ids of the jobs that the round itself asks for this week.
    """

    on: dt.date
    last: dt.date
    shares: tuple[Share, ...]
    left: tuple[Job, ...] = ()
    coming: tuple[Job, ...] = ()
    held: tuple[Job, ...] = ()
    passed: tuple[Job, ...] = ()
    beyond: tuple[Job, ...] = ()
    pressing: frozenset[str] = frozenset()

    @property
    def jobs(self) -> tuple[Job, ...]:
        """The jobs of all shares: the numbered lines from 1."""
        return tuple(job for share in self.shares for job in share.jobs)

    def shorter(self) -> Week:
        """The same week with one line fewer: that of the job least dear to delay, which is left for later."""
        job = _dearest(self.jobs, self.pressing)[-1]
        shares = (Share(who=s.who, jobs=tuple(j for j in s.jobs if j.id != job.id)) for s in self.shares)
        return replace(self, shares=tuple(s for s in shares if s.jobs), left=by_end([*self.left, job]))


def week_of(round_now: Round, helpers: Sequence[Helper], on: dt.date) -> Week:
    """The jobs of the seven days from a day, dealt out for the whole of them.

    Jobs of the round keep whom they fall to there. Those that open within the days, or could be done but do
    not press, follow into the hours that are left.

    Parameters
    ----------
    round_now : Round
        Of that day.
    helpers : sequence of Helper
        Empty means the steward alone.
    on : date
    """
    helpers_here = helpers or (STEWARD,)
    last = on + dt.timedelta(days=6)
    soon = [j for j in round_now.jobs if j.state == "soon"]
    this_week = [j for j in soon if j.open.likely is not None and j.open.likely <= last]
    taken = [j for j in round_now.jobs if j.state in DUE]
    unable = [j for j in round_now.waiting if not helpers_for(j, helpers_here, on)]
    ahead = [j for j in (*this_week, *round_now.waiting) if j not in unable]
    dealt = allot([replace(j, helpers=()) for j in ahead], _with_hours_left(helpers_here, taken), on)
    pressing = frozenset(j.id for j in taken)
    lines = _dearest([*taken, *dealt.taken], pressing)[:MOST_LINES]
    over = [j for j in (*taken, *dealt.taken) if j not in lines]
    beyond = [j for j in dealt.waiting if not helpers_for(j, helpers_here, on)]
    return Week(
        on=on,
        last=last,
        shares=tuple(_shares(lines, helpers_here, on)),
        left=by_end([*over, *(j for j in dealt.waiting if j not in beyond)]),
        coming=tuple(j for j in soon if j not in this_week),
        held=tuple(j for j in round_now.jobs if j.state == "held"),
        passed=tuple(j for j in round_now.jobs if j.state == "passed"),
        beyond=(*unable, *beyond),
        pressing=pressing,
    )


def by_best_day(jobs: Iterable[Job]) -> tuple[Job, ...]:
    """Jobs by the day they are best done by."""
    return tuple(sorted(jobs, key=lambda j: (j.best.likely or dt.date.max, j.order)))


def by_end(jobs: Iterable[Job]) -> tuple[Job, ...]:
    """Jobs by the day they can wait until."""
    return tuple(sorted(jobs, key=lambda j: (j.close.likely or dt.date.max, j.order)))


def _dearest(jobs: Sequence[Job], pressing: frozenset[str]) -> list[Job]:
    """Jobs the dearest to delay first; those that press before all others."""
    return sorted(jobs, key=lambda j: (j.id not in pressing, -j.cost_of_delay, j.order))


def _with_hours_left(helpers: Sequence[Helper], taken: Iterable[Job]) -> list[Helper]:
    """Helpers with the hours that the jobs already given to them leave."""
    used: dict[str, float] = {}
    for job in taken:
        for name in job.helpers:
            used[name] = used.get(name, 0.0) + job.minutes / 60
    return [
        msgspec.structs.replace(h, hours_per_week=max(h.hours_per_week - used.get(h.name, 0.0), 0.0))
        for h in helpers
    ]


def _shares(jobs: Iterable[Job], helpers: Sequence[Helper], on: dt.date) -> Iterable[Share]:
    by_team: dict[tuple[str, ...], list[Job]] = {}
    for job in jobs:
        by_team.setdefault(job.helpers, []).append(job)
    place = {h.name: n for n, h in enumerate(helpers)}
    for team in sorted(by_team, key=lambda t: (len(t), [place.get(name, 999) for name in t])):
        yield Share(who=team, jobs=in_order(by_team[team], on))
