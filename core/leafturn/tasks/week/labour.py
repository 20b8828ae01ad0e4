"""Who can do what, and how much fits into the week."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence

import msgspec
from msgspec.structs import replace

from leafturn.base.day_words import WEEKDAYS
from leafturn.base.value import Value
from leafturn.garden.model import STEWARD, Helper, Point
from leafturn.tasks.demands import IN_PAIRS, LICENSED, NEVER_ALONE, SLOPE, STANDING
from leafturn.tasks.model import Hold, Job
from leafturn.tasks.week.model import HelperLoad

SECOND = "a second person"
TREE_WORKER = "a qualified tree worker"
ASK_FOR = {
    SECOND: "Nobody does this alone. Who would come along is written as [[helper]] in the garden file.",
    TREE_WORKER: 'Ask a qualified tree worker; a helper with one of their licences has can = ["licensed"].',
}
_DAYS = tuple(name.lower() for name in WEEKDAYS)
A_WEEK = 7
ALL_SKILLS = 99  # more than anybody lists


def _comes(helper: Helper, day: dt.date) -> bool:
    days = {_DAYS.index(d[:3].lower()) for d in helper.days if d[:3].lower() in _DAYS}
    return not days or day.weekday() in days


def next_day(helper: Helper, on: dt.date) -> dt.date:
    """The next day, from `on`, on which a helper comes; helpers without days come on any."""
    return common_day((helper,), on) or on


def common_day(helpers: Iterable[Helper], on: dt.date) -> dt.date | None:
    """The next day, from `on`, on which all of several helpers come; None if they never meet."""
    team = tuple(helpers)
    week = (on + dt.timedelta(days=ahead) for ahead in range(A_WEEK))
    return next((day for day in week if all(_comes(helper, day) for helper in team)), None)


def day_for(helpers: Iterable[Helper], job: Job, on: dt.date) -> dt.date | None:
    """The day on which helpers do a job: the last of theirs by which it is best done, else the next.

    None if it closes before they come.
    """
    team = tuple(helpers)
    first = common_day(team, max(on, job.open.likely or on))
    if first is None or (job.close.likely is not None and on <= job.close.likely < first):
        return None
    best = job.best.likely or first
    days = (best - dt.timedelta(days=ago) for ago in range(A_WEEK))
    return next((d for d in days if d >= first and all(_comes(h, d) for h in team)), first)


def _is_skilled(helper: Helper, demands: Iterable[str]) -> bool:
    """Whether a helper can do all that is demanded; one who comes alone is never two people."""
    skills = {"light", *helper.can}
    if "seated" not in skills:
        skills.add(STANDING)
    if LICENSED in skills:
        skills |= IN_PAIRS
    if helper.slope is None or "level" not in helper.slope.lower():
        skills.add(SLOPE)
    barred = {LICENSED, NEVER_ALONE} | ({STANDING} if "seated" in skills else set())
    barred |= {SLOPE} - skills
    if helper.people >= 2:
        skills.add(NEVER_ALONE)
        barred.discard(NEVER_ALONE)
    return all(d in skills or ("anything" in skills and d not in barred) for d in demands)


def _reaches(helper: Helper, points: Iterable[Point | None]) -> bool:
    """Whether all of several places lie within a helper's reach."""
    if helper.reach_m is None or helper.reach_point is None:
        return True
    here, reach = helper.reach_point, helper.reach_m
    return all(point is not None and here.metres_to(point) <= reach for point in points)


def able(helper: Helper, job: Job, on: dt.date) -> bool:
    """Whether a helper can do a job: what it demands, their days, and all of it within their reach."""
    return (
        day_for((helper,), job, on) is not None
        and _is_skilled(helper, job.demands)
        and _reaches(helper, job.points)
    )


def wanted_hands(demands: Sequence[str], points: Sequence[Point | None], helpers: Sequence[Helper]) -> str:
    """Who is missing to do what nobody may do alone or without a licence; empty if nobody is.

    Parameters
    ----------
    demands : sequence of str
    points : sequence of Point or None
        Where hands must get to.
    helpers : sequence of Helper
        All who lend hands, whatever their days and hours.
    """
    near = [helper for helper in helpers if _reaches(helper, points)]
    if LICENSED in demands and not any(LICENSED in helper.can for helper in near):
        return TREE_WORKER
    if NEVER_ALONE not in demands:
        return ""
    upright = [helper for helper in near if _is_skilled(helper, (STANDING,))]
    return "" if sum(helper.people for helper in upright) >= 2 else SECOND


def for_want_of(wants: str) -> Hold:
    """The hold on a job for which somebody is missing."""
    return Hold(reason=f"wants {wants}", until=None, asks=ASK_FOR[wants], wants=wants)


class _Labour(msgspec.Struct):
    helper: Helper
    spent: float = 0.0
    minutes: float = 0.0
    jobs: list[str] = msgspec.field(default_factory=list)

    @property
    def left(self) -> float:
        """Minutes of the week that are left after what is done."""
        return max(self.helper.hours_per_week * 60 - self.spent, 0.0)

    def fits(self, job: Job) -> bool:
        return self.minutes + job.minutes <= self.left + 1e-9


