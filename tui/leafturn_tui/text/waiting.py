"""What can wait in few lines: the same work that can wait until the same day is told as one."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Iterable

from leafturn.tasks.model import Job
from leafturn.tasks.week.grouping import lines_by
from leafturn.tasks.week.model import Line
from leafturn_tui.text import phrases


def waiting_lines(jobs: Iterable[Job], on: dt.date, beyond: Collection[str]) -> list[Line]:
    """A line for all jobs of one work that wait until one day for the same hands.

    Parameters
    ----------
    jobs : iterable of Job
        What can wait, the most urgent first.
    on : date
    beyond : collection of str
        Titles of jobs that nobody here can do.
    """

    def alike(job: Job) -> object:
        deed = job.title.replace(job.name, "", 1)
        return job.work, deed, job.wait_until, job.state, phrases.whose(job, on, beyond)

    return lines_by(jobs, alike)
