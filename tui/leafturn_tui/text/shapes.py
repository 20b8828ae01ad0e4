"""Rows as shapes: blocks, lines and dots are drawn, words stand at their cells, so no font moves them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import NamedTuple

from rich.cells import cell_len

from leafturn.base.patterns import pattern
from leafturn_tui.text.layout import Row
from leafturn_tui.text.styles import Look

WIDE, HIGH = 8.0, 16.0  # of a cell, in units of the drawing: whole, so that places take few digits
TYPE = 13.3  # of letters, in the same units: a cell wide where they take 0.6 of their height, as most do
BASE = 0.75  # of a cell's height from its top to the line that words stand on
EIGHTHS = "▁▂▃▄▅▆▇█"
THIN, THICK = 1.2, 2.6
# Each line as (left, right, up, down, thickness): which halves of the cell it crosses.
LINES = {
    "─": (1, 1, 0, 0, THIN),
    "━": (1, 1, 0, 0, THICK),
    "┄": (1, 1, 0, 0, THIN),
    "│": (0, 0, 1, 1, THIN),
    "┃": (0, 0, 1, 1, THICK),
    "┊": (0, 0, 1, 1, THIN),
    "└": (0, 1, 1, 0, THIN),
    "┘": (1, 0, 1, 0, THIN),
    "┴": (1, 1, 1, 0, THIN),
}
DASHED = "┄┊"
DISCS = {"●": 3.2, "•": 2.2, "·": 0.9}
DOT = 1.3  # radius of a dot of braille
INK = "#21251b"  # where a tone leaves it to the paper
FAINT = 0.25  # how much of a shaded cell is inked
COLUMNS = pattern(r"( {2,}|^ | $)")  # blanks that part one column from the next, or stand at an edge


class Box(NamedTuple):
    """A filled rectangle from its upper left corner; `opacity` from 0 to 1."""

    x: float
    y: float
    wide: float
    high: float
    colour: str
    opacity: float = 1.0


class Disc(NamedTuple):
    """A filled circle."""

    x: float
    y: float
    radius: float
    colour: str


class Words(NamedTuple):
    """Words from the left end of the line they stand on, no wider than `room`, in type of some size."""

    x: float
    y: float
    room: float
    text: str
    colour: str
    bold: bool
    size: float = TYPE


Shape = Box | Disc | Words


def shapes_of(rows: Sequence[Row], look: Look) -> Iterator[Shape]:
    """The shapes of some rows: the grounds of all pieces, then what stands on them.

    Parameters
    ----------
    rows : sequence of Row
    look : Look
        `none` is drawn in black on white.
    """
    yield from grounds_of(rows, look)
    yield from signs_of(rows, look)


def grounds_of(rows: Sequence[Row], look: Look) -> Iterator[Box]:
    """What lies under words and signs; neighbours of one colour are one box."""
    for n, row in enumerate(rows):
        at = 0.0
        for ground, pieces in groupby(row.pieces, key=lambda piece: look.hexes(piece.tone)[1]):
            width = sum(cell_len(piece.text) for piece in pieces) * WIDE
            if ground:
                yield Box(at, n * HIGH, width, HIGH, ground)
            at += width


def signs_of(rows: Sequence[Row], look: Look) -> Iterator[Shape]:
    """Words and drawn signs, row by row from the left; none lies over another."""
    for n, row in enumerate(rows):
        at = 0.0
        for piece in row.pieces:
            ink, _, bold = look.hexes(piece.tone)
            yield from _letters(piece.text, at, n * HIGH, ink or INK, bold)
            at += cell_len(piece.text) * WIDE


def _letters(text: str, left: float, top: float, ink: str, bold: bool) -> Iterator[Shape]:
    """Drawn signs as they follow each other, words as they stand between columns."""
    at = left
    for drawn, run in groupby(text, key=lambda sign: sign if _is_drawn(sign) else ""):
        part = "".join(run)
        if drawn:
            yield from _signs(drawn, len(part), at, top, ink)
            at += len(part) * WIDE
            continue
        for words in COLUMNS.split(part):
            width = cell_len(words) * WIDE
            if words.strip():
                yield Words(at, top + HIGH * BASE, width, words, ink, bold)
            at += width


def _is_drawn(sign: str) -> bool:
    return sign in EIGHTHS or sign in LINES or sign in DISCS or sign in "▀▌░" or 0x2800 <= ord(sign) <= 0x28FF


def _signs(sign: str, count: int, x: float, y: float, ink: str) -> Iterator[Shape]:
    """So many of one sign in a row; what fills the width of its cell is one box for all."""
    if sign in EIGHTHS:
        height = HIGH * (EIGHTHS.index(sign) + 1) / 8
        yield Box(x, y + HIGH - height, WIDE * count, height, ink)
    elif sign == "▀":
        yield Box(x, y, WIDE * count, HIGH / 2, ink)
    elif sign == "░":
        yield Box(x, y, WIDE * count, HIGH, ink, FAINT)
    elif sign in "─━":
        thick = LINES[sign][-1]
        yield Box(x, y + HIGH / 2 - thick / 2, WIDE * count, thick, ink)
    else:
        for n in range(count):
            yield from _sign(sign, x + n * WIDE, y, ink)


def _sign(sign: str, x: float, y: float, ink: str) -> Iterator[Shape]:
    if sign == "▌":
        yield Box(x, y, WIDE / 2, HIGH, ink)
    elif sign in DISCS:
        yield Disc(x + WIDE / 2, y + HIGH / 2, DISCS[sign], ink)
    elif sign in LINES:
        yield from _line(sign, x, y, ink)
    else:
        yield from _braille(ord(sign) - 0x2800, x, y, ink)


def _line(sign: str, x: float, y: float, ink: str) -> Iterator[Shape]:
    left, right, up, down, thick = LINES[sign]
    middle, centre = y + HIGH / 2 - thick / 2, x + WIDE / 2 - thick / 2
    if left or right:
        start = x if left else centre
        long = (x + WIDE if right else centre + thick) - start
        yield Box(start, middle, long * (0.6 if sign in DASHED else 1), thick, ink)
    if up or down:
        start = y if up else middle
        long = (y + HIGH if down else middle + thick) - start
        yield Box(centre, start, thick, long * (0.6 if sign in DASHED else 1), ink)


def _braille(bits: int, x: float, y: float, ink: str) -> Iterator[Shape]:
    """The dots of one cell; bits run down the left column, then the right, the lowest pair last (Unicode)."""
    places = [(0, 0), (0, 1), (0, 2), (1, 0), (1, 1), (1, 2), (0, 3), (1, 3)]
    for bit, (column, row) in enumerate(places):
        if bits >> bit & 1:
            cx, cy = x + WIDE * (0.25 + 0.5 * column), y + HIGH * (0.125 + 0.25 * row)
            yield Disc(cx, cy, DOT, ink)
