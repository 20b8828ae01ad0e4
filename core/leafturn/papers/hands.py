"""Who is to do a job, as names of the garden file."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from leafturn.garden.model import Helper
from leafturn.tasks.model import Job
from leafturn.tasks.week.labour import likely_hands

JOINED = " with "  # as leafturn.tasks.week.labour joins two names


def team_of(who: str | None, helpers: Sequence[Helper]) -> tuple[str, ...]:
    """The names in what a job says of its hands; a name may itself hold the word that joins two."""
    if not who:
        return ()
    names = [h.name for h in helpers]
    if who in names:
        return (who,)
    pairs = ((a, b) for a in names for b in names if a != b and f"{a}{JOINED}{b}" == who)
    return next(pairs, (who,))


def hands_of(job: Job, helpers: Sequence[Helper], on: dt.date) -> tuple[str, ...]:
    """Names of those a job falls to, or likely would; empty if nobody here can do it."""
    return team_of(job.who or likely_hands(job, helpers, on), helpers)
