"""The jobs that one line of the round stands for: each with a line of its own, what can wait by like work."""

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
from leafturn_tui.pages.round_lines import as_waiting, line_of, line_rows, lines_for
from leafturn_tui.panels.sentences import Sheet
from leafturn_tui.text.layout import Row
from leafturn_tui.text.waiting import waiting_lines

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace
    from leafturn_tui.host import Host


class SeveralJobs(Page):
    """Like jobs, or all that can wait with the day until which, like work in one line that opens in turn.

    Parameters
    ----------
    line : Line
        The line that was opened.
    by_work : bool
        Whether jobs of the same work that wait until the same day share a line.
    """

    def __init__(self, line: Line, *, by_work: bool = False) -> None:
        self._title = line.title
        self._waits = line.state == "can wait"
        self._ids = tuple(job.id for job in line.jobs)
        self._by_work = by_work

    def keys(self) -> tuple[Key, ...]:
        """Done, let go, put off, to whom."""
        return job_keys(self._under_bar)

    def gone(self, almanac: AlmanacFace) -> bool:
        """Whether none of the jobs is in the season any more."""
        return not self._jobs(almanac)

    def heading(self, almanac: AlmanacFace) -> str:
        """What the line said."""
        return "What can wait, and until when?" if self._by_work else self._title

    def rows(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """A line a job, or a work."""
        return line_rows(self._lines(almanac), almanac.round().beyond_reach, almanac.on, width)

    def why(self, almanac: AlmanacFace, row: Row) -> Sheet | None:
        """The chain of reasons; of several jobs told in one line, of the one that costs most to leave."""
        line = self._line(almanac, row)
        return why_sheet(almanac, line.dearest) if line else None

    def opened(self, almanac: AlmanacFace, row: Row) -> Page | None:
        """The job's own page, or the list of those the line stands for."""
        line = self._line(almanac, row)
        if line is None:
            return None
        return OneJob(row.about) if row.about else SeveralJobs(line)

    def _lines(self, almanac: AlmanacFace) -> list[Line]:
        jobs = self._jobs(almanac)
        beyond = almanac.round().beyond_reach
        lines = waiting_lines(jobs, almanac.on, beyond) if self._by_work else lines_for(jobs)
        return [as_waiting(line) for line in lines] if self._waits else lines

    def _line(self, almanac: AlmanacFace, row: Row) -> Line | None:
        return line_of(row, self._lines(almanac))

    def _jobs(self, almanac: AlmanacFace) -> list[Job]:
        """The jobs as they stand now; who does them is settled on the round."""
        allotted = {job.id: job for job in (*almanac.round().jobs, *almanac.round().waiting)}
        found = (allotted.get(job_id) or almanac.job(job_id) for job_id in self._ids)
        return [job for job in found if job is not None]

    def _under_bar(self, desk: Host) -> Sequence[Job]:
        line = self._line(desk.almanac, desk.current) if desk.current else None
        return line.jobs if line else ()
