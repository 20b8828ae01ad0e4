"""Who can do what, and how much fits into the week."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace

from leafturn.base.day_words import WEEKDAYS
from leafturn.garden.model import Helper
from leafturn.tasks.model import HelperLoad, Job

EVERYBODY = Helper(name="steward", hours_per_week=6.0)
NEVER_ALONE = "two people"
LICENSED = "licensed"


_DAYS = tuple(name.lower() for name in WEEKDAYS)


def next_day(helper: Helper, on: dt.date) -> dt.date:
    """The next day, from `on`, on which a helper comes; helpers without days come on any."""
    days = {_DAYS.index(d[:3].lower()) for d in helper.days if d[:3].lower() in _DAYS}
    return next((d for d in (on + dt.timedelta(days=i) for i in range(7)) if d.weekday() in days), on)


def able(helper: Helper, job: Job, on: dt.date) -> bool:
    """Whether a helper can do a job: its demands, their days, and whether it lies within their reach."""
    if job.close.likely is not None and on <= job.close.likely < next_day(helper, on):
        return False
    skills = {"light", *helper.can}
    for demand in job.demands:
        if demand == NEVER_ALONE:
            if helper.people < 2:
                return False
        elif demand not in skills and not ("anything" in skills and demand != LICENSED):
            return False
    if helper.reach_m is None or helper.reach_point is None:
        return True
    return job.point is not None and helper.reach_point.metres_to(job.point) <= helper.reach_m


@dataclass
class _Hands:
    helper: Helper
    spent: float = 0.0
    minutes: float = 0.0
    jobs: list[str] = field(default_factory=list)

    @property
    def left(self) -> float:
        """Minutes of the week that are left after what is done."""
        return max(self.helper.hours_per_week * 60 - self.spent, 0.0)

    def fits(self, job: Job) -> bool:
        return self.minutes + job.minutes <= self.left + 1e-9


@dataclass(frozen=True)
class Allotment:
    """Jobs with their helper, jobs that are due but beyond the hours, and each helper's load."""

    taken: tuple[Job, ...]
    waiting: tuple[Job, ...]
    loads: tuple[HelperLoad, ...]
    beyond: tuple[str, ...]


def allot(jobs: Iterable[Job], helpers: Sequence[Helper], on: dt.date, done: Iterable[Job] = ()) -> Allotment:
    """Give each job, dearest to delay first, to the least burdened hands that can do it.

    A job for two people falls to a helper who comes as two or more, or to two able helpers together.
    Work that wants a licence falls to nobody unless a helper holds one. A job given to a helper by name falls
    to that helper before all others, as far as their hours go, also if it is beyond their usual reach.

    Parameters
    ----------
    jobs : iterable of Job
        Those due this week.
    helpers : sequence of Helper
        Empty means the steward alone.
    on : date
        The day of asking; helpers with days of their own come next on one of those.
    done : iterable of Job
        Those done this week: their minutes are no longer at hand.
    """
    hands = [_Hands(h) for h in helpers or (EVERYBODY,)]
    for job in done:
        _spend(job, hands, on)
    taken: list[Job] = []
    waiting: list[Job] = []
    beyond: list[str] = []
    for job in sorted(jobs, key=lambda j: (not j.given_to, -j.cost_of_delay, j.id)):
        teams = _given_teams(job, hands, on) or _teams(job, hands, on)
        if not teams:
            beyond.append(job.title)
            waiting.append(job)
            continue
        free = [team for team in teams if all(h.fits(job) for h in team)]
        if not free:
            waiting.append(job)
            continue
        team = min(free, key=lambda t: (len(t), max(len(h.helper.can) for h in t), sum(h.minutes for h in t)))
        for h in team:
            h.minutes += job.minutes
            h.jobs.append(job.id)
        taken.append(replace(job, helpers=tuple(h.helper.name for h in team)))
    loads = tuple(
        HelperLoad(name=h.helper.name, minutes=h.minutes, hours_at_hand=h.left / 60, jobs=tuple(h.jobs))
        for h in hands
    )
    return Allotment(tuple(taken), tuple(waiting), loads, tuple(beyond))


def _spend(job: Job, hands: Sequence[_Hands], on: dt.date) -> None:
    """Take the minutes of a job that is done from the helper named in its note, else from the likeliest."""
    named = [h for h in hands if h.helper.name == job.closed_by]
    likely = () if named else likely_hands(job, [h.helper for h in hands], on)
    for h in named or [h for h in hands if h.helper.name in likely]:
        h.spent += job.minutes


def likely_hands(job: Job, helpers: Sequence[Helper], on: dt.date) -> tuple[str, ...]:
    """Who would do a job that is not due yet: the least able hands that can; empty if nobody can."""
    hands = [_Hands(h) for h in helpers or (EVERYBODY,)]
    teams = _given_teams(job, hands, on) or _teams(job, hands, on)
    team = min(teams, key=lambda t: (len(t), max(len(h.helper.can) for h in t)), default=None)
    return tuple(h.helper.name for h in team or ())


def hands_of(job: Job, helpers: Sequence[Helper], on: dt.date) -> tuple[str, ...]:
    """Names of those a job falls to, or likely would; empty if nobody here can do it."""
    return job.helpers or likely_hands(job, helpers, on)


def _given_teams(job: Job, hands: list[_Hands], on: dt.date) -> list[tuple[_Hands, ...]]:
    """The helper a job was given to by name, with another where nobody may do it alone; none if not given."""
    named = [h for h in hands if h.helper.name == job.given_to]
    if not named:
        return []
    with_them = [team for team in _teams(job, hands, on) if named[0] in team]
    return with_them or ([] if {NEVER_ALONE, LICENSED} & set(job.demands) else [(named[0],)])


def _teams(job: Job, hands: list[_Hands], on: dt.date) -> list[tuple[_Hands, ...]]:
    alone = [(h,) for h in hands if able(h.helper, job, on)]
    if alone or NEVER_ALONE not in job.demands:
        return list(alone)
    rest = replace(job, demands=tuple(d for d in job.demands if d != NEVER_ALONE))
    second = replace(job, demands=())
    return [
        (lead, other)
        for lead in hands
        for other in hands
        if lead is not other
        and able(lead.helper, rest, on)
        and able(other.helper, second, on)
        and "seated" not in other.helper.can
    ]
