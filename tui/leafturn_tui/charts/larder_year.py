"""The larder's year: what is picked, what is in store and what bees find, as hills a week wide."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from leafturn.answers.harvest_calendar import FEW, Week
from leafturn.base.day_words import SHORT_MONTHS
from leafturn_tui.charts.heights import HILLS, Cell, column, pieces, pieces_drawn, placed
from leafturn_tui.text import phrases
from leafturn_tui.text.layout import Piece, Row, fit

LABEL = 11  # cells before the first week
HIGH, WIDE_HIGH = 3, 5  # cells of a hill, in a window with two cells a week
SHORT = "×"


def year_rows(weeks: Sequence[Week], at: int, on: dt.date, width: int) -> list[Row]:
    """Months, three hills, and the week under the hand.

    Parameters
    ----------
    weeks : sequence of Week
    at : int
        Index of the week under the hand.
    on : date
    width : int [cells]
    """
    cells = 2 if width >= LABEL + 2 * len(weeks) else 1
    shown = weeks[: max(1, (width - LABEL) // cells)]
    picked = [len(w.picked) for w in shown]
    kept = [len(w.kept) for w in shown]
    forage = [len(w.forage) for w in shown]
    no_food = [not w.picked and not w.kept for w in shown]
    bare = [w.flying and len(w.forage) < FEW for w in shown]
    rows = [Row((Piece(" " * LABEL), *_months(shown, cells)))]
    high = WIDE_HIGH if cells > 1 else HIGH
    rows += _hills("picked", picked, "f_well", at, cells, high)
    rows += _shortage("none", no_food, at, cells)
    rows += _hills("in store", kept, "f_store", at, cells, high)
    rows += _hills("bees", forage, "f_bloom", at, cells, high)
    rows += _shortage("bees short", bare, at, cells)
    return [*rows, _hand(shown, at, on, cells)]


def _months(weeks: Sequence[Week], cells: int) -> tuple[Piece, ...]:
    words, before = [], 0
    for n, week in enumerate(weeks):
        if week.first.month != before and week.first.day <= 7:
            words.append((n * cells, SHORT_MONTHS[week.first.month - 1], "dim"))
            before = week.first.month
    return pieces(placed(words, len(weeks) * cells))


def _hills(label: str, counts: Sequence[int], tone: str, at: int, cells: int, high: int) -> list[Row]:
    """Rows of hills over the year's own top, which is written at the left."""
    top = max(counts, default=0)
    columns = [column(count / top if top else 0.0, high) for count in counts]
    names = [f"{top:>{LABEL - 2}}  ", *[" " * LABEL] * (high - 2), fit(label, LABEL)]
    rows = []
    for r in range(high):
        line: list[Cell] = []
        for n, cell in enumerate(columns):
            line += [(cell[r], tone + (" on bar" if n == at else ""))] * cells
        rows.append(Row((Piece(names[r], "dim" if r < high - 1 else ""), *pieces_drawn(line, HILLS))))
    return rows


def _shortage(label: str, short: Sequence[bool], at: int, cells: int) -> list[Row]:
    if not any(short):
        return []
    line = [
        (SHORT if gap else " ", "amber" + (" on bar" if n == at else ""))
        for n, gap in enumerate(short)
        for _ in range(cells)
    ]
    return [Row((Piece(fit(label, LABEL), "amber"), *pieces(line)))]


def _hand(weeks: Sequence[Week], at: int, on: dt.date, cells: int) -> Row:
    """A mark under the week, with its days."""
    if not 0 <= at < len(weeks):
        return Row((Piece(""),))
    first = weeks[at].first
    last = first + dt.timedelta(days=6)
    now = "this week, " if first <= on <= last else ""
    said = f"{now}{phrases.stretch(first, last, on)}"
    mark = at * cells
    if mark + 3 + len(said) <= len(weeks) * cells:
        words = [(mark, "▲", "*accent"), (mark + 3, said, "")]
    else:
        words = [(mark, "▲", "*accent"), (mark - 2 - len(said), said, "")]
    return Row((Piece(" " * LABEL), *pieces(placed(words, len(weeks) * cells))))
