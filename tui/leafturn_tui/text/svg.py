"""Rows as a drawing in SVG 1.1: blocks, lines and dots are drawn, words set cell by cell, so that no viewer
moves them, whatever font it has."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from xml.sax.saxutils import escape

from rich.cells import cell_len

from leafturn_tui.text.layout import Row
from leafturn_tui.text.styles import PAGE, Look

WIDE, HIGH = 8.4, 17.0  # of a cell, in user units
FONT = "ui-monospace, 'DejaVu Sans Mono', Menlo, Consolas, monospace"
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
INK_OF_PRINT, PAPER = "#21251b", "#ffffff"


def svg_of(rows: Sequence[Row], look: Look, columns: int, title: str) -> str:
    """A drawing of some rows.

    Parameters
    ----------
    rows : sequence of Row
    look : Look
        `none` is drawn in black on white.
    columns : int
        Width [cells].
    title : str
        What the drawing shows, for those who hear it.
    """
    wide, high = columns * WIDE, len(rows) * HIGH
    ground = look.hexes(PAGE)[1] or PAPER
    body = "\n".join(part for n, row in enumerate(rows) for part in _row(row, n * HIGH, look))
    said = "\n".join(row.text.rstrip() for row in rows)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {wide:g} {high:g}" '
        f'width="{wide:g}" height="{high:g}" role="img">\n'
        f"<title>{escape(title)}</title>\n<desc>{escape(said)}</desc>\n"
        f'<rect width="100%" height="100%" fill="{ground}"/>\n'
        f'<g font-family="{FONT}" font-size="14">\n{body}\n</g>\n</svg>\n'
    )


def _row(row: Row, top: float, look: Look) -> Iterator[str]:
    at = 0.0
    for piece in row.pieces:
        ink, ground, bold = look.hexes(piece.tone)
        width = cell_len(piece.text) * WIDE
        if ground:
            yield f'<rect x="{at:g}" y="{top:g}" width="{width:g}" height="{HIGH:g}" fill="{ground}"/>'
        yield from _letters(piece.text, at, top, ink or INK_OF_PRINT, bold)
        at += width


def _letters(text: str, left: float, top: float, ink: str, bold: bool) -> Iterator[str]:
    """Drawn signs one by one, words as they stand between blanks."""
    at = left
    for drawn, run in groupby(text, key=_is_drawn):
        part = "".join(run)
        if drawn:
            for sign in part:
                yield from _sign(sign, at, top, ink)
                at += WIDE
            continue
        for word_is, letters in groupby(part, key=lambda letter: letter != " "):
            word = "".join(letters)
            width = cell_len(word) * WIDE
            if word_is:
                weight = ' font-weight="bold"' if bold else ""
                yield (
                    f'<text x="{at:g}" y="{top + HIGH * 0.76:g}" textLength="{width:g}" '
                    f'lengthAdjust="spacingAndGlyphs" fill="{ink}"{weight}>{escape(word)}</text>'
                )
            at += width


def _is_drawn(sign: str) -> bool:
    return sign in EIGHTHS or sign in LINES or sign in DISCS or sign in "▀▌░" or 0x2800 <= ord(sign) <= 0x28FF


def _sign(sign: str, x: float, y: float, ink: str) -> Iterator[str]:
    if sign in EIGHTHS:
        height = HIGH * (EIGHTHS.index(sign) + 1) / 8
        yield _box(x, y + HIGH - height, WIDE, height, ink)
    elif sign == "▀":
        yield _box(x, y, WIDE, HIGH / 2, ink)
    elif sign == "▌":
        yield _box(x, y, WIDE / 2, HIGH, ink)
    elif sign == "░":
        yield _box(x, y, WIDE, HIGH, ink, ' opacity="0.25"')
    elif sign in DISCS:
        yield f'<circle cx="{x + WIDE / 2:g}" cy="{y + HIGH / 2:g}" r="{DISCS[sign]:g}" fill="{ink}"/>'
    elif sign in LINES:
        yield from _line(sign, x, y, ink)
    else:
        yield from _braille(ord(sign) - 0x2800, x, y, ink)


def _line(sign: str, x: float, y: float, ink: str) -> Iterator[str]:
    left, right, up, down, thick = LINES[sign]
    middle, centre = y + HIGH / 2 - thick / 2, x + WIDE / 2 - thick / 2
    if left or right:
        start = x if left else centre
        long = (x + WIDE if right else centre + thick) - start
        yield _box(start, middle, long * (0.6 if sign in DASHED else 1), thick, ink)
    if up or down:
        start = y if up else middle
        long = (y + HIGH if down else middle + thick) - start
        yield _box(centre, start, thick, long * (0.6 if sign in DASHED else 1), ink)


def _braille(bits: int, x: float, y: float, ink: str) -> Iterator[str]:
    """The dots of one cell; bits run down the left column, then the right, the lowest pair last (Unicode)."""
    places = [(0, 0), (0, 1), (0, 2), (1, 0), (1, 1), (1, 2), (0, 3), (1, 3)]
    for bit, (column, row) in enumerate(places):
        if bits >> bit & 1:
            cx, cy = x + WIDE * (0.25 + 0.5 * column), y + HIGH * (0.125 + 0.25 * row)
            yield f'<circle cx="{cx:g}" cy="{cy:g}" r="1.3" fill="{ink}"/>'


def _box(x: float, y: float, wide: float, high: float, ink: str, more: str = "") -> str:
    return f'<rect x="{x:g}" y="{y:g}" width="{wide:g}" height="{high:g}" fill="{ink}"{more}/>'
