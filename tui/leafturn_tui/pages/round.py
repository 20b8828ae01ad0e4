"""Page 1: the week's jobs in walking order."""

from __future__ import annotations

import datetime as dt
from functools import partial
from typing import TYPE_CHECKING

from leafturn.tasks.model import Job, Round
from leafturn_tui import words
from leafturn_tui.pages.base import MARGINS, Key, Page, first_lines
from leafturn_tui.pages.faults import fault_rows
from leafturn_tui.pages.job_keys import job_keys
from leafturn_tui.pages.one_job import OneJob, why_sheet
from leafturn_tui.panels.choice import Choice, Option
from leafturn_tui.panels.sheet import Sheet
from leafturn_tui.rows import BLANK, Column, Piece, Row, columns, cut, heading, paragraph, piece
from leafturn_tui.safe_text import ELLIPSIS

if TYPE_CHECKING:
    from leafturn.almanac import Almanac
    from leafturn_tui.desk import Desk

REASON_FROM = 150
WHOLE_PLACE_FROM = 120
MINUTES_FROM = 72
ONE_LINE_UNDER = 60


class RoundPage(Page):
    """What needs hands this week?"""

    digit = "1"
    name = "Round"
    question = "What needs hands this week?"

    def __init__(self) -> None:
        self.helper: str | None = None
        self._kept: tuple[Almanac, str | None, Round] | None = None

    def keys(self) -> tuple[Key, ...]:
        """Done, let go, put off, and one helper's jobs."""
        return (*job_keys(_job_under_bar), Key("s", "whose", "only one helper's jobs", self._ask_whose))

    def heading(self, almanac: Almanac) -> str:
        """The question, and whose jobs are shown."""
        return f"What needs {self.helper}'s hands this week?" if self.helper else self.question

    def top(self, almanac: Almanac, width: int) -> list[Row]:
        """Faults, and what else deserves a line on top."""
        notice = [
            r
            for said in self._round(almanac).notice[:2]
            for r in paragraph(said, width - 1, "due", indent=1, most=2)
        ]
        return [*fault_rows(almanac, width), *notice]

    def rows(self, almanac: Almanac, width: int) -> list[Row]:
        """Jobs in walking order, then what can wait."""
        the_round = self._round(almanac)
        jobs = job_rows(the_round, almanac.on, width)
        rows = [*paragraph(the_round.quiet, width), BLANK] if the_round.quiet else []
        if not almanac.garden.plants:
            rows += first_lines(width)
        rows += jobs[: len(the_round.jobs)]
        if the_round.waiting:
            rows += [heading("these can wait"), *jobs[len(the_round.jobs) :]]
        return rows

    def below(self, almanac: Almanac, width: int) -> list[Row]:
        """Hours against hands, what nobody can do, and the walk."""
        the_round = self._round(almanac)
        said = [words.hours_line(the_round)]
        if the_round.beyond_reach:
            said.append(words.reach_line(the_round))
        if walk := words.walk_line(the_round):
            said.append(walk)
        most = 2 if width >= ONE_LINE_UNDER else 1
        return [r for line in said for r in paragraph(line, width - 1, indent=1, most=most)]

    def why(self, almanac: Almanac, row: Row) -> Sheet | None:
        """The chain of reasons."""
        job = almanac.job(row.key)
        return why_sheet(almanac, job) if job else None

    def opened(self, almanac: Almanac, row: Row) -> Page | None:
        """The job's own page."""
        return OneJob(row.key) if almanac.job(row.key) else None

    def _round(self, almanac: Almanac) -> Round:
        known = {h.name for h in almanac.garden.helpers}
        helper = self.helper if self.helper in known else None
        if self._kept is None or self._kept[:2] != (almanac, helper):
            self._kept = (almanac, helper, almanac.round(helper))
        return self._kept[2]

    def _ask_whose(self, desk: Desk) -> None:
        names = [h.name for h in desk.almanac.garden.helpers]
        if not names:
            desk.say("The garden file names no helpers, so every job is the steward's.")
            return

        def only(name: str | None) -> None:
            self.helper = name

        options = [Option("0", "everyone", partial(only, None))]
        for n, name in enumerate(names, 1):
            options.append(Option(str(n) if n < 10 else " ", name, partial(only, name)))
        at = names.index(self.helper) + 1 if self.helper in names else 0
        desk.ask(Choice("Whose jobs?", options, at))


def _job_under_bar(desk: Desk) -> Job | None:
    under = desk.current
    return desk.almanac.job(under.key) if under else None


def job_rows(the_round: Round, on: dt.date, width: int) -> list[Row]:
    """One line a job, first those of the round, then those that can wait.

    State, job, where, who, minutes, and the reason where there is room. The line under the bar is
    told in full where the list has cut it.
    """
    jobs = [*the_round.jobs, *the_round.waiting]
    whole = width + MARGINS
    if whole < ONE_LINE_UNDER:
        lines = [_one_line(job, on, width) for job in jobs]
    else:
        shape = [
            Column(14, 14),
            Column(56, 16),
            Column(32, 12 if whole >= MINUTES_FROM else 10, gives=2),
            Column(26, 13, gives=1),
        ]
        if whole >= MINUTES_FROM:
            shape.append(Column(8, 8, right=True))
        if whole >= REASON_FROM:
            shape.append(Column(200, 12, gives=3))
        table = [
            _cells(job, on, whole, the_round, waits=n >= len(the_round.jobs))[: len(shape)]
            for n, job in enumerate(jobs)
        ]
        lines = columns(table, shape, width)
    return [
        Row(line, key=job.id, why=_why(job, line), plant=job.plant)
        for job, line in zip(jobs, lines, strict=True)
    ]


def _cells(job: Job, on: dt.date, whole: int, the_round: Round, waits: bool) -> list[Piece]:
    who = words.whose(job, on, the_round.beyond_reach)
    if waits and job.wait_until is not None and job.title not in the_round.beyond_reach:
        who = f"till {words.day(job.wait_until, on)}"
    minutes = "" if job.state in ("held", "passed", "done", "let go") else words.minutes(job.minutes)
    tone = "late" if words.state(job, on) == "due today" else job.state
    return [
        piece(words.state(job, on), tone), piece(job.title, "quiet" if job.state == "done" else ""),
        piece(job.where if whole >= WHOLE_PLACE_FROM else words.short_place(job.where)), piece(who),
        piece(minutes), piece(job.why[0] if job.why else "", "quiet"),
    ]  # fmt: skip


def _one_line(job: Job, on: dt.date, width: int) -> tuple[Piece, ...]:
    said = words.state(job, on)
    rest = piece(f", {job.title}" + (f", {job.where}" if job.where else "")).text
    return Piece(said, job.state), Piece(cut(rest, width - len(said)))


def _why(job: Job, line: tuple[Piece, ...]) -> str:
    """The first reason; before it the job and its place where the line has cut them."""
    said = job.why[0] if job.why else ""
    if any(p.text.rstrip().endswith(ELLIPSIS) for p in line[:6]):
        return f"{job.title}, {job.where}: {said}"
    return said
