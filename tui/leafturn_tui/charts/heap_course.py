"""How warm a heap was inside: readings as points, joined, with its turns, today and the hot zone."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from leafturn.base import quantities
from leafturn.soil.compost.heat_rule import HOT_C
from leafturn_tui.charts.braille import ACROSS, DOWN, Dots
from leafturn_tui.charts.heights import Cell, lay, lay_dots, pieces
from leafturn_tui.text.layout import Piece, Row, piece

GUTTER = 8
WORDS = 16  # cells at the right for what the zone means
BEFORE, AFTER = 35, 14  # days shown round today
TOP_C = 80  # so that its rows are steps of 10, and the figures beside them evenly apart
# What rots a heap hot: from where it counts as hot up to 65, of "43 to 65 degC are acceptable" (Manitoba
# Agriculture, Compost Elements, read).
ZONE_C = (HOT_C, 65.0)
ROWS = 9  # of the picture, without its title and its dates


def course_rows(
    name: str,
    readings: Sequence[tuple[dt.date, float]],
    turns: Sequence[dt.date],
    on: dt.date,
    width: int,
    high: int = ROWS,
) -> list[Row]:
    """A picture of `high` + 2 rows; none where no reading lies in the days shown.

    Parameters
    ----------
    name : str
    readings : sequence of (date, degC)
    turns : sequence of date
    on : date
    width, high : int [cells]
    """
    first = on - dt.timedelta(days=BEFORE)
    seen = sorted((day, c) for day, c in readings if first <= day <= on)
    columns = max(20, width - GUTTER - WORDS)
    if not seen:
        return []

    def column(day: dt.date) -> int:
        return round((day - first).days * (columns - 1) / (BEFORE + AFTER))

    def row(celsius: float) -> int:
        return min(high - 1, max(0, round((high - 1) * (1 - celsius / TOP_C))))

    field: list[list[Cell]] = [[(" ", "")] * columns for _ in range(high)]
    for r in range(row(ZONE_C[1]), row(ZONE_C[0]) + 1):
        field[r] = [("░", "band on band")] * columns
    dots = Dots(columns, high)
    dots.line([(column(day) * ACROSS, (high - 1) * DOWN * (1 - c / TOP_C) + DOWN / 2) for day, c in seen])
    lay_dots(field, dots, "sun")
    for sign, tone, days in (("┊", "dim", turns), ("│", "accent", (on,))):
        for n in {column(day) for day in days if first <= day}:
            for r in range(high):
                if field[r][n][0] in " ░":
                    lay(field[r], n, sign, tone)
    for day, c in seen:
        n, r = column(day), row(c)
        lay(field[r], n, "●", "*sun")
        _write(field, max(0, r - 1), n - 1 if r else n + 2, quantities.bare_celsius(c, 0), "*sun")
    marks = {row(c): f"{quantities.bare_celsius(c, 0):>6}  " for c in (60, 40, 20, 0)}
    hottest = "-".join(quantities.bare_celsius(c, 0) for c in ZONE_C)
    hot = {row(sum(ZONE_C) / 2): f" hot: {hottest}"}
    rows = [Row((piece(f"{name} inside, {quantities.celsius_unit()}", "dim"),))]
    rows += [
        Row((Piece(marks.get(r, " " * GUTTER), "dim"), *pieces(field[r]), Piece(hot.get(r, ""), "amber")))
        for r in range(high)
    ]
    named = [[(" ", "")] * columns]
    for day in turns:
        if first <= day <= on:
            _write(named, 0, column(day) - 3, "turned", "dim")
    _write(named, 0, column(on) - 2, "today", "accent")
    return [*rows, Row((Piece(" " * GUTTER), *pieces(named[0])))]


def _write(field: list[list[Cell]], row: int, at: int, text: str, tone: str) -> None:
    """Write a few letters where only blanks or the zone stand."""
    cells = field[row]
    at = max(0, min(at, len(cells) - len(text)))
    if all(character in " ░" for character, _ in cells[at : at + len(text)]):
        lay(cells, at, text, tone)
