"""The second line of every page: how far the year is, the next frost, what is guessed, garden and day."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from rich.cells import cell_len

from leafturn_tui.charts.gauge import gauge
from leafturn_tui.desk.page_bar import WIDE
from leafturn_tui.safe_text import safe_text
from leafturn_tui.text import phrases
from leafturn_tui.text.layout import Piece, Row, piece

if TYPE_CHECKING:
    from leafturn.answers.frost import Frost
    from leafturn.answers.season import Heading
    from leafturn_tui.almanac_face import AlmanacFace

MANY_FILLED = 20  # days of the season from normals, from which on its heat is marked as a guess


def instruments(almanac: AlmanacFace, width: int, lost_since: str = "") -> Row:
    """The line, with fewer words where there is less room.

    Parameters
    ----------
    almanac : AlmanacFace
    width : int [cells]
    lost_since : str
        Said instead of the garden's name where its file can no longer be read.
    """
    head = almanac.heading()
    wide = width >= WIDE
    where = lost_since or head.place
    day = phrases.long_day(almanac.on) if wide else phrases.day(almanac.on)
    rights = [f"{where}  {day} " if where else f"{day} ", f"{day} "]
    heat, frost = heat_pieces(head, wide), frost_pieces(head.frost, almanac.on, wide)
    short = short_frost_pieces(head.frost, almanac.on)
    guessed = [Piece(f"~{head.days_filled} d guessed", "dim")] if wide and head.days_filled else []
    gap = Piece("  ")
    lefts = [
        [*heat, gap, *frost, gap, *guessed] if guessed else [*heat, gap, *frost],
        [*heat, gap, *frost],
        [*heat, gap, *short],
        [*heat[1:], gap, *short],
        list(frost),
        list(short),
        [],
    ]
    named = [(left, rights[0]) for left in lefts[:3]]
    for left, right in (*named, *((left, right) for left in lefts for right in rights)):
        shown = piece(right, "dim")
        free = width - 1 - sum(cell_len(p.text) for p in left) - cell_len(shown.text)
        if free >= 2:
            return Row((Piece(" "), *left, Piece(" " * free), shown))
    return Row((piece(f" {rights[-1]}", "dim"),))


def heat_pieces(head: Heading, wide: bool) -> tuple[Piece, ...]:
    """The gauge with the days; nothing in the cold of the year."""
    heat = head.heat
    if heat.days_ahead is None:
        return ()
    guess = "~" if not wide and head.days_filled > MANY_FILLED else ""
    return (
        Piece("heat ", "dim"),
        *gauge(heat.days_ahead, heat.usual_behind, heat.usual_ahead),
        Piece(f" {guess}{phrases.ahead(heat.days_ahead, short=not wide)}"),
    )


def short_frost_pieces(frost: Frost, on: dt.date) -> tuple[Piece, ...]:
    """The same in the fewest words: until when frost is to be reckoned with."""
    late = frost.last.late or frost.last.likely
    if late is None or phrases.last_frost_over(frost, on):
        return frost_pieces(frost, on, False)
    return (Piece(f"frost to {phrases.day(late, on)}", "cold"),)


def frost_pieces(frost: Frost, on: dt.date, wide: bool) -> tuple[Piece, ...]:
    """The frost that is next: the last of spring, from then on the first of autumn."""
    first_is_next = phrases.last_frost_over(frost, on)
    when, years = (frost.first, frost.first_years) if first_is_next else (frost.last, frost.last_years)
    if when.likely is None:
        return (Piece(phrases.frost_rare(years), "cold"),)
    day, by = phrases.day(when.likely, on), when.late
    if first_is_next:
        if by is not None and by < on:
            return ()
        words = f"first frost about {day}" if when.likely >= on else "first frost any night"
        return (Piece(safe_text(words), "cold"),)
    late = "" if by is None or by == when.likely else phrases.day(by, on)
    if late and when.likely < on:  # the likely day has passed without telling that it was the last
        return (Piece(f"last frost by {late}" + (" in 9 of 10" if wide else ""), "cold"),)
    bound = (f", by {late} in 9 of 10" if wide else f", by {late}") if late else ""
    return (Piece(f"last frost {'about ' if wide else ''}{day}{bound}", "cold"),)
