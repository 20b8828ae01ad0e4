"""What a time away does to the jobs: before you go, while you are away, on return.

Everything comes from the windows of the jobs as they stand on the day of leaving and on the day of return.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator, Sequence

from msgspec.structs import replace

from leafturn.answers.frost import Frost
from leafturn.base.date_range import Likely
from leafturn.base.name_order import name_order
from leafturn.base.value import Value
from leafturn.garden.model import STEWARD, Helper
from leafturn.papers.week_selection import by_end
from leafturn.tasks.model import A_CROP, DUE, OVER, Job
from leafturn.tasks.week.labour import helpers_for

WORTH_A_VISIT = 1.0  # guess: of less harm (1 is slight) nobody comes for a job that could also wait
FROST_WORTH_A_WORD = 0.05  # chance of a tenth of the flowers lost below which a plant is not named


class TimeAway(Value):
    """The day of leaving and the day of return; the return day is at home again.

    `absent` are the names of helpers who go.
    """

    leave: dt.date
    back: dt.date
    absent: tuple[str, ...] = ()

    @property
    def days(self) -> int:
        """Nights away."""
        return (self.back - self.leave).days


class Errand(Value):
    """A job with what the time away means for it.

    Parameters
    ----------
    job : Job
        As it stands on the day of leaving, or for what is found on return on that day.
    who : tuple of str
        Who of those at home could do it; empty if nobody.
    must : bool
        Whether leaving it costs a crop, a plant or the whole window.
    maybe_open : date or None
        From when, in one year of ten, it can be done before leaving though that is not likely.
    next_open : date or None
        When what is past on return may be done again.
    """

    job: Job
    who: tuple[str, ...] = ()
    must: bool = False
    maybe_open: dt.date | None = None
    next_open: dt.date | None = None


class FrostWatch(Value):
    """Frost that may come while away, and the plants whose flowers it could take.

    `first_years` is the share of usual years in which frost comes in autumn at all.
    """

    last: Likely | None
    first: Likely | None
    plants: tuple[str, ...]
    who: tuple[str, ...]
    first_years: float = 1.0


class AwayPlan(Value):
    """The three parts.

    Parameters
    ----------
    closing : tuple of Errand
        To do before leaving: the window closes, or may close, before the return.
    early : tuple of Errand
        Better done before leaving: the best day passes, though it can still be done after the return.
    away : tuple of Errand
        What falls due in between and cannot be done before.
    small : tuple of Errand
        Such things of little weight.
    waiting : tuple of Errand
        Open on return.
    passed : tuple of Errand
        Closed on return if nobody does it.
    """

    time: TimeAway
    closing: tuple[Errand, ...]
    early: tuple[Errand, ...]
    away: tuple[Errand, ...]
    small: tuple[Errand, ...]
    frost: FrostWatch | None
    waiting: tuple[Errand, ...]
    passed: tuple[Errand, ...]


class Bloom(Value):
    """The days on which a plant may be in flower, and its chance that frost takes a tenth of the flowers."""

    plant: str
    first: dt.date
    last: dt.date
    frost_chance: float


def away_plan(
    time: TimeAway,
    leaving: Iterable[Job],
    returning: Iterable[Job],
    helpers: Sequence[Helper],
    frost: Frost | None = None,
    blooms: Iterable[Bloom] = (),
) -> AwayPlan:
    """The plan for a time away.

    Parameters
    ----------
    time : TimeAway
    leaving, returning : iterable of Job
        All jobs as they stand on the day of leaving and, if nobody does anything, on the day of return.
    helpers : sequence of Helper
        Empty means the steward alone.
    frost : Frost or None
        Last and first frost of the season of leaving.
    blooms : iterable of Bloom
        Flowers of that season that frost can take.
    """
    home = tuple(h for h in helpers or (STEWARD,) if h.name not in time.absent)
    parts: dict[str, list[Errand]] = {"closing": [], "early": [], "away": [], "small": []}
    for job in by_end(leaving):
        found = _part(job, time)
        if found is not None:
            who = helpers_for(_unasked(job), home, time.leave) if home else ()
            parts[found].append(
                Errand(job=job, who=who, must=_must(job, time), maybe_open=_maybe_open(job, time))
            )
    planned = {e.job.id for part in parts.values() for e in part}
    back = sorted(returning, key=lambda j: (-j.cost_of_delay, j.order))
    return AwayPlan(
        time=time,
        closing=tuple(parts["closing"]),
        early=tuple(parts["early"]),
        away=tuple(sorted(parts["away"], key=_by_opening)),
        small=tuple(sorted(parts["small"], key=_by_opening)),
        frost=_frost_watch(time, frost, blooms, home),
        waiting=tuple(Errand(job=j) for j in back if j.state in DUE and j.id not in planned),
        passed=tuple(_passed(back, [e.job for part in parts.values() for e in part], time)),
    )


def _part(job: Job, time: TimeAway) -> str | None:
    """The part a job belongs to: closing, early, away, small; None if the time away does not touch it."""
    if job.state in OVER:
        return None
    opens, best, closes = _opening(job), job.best.likely, job.close.likely
    if opens is None or closes is None or opens >= time.back:
        return None
    surely_closes = closes < time.back
    if opens <= time.leave:
        may_close = job.close.early is not None and job.close.early < time.back
        if surely_closes or (may_close and best is not None and best < time.back):
            return "small" if job.is_small else "closing"
        return "early" if best is not None and best < time.back and not job.is_small else None
    if not surely_closes and (best is None or best >= time.back or job.harm < WORTH_A_VISIT):
        return None
    return "small" if job.is_small else "away"


def _opening(job: Job) -> dt.date | None:
    """When a job can begin: its window's day, or the end of what holds it; hands are missing on any day."""
    if job.state == "held" and job.hold is not None and not job.wants:
        return job.hold.until
    return job.open.likely


