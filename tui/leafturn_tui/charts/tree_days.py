"""The strip of days on which a tree takes pollen and its partners give it, as heights that need no colour."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from leafturn.partners.bloom_overlap.partner_days import DayRow, PartnerDays
from leafturn_tui.charts.heights import hill
from leafturn_tui.text import phrases
from leafturn_tui.text.layout import BLANK, Piece, Row, fit, heading, paragraph, piece

NAME = 15
DOES = 6
MEANING = "the higher, the surer that it is open; bees or wind must still carry the pollen"


def day_rows(days: PartnerDays, on: dt.date, width: int) -> list[Row]:
    """Dates, the tree, its partners, and the days on which both are open.

    Parameters
    ----------
    days : PartnerDays
    on : date
        The day of asking, which gets a mark.
    width : int
        Cells at hand; where the days do not fit, two or more share a cell, as high as
        the surest of them.
    """
    room = max(width - NAME - DOES, 7)
    count = len(days.tree.shares)
    together = -(-count // room)
    cells = -(-count // together)
    head = Row((Piece(fit("", NAME + DOES)), Piece(_dates(days.first, cells, together), "heading")))
    lines = [_line(one, together) for one in (days.tree, *days.partners)]
    if days.partners:
        lines.append(_line(days.meet, together, name="both"))
    today = (on - days.first).days // together
    mark = (
        [Row((Piece(fit("today", NAME + DOES)), Piece(" " * today + "│", "accent")))]
        if 0 <= today < cells
        else []
    )
    said = MEANING if together == 1 else f"{MEANING}; {together} days a column"
    return [
        heading("days: who is open when"),
        head,
        *mark,
        *lines,
        *paragraph(said, width, "quiet", indent=1),
        BLANK,
    ]


def _line(row: DayRow, together: int, name: str = "") -> Row:
    called = Piece(fit(name or piece(row.plant).text, NAME - 1) + " ")
    does = Piece(fit("" if name else row.does, DOES))
    marks = "".join(hill(max(row.shares[n : n + together])) for n in range(0, len(row.shares), together))
    about = "" if name else row.plant
    return Row(
        (called, does, Piece(marks, "f_well" if name else "f_bloom")),
        f"days {name or row.plant}",
        plant=row.plant,
        about=about,
    )


def _dates(first: dt.date, cells: int, together: int) -> str:
    """Dates above their days, as many as fit with a blank between them."""
    line, free = "", 0
    for n in range(cells):
        day = first + dt.timedelta(days=n * together)
        told = phrases.day(day)
        # A week's first cell, or any where a cell holds more days than one.
        wanted = n == 0 or day.day in _marked_days(together)
        if wanted and n >= free and n + len(told) <= cells:
            line = line.ljust(n) + told
            free = n + len(told) + 1
    return line


def _marked_days(together: int) -> Sequence[int]:
    return (1, 8, 15, 22, 29) if together == 1 else range(1, 32)
