"""The lines of the round as rows: what wants hands this week in two rows each, all else in one."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Collection, Iterable, Sequence

from msgspec.structs import replace

from leafturn.base import prose
from leafturn.base.day_words import SHORT_MONTHS
from leafturn.base.value import Value
from leafturn.tasks.model import DUE, Job
from leafturn.tasks.week.model import Line
from leafturn_tui.text import phrases, states
from leafturn_tui.text.layout import BLANK, MARGINS, Piece, Row, cut, fit, piece
from leafturn_tui.text.wrapping import wrap

STATE = 12  # cells of sign, state word and a blank
DAY, TIME = 11, 8
FEW = 60  # columns under which neither day nor time is shown
SOME = 72  # and under which the time is not
NEAR_DAYS = 28  # an end further off than this says nothing of a job whose best day is past: rule of thumb


def key_of(line: Line) -> str:
    """What a row is known by: its job's id, or for several jobs that of the first, marked."""
    return _job_of(line) or f"{line.jobs[0].id} and others, {line.state}"


def line_of(row: Row, lines: Iterable[Line]) -> Line | None:
    """The line that a row tells, or None where it is of none of them."""
    return next((line for line in lines if key_of(line) == row.key), None)


class Why(Value, kw_only=False):
    """Called, it gives the first reason of a line, of several jobs that of the dearest, named.

    What is over tells when it comes again, for which the season after is reckoned.
    """

    line: Line
    before: str = ""

    def __call__(self) -> str:
        """The sentence."""
        job = self.line.dearest
        why = phrases.first_reason(job)
        named = len(self.line.jobs) > 1 and self.line.state != "can wait"
        return self.before + (f"{job.title}: {why}" if named else why)


def heads(width: int) -> Row:
    """The heads over the columns."""
    ends = _ends("day", "time", width)
    what = width - STATE - sum(len(p.text) for p in ends)
    return Row((Piece("  "), Piece(fit("when", STATE), "dim"), Piece(fit("what, and where", what), "dim"), *(
        Piece(p.text, "dim") for p in ends)))  # fmt: skip


def line_rows(
    lines: Sequence[Line],
    beyond: Collection[str],
    on: dt.date,
    width: int,
    height: int | None = None,
    in_place: Collection[str] = (),
) -> list[Row]:
    """The rows of some lines of the round: this week's, what is coming, the rest, a blank row between.

    Parameters
    ----------
    lines : sequence of Line
    beyond : collection of str
        Titles of jobs that nobody here can do.
    on : date
    width : int [cells]
    height : int, optional
        Rows at hand; if they do not hold all, the last lines take one row each.
    in_place : collection of str
        Keys of lines that are done and stay among this week's.
    """

    def part_of(line: Line) -> int:
        return 0 if key_of(line) in in_place else _part(line, on)

    ordered = sorted(lines, key=part_of)
    whole = [_rows(line, beyond, on, width) for line in ordered]
    in_one = [[_row(line, beyond, on, width)] for line in ordered]
    parts = [part_of(line) for line in ordered]
    spare = math.inf if height is None else height - len(ordered) - len(set(parts)) + 1
    rows: list[Row] = []
    for n, part in enumerate(parts):
        if n and part != parts[n - 1]:
            rows.append(BLANK)
        spare -= len(whole[n]) - 1
        rows += whole[n] if spare >= 0 else in_one[n]
    return rows


def of_this_week(lines: Sequence[Line], on: dt.date) -> list[Line]:
    """The lines that want hands this week, what a night would take first."""
    return [line for line in lines if _part(line, on) == 0]


class Stood:
    """The lines that wanted hands since the page was opened, so that what is done stays where it stood."""

    def __init__(self) -> None:
        self._lines: list[Line] = []

    def with_done(self, lines: Sequence[Line], on: dt.date) -> tuple[list[Line], list[str]]:
        """This week's lines with those done since among them, then all others; and the keys of those done."""
        week = of_this_week(lines, on)
        seen = {job.id for line in self._lines for job in line.jobs}
        self._lines += [line for line in week if any(job.id not in seen for job in line.jobs)]
        place = {job.id: n for n, line in reversed([*enumerate(self._lines)]) for job in line.jobs}

        def at(line: Line) -> int:
            return min((place[job.id] for job in line.jobs if job.id in place), default=len(self._lines))

        done = self._done(lines, place)
        whole = {job.id for line in done for job in line.jobs}
        others = [line for line in lines if line not in week and not whole.issuperset(_ids(line))]
        for line in sorted(done, key=at, reverse=True):
            week.insert(next((n for n, below in enumerate(week) if at(below) > at(line)), len(week)), line)
        return [*week, *others], [key_of(line) for line in done]

    def done_but_untold(self, lines: Sequence[Line], told: Sequence[Line]) -> list[Line]:
        """Lines of what stood here and is done, but is not told here any more: another would have done it."""
        stood = {job.id for line in self._lines for job in line.jobs}
        but = {job.id for line in told for job in line.jobs}
        return [line for line in lines if line.state == "done" and _ids(line) <= stood - but]

    def _done(self, lines: Sequence[Line], place: Collection[str]) -> list[Line]:
        """What is done of the lines that stood: a line of which all is done as it was told before."""
        jobs = {job.id: job for line in lines if line.state == "done" for job in line.jobs if job.id in place}
        told: list[Line] = []
        whole: set[str] = set()
        for line in self._lines:
            ids = _ids(line)
            if jobs.keys() >= ids and whole.isdisjoint(ids):
                whole |= ids
                now = tuple(jobs[job.id] for job in line.jobs)
                told.append(replace(line, state="done", jobs=now, dearest=jobs[line.dearest.id]))
        rest = (line for line in lines if line.state == "done" and _ids(line) <= jobs.keys() - whole)
        return [*told, *rest]


