"""The word for where a job stands, the sign before it and its tone: one table for pages, papers and commands.

Amber is what wants hands now, red only what a night would take; all else is dim or plain.
"""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from leafturn.base.prose import count
from leafturn.base.value import Value
from leafturn.tasks.model import DUE

if TYPE_CHECKING:
    from leafturn.tasks.model import Job
    from leafturn.tasks.week.model import Line

CLOSING_DAYS = 3  # so many days before its end they are counted: rule of thumb


class Shown(Value, kw_only=False):
    """A sign of one cell, the word, its tone, and whether it wants hands this week."""

    sign: str
    word: str
    tone: str
    this_week: bool = False


TONIGHT = Shown("!", "tonight", "*on_harm on harm_fill", True)
OTHERS = {
    "soon": Shown(" ", "coming", "ink"),
    "not yet": Shown(" ", "later", "dim"),
    "held": Shown(" ", "held", "dim"),
    "passed": Shown(" ", "gone by", "dim"),
    "done": Shown("+", "done", "well"),
    "let go": Shown(" ", "let go", "dim"),
    "can wait": Shown(" ", "can wait", "dim"),
}


def shown(line: Line, on: dt.date) -> Shown:
    """How a line of the round is shown on a day."""
    if line.state not in DUE:
        return OTHERS[line.state]
    if all(is_tonight(job, on) for job in line.jobs):
        return TONIGHT
    return Shown("*", "past best" if line.state == "late" else _open_word(line.jobs, on), "amber", True)


def words(job: Job, on: dt.date) -> str:
    """The state of one job in a sentence: "3 days left", "past best, 22 days"."""
    return _words(job, (job,), on)


def line_words(line: Line, on: dt.date) -> str:
    """The same of a line of the round."""
    return _words(line, line.jobs, on)


def _words(told: Job | Line, jobs: tuple[Job, ...], on: dt.date) -> str:
    if told.state not in DUE:
        return OTHERS[told.state].word
    if all(is_tonight(job, on) for job in jobs):
        return TONIGHT.word
    return past_best(told.days_late) if told.state == "late" else _open_word(jobs, on, whole=True)


def past_best(days: int) -> str:
    """How long ago the window of a job ended."""
    return f"past best, {count(days, 'day')}" if days > 0 else "past best"


def _open_word(jobs: tuple[Job, ...], on: dt.date, *, whole: bool = False) -> str:
    """ "now", or how many days are left where they are few; `whole` for a sentence."""
    days = _days_left(jobs, on)
    if days is None or days > CLOSING_DAYS:
        return "now"
    if not days:
        return "last day"
    return f"{count(days, 'day')} left" if whole else f"{days} d left"


def _days_left(jobs: tuple[Job, ...], on: dt.date) -> int | None:
    """Days to the first end of the jobs' windows; None where one has no end."""
    ends = [job.close.likely for job in jobs]
    days = [(end - on).days for end in ends if end is not None]
    return max(0, min(days)) if len(days) == len(ends) else None


def is_tonight(job: Job, on: dt.date) -> bool:
    """Whether the night to come would take something that this job keeps."""
    return job.is_on_its_last_day(on) and job.reasons.tonight is not None
