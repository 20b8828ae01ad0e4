"""How far the year is: this year's heat over the band of past years, and the next blooms on it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from leafturn.answers.heat_course import HeatCourse
from leafturn.base import quantities
from leafturn.base.day_words import SHORT_MONTHS
from leafturn_tui.charts.braille import ACROSS, DOWN, Dots
from leafturn_tui.charts.heights import Cell, lay, lay_dots, pieces, placed
from leafturn_tui.text import phrases
from leafturn_tui.text.layout import Piece, Row

GUTTER = 7
DAYS = 120
TODAY_AT = 0.6  # of the days shown, once the year is so far
FIRST_SHOWN = 45  # days after 1 January: heat before that is next to nothing
EVERY = 4  # of the dots ahead only every so many-th is set
NEXT = 3
APART, SOON = 9, 3  # days between two names, and from today to the first


def curve_rows(
    course: HeatCourse, blooms: Sequence[tuple[dt.date, str]], on: dt.date, width: int, rows: int
) -> list[Row]:
    """The curve with its axes, in `rows` + 1 rows.

    Parameters
    ----------
    course : HeatCourse
    blooms : sequence of (date, name)
        The next things to open, soonest first; the first three are marked.
    on : date
    width, rows : int [cells]
    """
    columns = max(20, width - GUTTER)
    start = max(FIRST_SHOWN, round((on - course.first).days - TODAY_AT * DAYS))
    start = max(0, min(start, len(course.now) - DAYS))
    end = min(len(course.now) - 1, start + DAYS)
    top = max(float(course.high[end]), float(course.now[end]), 1.0)
    today = (on - course.first).days

    def x(day: float) -> float:
        return (day - start) * (columns * ACROSS - 1) / (end - start)

    def y(heat: float) -> float:
        return (rows * DOWN - 1) * (1 - heat / top)

    field: list[list[Cell]] = [[(" ", "")] * columns for _ in range(rows)]
    for n in range(columns):
        day = min(end, start + round((n + 0.5) * (end - start) / columns))
        high, low = (round(y(float(v[day]))) // DOWN for v in (course.high, course.low))
        for r in range(max(0, high), min(rows - 1, low) + 1):
            field[r][n] = ("░", "band on band")
    seen, ahead = Dots(columns, rows), Dots(columns, rows)
    past = range(start, min(today, end) + 1)
    seen.line([(x(d), y(float(course.now[d]))) for d in past])
    ahead.line([(x(d), y(float(course.now[d]))) for d in range(max(start, today), end + 1)], EVERY)
    lay_dots(field, ahead, "dim")
    lay_dots(field, seen, "*sun")
    marks = [(on, "today", "*accent", True)]
    marks += [(day, f"{name} {phrases.day(day)}", "bloom", False) for day, name in blooms[:NEXT]]
    for date, name, tone, left in marks:
        number = (date - course.first).days
        if start <= number <= end:
            at, r = round(x(number)) // ACROSS, round(y(float(course.now[number]))) // DOWN
            _mark(field[max(0, min(r, rows - 1))], at, name, tone, left)
    scale = _scale(top, rows)
    shown = [
        Row((Piece(scale.get(r, "").rjust(GUTTER - 1) + " ", "dim"), *pieces(field[r]))) for r in range(rows)
    ]
    return [*shown, Row((Piece(" " * GUTTER), *_months(course.first, start, end, columns)))]


def apart(blooms: Sequence[tuple[dt.date, str]], on: dt.date) -> list[tuple[dt.date, str]]:
    """The soonest of some blooms after today, a few days apart, so that their names find room."""
    kept: list[tuple[dt.date, str]] = []
    for day, name in blooms:
        if (day - (kept[-1][0] if kept else on)).days >= (APART if kept else SOON):
            kept.append((day, name))
    return kept


def _mark(cells: list[Cell], at: int, name: str, tone: str, left: bool) -> None:
    """A point with its name beside it; to the left where the right has no room."""
    if not 0 <= at < len(cells):
        return
    lay(cells, at, "●", tone)
    begins = at - len(name) - 1 if left or at + 2 + len(name) > len(cells) else at + 1
    if begins >= 0 and begins + len(name) <= len(cells):
        lay(cells, begins, name, tone)


def _scale(top: float, rows: int) -> dict[int, str]:
    """Figures beside their rows: nought, and round sums of what is spoken up to the top."""
    top = quantities.heat(top)
    step = next((s for s in (50, 100, 200, 500, 1000, 2000) if top / s <= max(2, rows // 4)), 5000)
    return {
        min(rows - 1, max(0, round((rows - 1) * (1 - heat / top)))): str(heat)
        for heat in range(0, int(top) + 1, step)
    }


def _months(first: dt.date, start: int, end: int, columns: int) -> tuple[Piece, ...]:
    words = []
    for day in range(start, end + 1):
        date = first + dt.timedelta(days=day)
        if date.day == 1:
            words.append(
                (round((day - start) * columns / (end - start)), SHORT_MONTHS[date.month - 1], "dim")
            )
    return pieces(placed(words, columns))
