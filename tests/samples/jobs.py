"""Helpers, and a job as a rule makes it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from functools import partial

from msgspec.structs import replace

from leafturn.base.date_range import Likely
from leafturn.garden.model import Helper, Point
from leafturn.tasks.model import Job, Reasons

DAY = dt.date(2027, 4, 19)

WHEN = Likely(DAY, DAY, DAY)

BENCH = Helper(
    name="bench helper", hours_per_week=2, can=("seated", "light"), reach_point=Point(4, 34), reach_m=25
)

STEWARD = Helper(name="steward", hours_per_week=6, can=("ladder", "saw", "lift", "kneel"))

PAIR = Helper(name="pair", hours_per_week=4, can=("lift", "kneel", "light"), people=2)


def job_alone(job: Job, *, told: bool) -> Job:
    """A job with its sentences, or with none, and without the season that they are made from.

    A year of jobs that hold their seasons would fill the memory.
    """
    return replace(job, telling=partial(Reasons, why=job.why if told else ()))


def job(name: str = "turn", *, demands: tuple[str, ...] = (), minutes: float = 30, **more: object) -> Job:
    made = Job(
        id=f"{name}:do:2027", plant=name, verb="do", title=name, state="due",
        open=WHEN, best=WHEN, close=WHEN,
        minutes=minutes, where="by the gate", point=Point(3, 35), telling=lambda: Reasons(why=("Because.",)),
        basis="guess",
        demands=demands,
    )  # fmt: skip
    return replace(made, **more)


def as_told(job: Job) -> tuple[Job, Reasons]:
    """A job with all that is said of it, to be compared: two tellings are never one."""
    return replace(job, telling=_silent), job.reasons


def _silent() -> Reasons:
    return Reasons(why=())


def made_job(given: Mapping[str, object]) -> Job:
    """A job of what is given of it and of its reasons, by name."""
    of_reasons = Reasons.__struct_fields__
    reasons = Reasons(**{name: one for name, one in given.items() if name in of_reasons})  # type: ignore[arg-type]
    rest = {name: one for name, one in given.items() if name not in of_reasons}
    return Job(telling=lambda: reasons, **rest)  # type: ignore[arg-type]
