"""Jobs and rounds made by hand for the papers."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from leafturn.base.date_range import Likely
from leafturn.garden.model import Helper
from leafturn.tasks.model import Job
from leafturn.tasks.week.model import Round, Walk
from tests.samples.jobs import made_job

ON = dt.date(2027, 4, 19)  # a Monday

HELPERS = (
    Helper(name="steward", hours_per_week=6),
    Helper(name="bench helper", hours_per_week=2, can=("seated", "light")),
)


def likely(days: int, spread: int = 3) -> Likely:
    middle = ON + dt.timedelta(days=days)
    return Likely(middle - dt.timedelta(days=spread), middle, middle + dt.timedelta(days=spread))


def job(
    name: str, state: str = "due", *, opens: int = -5, best: int = 2, closes: int = 9, **more: object
) -> Job:
    """A job whose window is told in days from ON."""
    given: dict[str, object] = {
        "id": f"{name}:mulch:2027",
        "plant": name,
        "verb": "mulch",
        "title": f"mulch {name}",
        "state": state,
        "open": likely(opens),
        "best": likely(best),
        "close": likely(closes),
        "minutes": 25.0,
        "where": "19 m N of the gate",
        "point": None,
        "why": (
            "The ground is warm and wet.",
            "Best done by Wednesday.",
            "It keeps the water in.",
            "Basis: a guess.",
        ),
        "cause": "The ground is warm and wet.",
        "basis": "guess",
        "cost_of_delay": 1.0 / closes if closes > 0 else 2.0,
    }
    return made_job(given | more)


def round_of(jobs: Sequence[Job], waiting: Sequence[Job] = ()) -> Round:
    return Round(
        jobs=tuple(jobs),
        waiting=tuple(waiting),
        hours_needed=1.0,
        hours_available=8.0,
        helpers=(),
        walk=Walk(stops=("gate",), metres=0.0),
    )