def _ids(line: Line) -> set[str]:
    return {job.id for job in line.jobs}


def as_waiting(line: Line) -> Line:
    """A line of what is not pressing, told by the day it can wait until; what is done or let go stays so."""
    return replace(line, state="can wait") if line.state in DUE else line


def lines_for(jobs: Sequence[Job]) -> list[Line]:
    """A line for each job by itself."""
    return [
        Line(
            title=job.title,
            state=job.state,
            days_late=job.days_late,
            jobs=(job,),
            dearest=job,
            minutes=job.minutes,
            where=job.where,
            who=job.who,
        )
        for job in jobs
    ]


def _job_of(line: Line) -> str:
    """The id of a line's only job; empty of several."""
    return line.jobs[0].id if len(line.jobs) == 1 else ""


def _part(line: Line, on: dt.date) -> int:
    """0 for this week, tonight first of all; 1 for what is coming, 2 for the rest."""
    shown = states.shown(line, on)
    if shown.this_week:
        return 0
    return 1 if line.state in ("soon", "not yet") else 2


def _rows(line: Line, beyond: Collection[str], on: dt.date, width: int) -> list[Row]:
    """The title, wrapped, with day and time; below it, for this week's, where and who."""
    shown = states.shown(line, on)
    ends = _ends(_day(line, on), _time(line), width, due=line.state == "due")
    room = width - STATE - sum(len(p.text) for p in ends)
    title, *more = wrap(piece(line.title).text, room)
    tone = _tone(shown, line, on)
    first = (*_state(shown), Piece(fit(title, room), tone), *ends)
    rows = [Row(first, key_of(line), Why(line), line.jobs[0].plant, _job_of(line))]
    indent = Piece(" " * STATE)
    rows += [Row((indent, Piece(said, tone)), joined=True) for said in more]
    if not shown.this_week:
        return rows
    place = " · ".join(part for part in (line.where, phrases.line_whose(line, on, beyond)) if part)
    below = wrap(piece(place).text, width - STATE) if place else []
    return rows + [Row((indent, Piece(said, "dim")), joined=True) for said in below]


def _row(line: Line, beyond: Collection[str], on: dt.date, width: int) -> Row:
    """All in one row: the title with who does it, cut, then day and time."""
    shown = states.shown(line, on)
    ends = _ends(_day(line, on), _time(line), width, due=line.state == "due")
    room = width - STATE - sum(len(p.text) for p in ends)
    whose = phrases.line_whose(line, on, beyond) if shown.this_week else ""
    title = piece(line.title).text
    whole = piece(f"{title} · {whose}").text if whose else title
    told = Piece(fit(whole if cut(whole, room) == whole else title, room), _tone(shown, line, on))
    where = f"{prose.capital(line.where)}. " if shown.this_week and line.where else ""
    pieces = (*_state(shown), told, *ends)
    return Row(pieces, key_of(line), Why(line, where), line.jobs[0].plant, _job_of(line))


def _tone(shown: states.Shown, line: Line, on: dt.date) -> str:
    return "*ink" if shown.this_week else "dim" if _part(line, on) == 2 else "ink"


def _state(shown: states.Shown) -> tuple[Piece, ...]:
    if shown is states.TONIGHT:
        said = shown.sign + shown.word
        return Piece(said, shown.tone), Piece(" " * (STATE - len(said)))
    return Piece(f"{shown.sign} ", shown.tone), Piece(fit(shown.word, STATE - 2), shown.tone)


def _ends(day: str, time: str, width: int, *, due: bool = False) -> tuple[Piece, ...]:
    """The two columns at the right, as far as there is room for them; the day of what is due stands out."""
    whole = width + MARGINS
    ends = []
    if whole >= FEW:
        ends.append(Piece(fit(day, DAY + 1, right=True), "" if due else "dim"))
    if whole >= SOME:
        ends.append(Piece(fit(time, TIME + 1, right=True), "dim" if not time else ""))
    return tuple(ends)


def _day(line: Line, on: dt.date) -> str:
    """By when what wants hands now is best done, from when what comes, till when what waits."""
    job = line.dearest
    match line.state:
        case "due":
            day = min((day for j in line.jobs if (day := _wanted_by(j, on))), default=None)
            return "" if day is None or day == on else f"by {phrases.day(day)}"
        case "soon" | "not yet":
            opens = [j.open.likely for j in line.jobs if j.open.likely]
            return f"from {phrases.day(min(opens))}" if opens else ""
        case "held":
            return _till({j.hold.until for j in line.jobs if j.hold is not None})
        case "can wait":
            return _till({min((j.wait_until for j in line.jobs if j.wait_until), default=None)})
        case "late" | "passed":
            ended = job.close.likely
            return SHORT_MONTHS[ended.month - 1] if ended and line.state == "passed" else phrases.day(ended)
        case _:
            return ""


def _wanted_by(job: Job, on: dt.date) -> dt.date | None:
    """The best day of a job that is due; once that is past today, or the last day where this is near."""
    best, close = job.best.likely, job.close.likely
    if best is not None and best > on:
        return best if close is None else min(best, close)
    return on if close is not None and (close - on).days > NEAR_DAYS else close


def _till(days: Collection[dt.date | None]) -> str:
    day = next(iter(days)) if len(days) == 1 else None
    return f"till {phrases.day(day)}" if day else ""


def _time(line: Line) -> str:
    return "" if line.state in ("passed", "done", "let go") else phrases.minutes(line.minutes)