class Short(Value, kw_only=False):
    """A job for which those who can do it have no hours left, and whether a whole week of theirs holds it."""

    job: Job
    able: tuple[str, ...]
    fits_a_week: bool


class Allotment(Value, kw_only=False):
    """Jobs with their helper, jobs that are due but beyond the hours, and each helper's load.

    `beyond` are titles of jobs that nobody here can do, `short` the jobs that wait for hours.
    """

    taken: tuple[Job, ...]
    waiting: tuple[Job, ...]
    loads: tuple[HelperLoad, ...]
    beyond: tuple[str, ...]
    short: tuple[Short, ...]


def allot(jobs: Iterable[Job], helpers: Sequence[Helper], on: dt.date, done: Iterable[Job] = ()) -> Allotment:
    """Give each job, dearest to delay first, to the least burdened helper who can do it.

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
    labour = [_Labour(h) for h in helpers or (STEWARD,)]
    for job in done:
        _spend(job, labour, on)
    taken: list[Job] = []
    waiting: list[Job] = []
    beyond: list[str] = []
    short: list[Short] = []
    for job in sorted(jobs, key=lambda j: (not j.given_to, -j.cost_of_delay, j.order)):
        teams = _given_teams(job, labour, on) or _teams(job, labour, on)
        if not teams:
            beyond.append(job.title)
            waiting.append(job)
            continue
        free = [team for team in teams if all(h.fits(job) for h in team)]
        if not free:
            waiting.append(job)
            short.append(_short(job, teams))
            continue
        team = min(free, key=lambda t: (len(t), _ability(t), sum(h.minutes for h in t)))
        for h in team:
            h.minutes += job.minutes
            h.jobs.append(job.id)
        taken.append(replace(job, helpers=tuple(h.helper.name for h in team)))
    loads = tuple(
        HelperLoad(name=h.helper.name, minutes=h.minutes, hours_available=h.left / 60, jobs=tuple(h.jobs))
        for h in labour
    )
    return Allotment(tuple(taken), tuple(waiting), loads, tuple(beyond), tuple(short))


def _short(job: Job, teams: Sequence[tuple[_Labour, ...]]) -> Short:
    return Short(
        job,
        able=tuple(dict.fromkeys(h.helper.name for team in teams for h in team)),
        fits_a_week=any(all(job.minutes <= h.helper.hours_per_week * 60 for h in team) for team in teams),
    )


def _spend(job: Job, labour: Sequence[_Labour], on: dt.date) -> None:
    """Take the minutes of a job that is done from the helper named in its note, else from the likeliest."""
    named = [h for h in labour if h.helper.name == job.closed_by]
    likely = () if named else likely_helpers(job, [h.helper for h in labour], on)
    for h in named or [h for h in labour if h.helper.name in likely]:
        h.spent += job.minutes


def likely_helpers(job: Job, helpers: Sequence[Helper], on: dt.date) -> tuple[str, ...]:
    """Who would do a job that is not due yet: the least able helpers who can; empty if nobody can."""
    labour = [_Labour(h) for h in helpers or (STEWARD,)]
    teams = _given_teams(job, labour, on) or _teams(job, labour, on)
    team = min(teams, key=lambda t: (len(t), _ability(t)), default=None)
    return tuple(h.helper.name for h in team or ())


def _ability(team: Iterable[_Labour]) -> int:
    """How much the ablest of a team can do, as the count of what is written of them."""
    return max(ALL_SKILLS if "anything" in h.helper.can else len(h.helper.can) for h in team)


def helpers_for(job: Job, helpers: Sequence[Helper], on: dt.date) -> tuple[str, ...]:
    """Names of those a job falls to, or likely would; empty if nobody here can do it."""
    return job.helpers or likely_helpers(job, helpers, on)


def _given_teams(job: Job, labour: list[_Labour], on: dt.date) -> list[tuple[_Labour, ...]]:
    """The helper a job was given to by name, with another where nobody may do it alone; none if not given."""
    named = [h for h in labour if h.helper.name == job.given_to]
    if not named:
        return []
    with_them = [team for team in _teams(job, labour, on) if named[0] in team]
    return with_them or ([] if {NEVER_ALONE, LICENSED} & set(job.demands) else [(named[0],)])


def _teams(job: Job, labour: list[_Labour], on: dt.date) -> list[tuple[_Labour, ...]]:
    alone = [(h,) for h in labour if able(h.helper, job, on)]
    if alone or NEVER_ALONE not in job.demands:
        return list(alone)
    rest = replace(job, demands=tuple(d for d in job.demands if d != NEVER_ALONE))
    second = replace(job, demands=tuple(d for d in (STANDING, SLOPE) if d == STANDING or d in job.demands))
    return [
        (lead, other)
        for lead in labour
        for other in labour
        if lead is not other
        and able(lead.helper, rest, on)
        and able(other.helper, second, on)
        and day_for((lead.helper, other.helper), job, on) is not None
    ]