def _must(job: Job, time: TimeAway) -> bool:
    closes = job.close.likely
    return job.harm >= A_CROP or (closes is not None and closes < time.back)


def _maybe_open(job: Job, time: TimeAway) -> dt.date | None:
    opens, early = job.open.likely, job.open.early
    if opens is None or early is None or opens <= time.leave or early > time.leave:
        return None
    return early


def _unasked(job: Job) -> Job:
    """The job without the helpers the round gave it, who may be away."""
    return replace(job, helpers=())


def _by_opening(errand: Errand) -> tuple[dt.date, str]:
    return errand.job.open.likely or dt.date.max, errand.job.id


def _passed(returning: Sequence[Job], planned: Sequence[Job], time: TimeAway) -> Iterator[Errand]:
    """Jobs that are past on return if nobody does them.

    Those of a season that has ended meanwhile are no more among the jobs of the return; their next date is
    then that of the same job in the new season.
    """
    known = {j.id for j in returning}
    following: dict[tuple[str, str], dt.date] = {}
    for job in returning:
        opens = job.open.likely
        if opens is not None and opens >= time.back:
            same = job.plant, job.verb
            following[same] = min(opens, following.get(same, opens))
    for job in returning:
        if job.state == "passed" and _closed_meanwhile(job, time):
            yield Errand(job=job, next_open=job.reasons.next_open)
    for job in planned:
        if job.id not in known and _closed_meanwhile(job, time):
            yield Errand(job=job, next_open=following.get((job.plant, job.verb)))


def _closed_meanwhile(job: Job, time: TimeAway) -> bool:
    return job.close.likely is not None and time.leave <= job.close.likely < time.back


def _frost_watch(
    time: TimeAway, frost: Frost | None, blooms: Iterable[Bloom], home: Sequence[Helper]
) -> FrostWatch | None:
    """Frost of spring whose end may come after leaving, or of autumn that may begin before the return."""
    if frost is None:
        return None
    last = frost.last if frost.last.late is not None and frost.last.late >= time.leave else None
    begins, sure = frost.first.early, frost.first.late
    to_come = begins is not None and begins < time.back and (sure is None or sure >= time.leave)
    first = frost.first if to_come else None
    until = min(time.back, last.late) if last is not None and last.late is not None else None
    plants = tuple(
        b.plant
        for b in sorted(blooms, key=lambda b: (-b.frost_chance, name_order(b.plant)))
        if until is not None
        and b.frost_chance >= FROST_WORTH_A_WORD
        and b.first <= until
        and b.last >= time.leave
    )
    if first is None and not plants:
        return None
    who = tuple(h.name for h in home)
    return FrostWatch(last=last, first=first, plants=plants, who=who, first_years=frost.first_years)
