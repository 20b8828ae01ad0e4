"""Notes about jobs: done, let go, put off, given to someone, a hold lifted."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from leafturn.base.told_times import span_told
from leafturn.journal.entries import Done, Entry, LetGo, OfJobs
from leafturn.journal.job_id import JobId, verb_id
from leafturn.tasks.model import Job
from leafturn_tui.notes import NotUnderstood

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

MINUTES_A_WEEK = 7 * 24 * 60
CLOSED: dict[str, type[Entry]] = {"done": Done, "let go": LetGo}


def about(almanac: AlmanacFace, jobs: Sequence[Job], kind: type[OfJobs], **more: Any) -> OfJobs:
    """A note about one job or several, of the day of asking where no other is given as `on`."""
    more = {"on": almanac.on, **more}
    if len(jobs) > 1:
        return kind(tasks=tuple(job.id for job in jobs), **more)
    return kind(task=jobs[0].id, plant=_plant(almanac, jobs[0]), **more)


def closing_note(almanac: AlmanacFace, job: Job) -> Entry | None:
    """The latest note not taken back that made a job done or let go."""
    for line in almanac.book():
        entry = line.entry
        if line.taken_back or not isinstance(entry, CLOSED.get(job.state, ())):
            continue
        if any(str(closed) == job.id or _in_short(closed, job, entry.on) for closed in entry.jobs):
            return entry
    return None


def _in_short(closed: JobId, job: Job, on: dt.date) -> bool:
    """Whether an id written without its year ("turn:bay-2") means this job."""
    return closed.year is None and closed.is_of(job.plant, verb_id(job.verb)) and on == job.closed_on


def who_and_minutes(text: str) -> tuple[str | None, float | None]:
    """A name and minutes as typed, "Ann 35", "Ann 35 min", "Ann 1 h 30" or either alone.

    Raises
    ------
    NotUnderstood
        If the minutes are more than a week has.
    """
    told = span_told(text, bare="min")
    if told is None or told.after:
        return text.strip() or None, None
    if told.minutes > MINUTES_A_WEEK:
        raise NotUnderstood(
            f"{told.minutes:g} minutes are more than a week has; write a name and minutes: Ann 35"
        )
    return re.sub(r"(^|\s)in$", "", told.before).strip(" ,") or None, told.minutes


def _plant(almanac: AlmanacFace, job: Job) -> str | None:
    return job.plant if almanac.garden.plant(job.plant) else None
