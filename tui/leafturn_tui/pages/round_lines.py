"""The lines of the round as rows: state, what, where, who, minutes, and the reason where there is room."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Sequence

from leafturn.tasks.model import DUE, Job, Line
from leafturn_tui.safe_text import ELLIPSIS
from leafturn_tui.text import phrases
from leafturn_tui.text.layout import MARGINS, Column, Piece, Row, columns, cut, piece

REASON_FROM = 150
WHOLE_PLACE_FROM = 120
MINUTES_FROM = 72
ONE_LINE_UNDER = 60


def key_of(line: Line) -> str:
    """What a row is known by: its job's id, or for several jobs that of the first, marked."""
    return line.jobs[0].id if len(line.jobs) == 1 else f"{line.jobs[0].id} and others, {line.state}"


def line_rows(lines: Sequence[Line], beyond: Collection[str], on: dt.date, width: int) -> list[Row]:
    """One row a line of the round.

    The line under the bar is told in full where the list has cut it.

    Parameters
    ----------
    lines : sequence of Line
    beyond : collection of str
        Titles of jobs that nobody here can do.
    on : date
    width : int [cells]
    """
    whole = width + MARGINS
    if whole < ONE_LINE_UNDER:
        pieces = [_one_line(line, on, width) for line in lines]
    else:
        shape = [
            Column(14, 14),
            Column(56, 24 if whole >= MINUTES_FROM else 16),
            Column(32, 10, gives=2),
            Column(26, 13, gives=1),
        ]
        if whole >= MINUTES_FROM:
            shape.append(Column(8, 8, right=True))
        if whole >= REASON_FROM:
            shape.append(Column(200, 12, gives=3))
        table = [_cells(line, on, whole, beyond)[: len(shape)] for line in lines]
        pieces = columns(table, shape, width)
    return [
        Row(shown, key=key_of(line), why=_why(line, shown), plant=line.jobs[0].plant)
        for line, shown in zip(lines, pieces, strict=True)
    ]


def lines_for(jobs: Sequence[Job], *, waits: bool) -> list[Line]:
    """A line for each job by itself; `waits` for those that are not pressing."""
    return [
        Line(
            title=job.title,
            state="can wait" if waits and job.state in DUE else job.state,
            days_late=job.days_late,
            jobs=(job,),
            dearest=job,
            minutes=job.minutes,
            where=job.where,
            who=job.who,
        )
        for job in jobs
    ]


def _cells(line: Line, on: dt.date, whole: int, beyond: Collection[str]) -> list[Piece]:
    minutes = "" if line.state in ("held", "passed", "done", "let go") else phrases.minutes(line.minutes)
    said = phrases.line_state(line, on)
    tone = "late" if said == "due today" else "soon" if line.state == "can wait" else line.state
    where = line.where if whole >= WHOLE_PLACE_FROM else phrases.short_place(line.where)
    why = line.dearest.why[0] if line.dearest.why else ""
    return [
        piece(said, tone), piece(line.title, "quiet" if line.state == "done" else ""),
        piece(where), piece(phrases.line_whose(line, on, beyond)), piece(minutes), piece(why, "quiet"),
    ]  # fmt: skip


def _one_line(line: Line, on: dt.date, width: int) -> tuple[Piece, ...]:
    said = phrases.line_state(line, on)
    rest = piece(f", {line.title}" + (f", {line.where}" if line.where else "")).text
    tone = "soon" if line.state == "can wait" else line.state
    return Piece(said, tone), Piece(cut(rest, width - len(said)))


def _why(line: Line, shown: tuple[Piece, ...]) -> str:
    """The first reason; before it the line and its place where the list has cut them."""
    job = line.dearest
    said = job.why[0] if job.why else ""
    if len(line.jobs) > 1:
        return f"{line.title}: Enter lists them. {job.title}: {said}"
    if any(p.text.rstrip().endswith(ELLIPSIS) for p in shown[:6]):
        return f"{line.title}, {line.where}: {said}"
    return said
