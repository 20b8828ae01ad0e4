"""The round of a week, as frozen values."""

from __future__ import annotations

from typing import Literal

from leafturn.base.value import Value
from leafturn.garden.model import Point
from leafturn.tasks.model import Job, State


class Line(Value):
    """One line of the round: a job, or several of one kind told as one.

    Parameters
    ----------
    title : str
        What to do: "tie in rambler and 5 more".
    state : str
        The word for it; of jobs due and late the latest gives it. "can wait" for what is not pressing.
    jobs : tuple of Job
    dearest : Job
        The one whose waiting costs most: its reason stands for the line.
    who : str or None
        The helper they fall to, "several", or None.
    """

    title: str
    state: State | Literal["can wait"]
    days_late: int
    jobs: tuple[Job, ...]
    dearest: Job
    minutes: float
    where: str
    who: str | None


class HelperLoad(Value):
    """What falls to one helper this week, and the hours that are left of it after what is done."""

    name: str
    minutes: float
    hours_available: float
    jobs: tuple[str, ...]


class Stop(Value):
    """One place on the way: the guild or what else is worked at, and where it is."""

    name: str
    point: Point


class Walk(Value):
    """The way round: names of the stops in order, its length [m], and all of it as places from the gate on.

    A stop passed twice is named once in `stops`, where the way first comes by.
    """

    stops: tuple[str, ...]
    metres: float
    way: tuple[Stop, ...] = ()


class Round(Value):
    """This week's jobs in walking order, and what can wait.

    `lines` are what a page shows: like jobs folded into one. `jobs` fit the hours at hand (held, passed and
    done lines ride along and cost none). `waiting` may be done now but are beyond the hours or not
    pressing, each with `wait_until`. `quiet` is a sentence for weeks in which little is due, `notice` what
    else deserves a line on top.
    """

    jobs: tuple[Job, ...]
    waiting: tuple[Job, ...]
    hours_needed: float
    hours_available: float
    helpers: tuple[HelperLoad, ...]
    walk: Walk
    beyond_reach: tuple[str, ...] = ()
    quiet: str = ""
    notice: tuple[str, ...] = ()
    lines: tuple[Line, ...] = ()
