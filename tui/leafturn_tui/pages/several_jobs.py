"""The jobs that one line of the round stands for, each with a line of its own."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from leafturn.tasks.model import Job
from leafturn.tasks.week.model import Line
from leafturn_tui.host import Key
from leafturn_tui.pages.base import Page
from leafturn_tui.pages.job_keys import job_keys
from leafturn_tui.pages.one_job import OneJob
from leafturn_tui.pages.reasons import why_sheet
from leafturn_tui.pages.round_lines import line_rows, lines_for
from leafturn_tui.panels.sentences import Sheet
from leafturn_tui.text.layout import Row

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace
    from leafturn_tui.host import Host


class SeveralJobs(Page):
    """Like jobs, or all that can wait with the day until which.

    Parameters
    ----------
    line : Line
        The line of the round that was opened.
    """

    def __init__(self, line: Line) -> None:
        self._title = line.title
        self._waits = line.state == "can wait"
        self._ids = tuple(job.id for job in line.jobs)

    def keys(self) -> tuple[Key, ...]:
        """Done, let go, put off, to whom."""
        return job_keys(self._under_bar)

    def gone(self, almanac: AlmanacFace) -> bool:
        """Whether none of the jobs is in the season any more."""
        return not self._jobs(almanac)

    def heading(self, almanac: AlmanacFace) -> str:
        """What the line said."""
        return "What can wait, and until when?" if self._waits else self._title

    def rows(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """A line a job."""
        lines = lines_for(self._jobs(almanac), waits=self._waits)
        return line_rows(lines, almanac.round().beyond_reach, almanac.on, width)

    def why(self, almanac: AlmanacFace, row: Row) -> Sheet | None:
        """The chain of reasons."""
        job = almanac.job(row.about)
        return why_sheet(almanac, job) if job else None

    def opened(self, almanac: AlmanacFace, row: Row) -> Page | None:
        """The job's own page."""
        return OneJob(row.about) if almanac.job(row.about) else None

    def _jobs(self, almanac: AlmanacFace) -> list[Job]:
        """The jobs as they stand now; who does them is settled on the round."""
        allotted = {job.id: job for job in (*almanac.round().jobs, *almanac.round().waiting)}
        found = (allotted.get(job_id) or almanac.job(job_id) for job_id in self._ids)
        return [job for job in found if job is not None]

    def _under_bar(self, desk: Host) -> Sequence[Job]:
        job = desk.almanac.job(desk.current.about) if desk.current else None
        return (job,) if job else ()
