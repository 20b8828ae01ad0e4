"""Chances as heights of a cell, and cells as pieces: the taller, the surer."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from itertools import groupby

from leafturn_tui.charts.braille import EMPTY, Dots
from leafturn_tui.text.layout import Piece

BLOCKS = " ▁▂▃▄▅▆▇█"
LEAST = 0.08  # a smaller chance is left blank
HILL = 7  # eighths that a hill fills at the most, so that a gap stays between rows

# In ASCII: a bar that runs out, one up to a height, and a hill several rows high.
STAIR = str.maketrans("▆▄▂·│", "=-..|")
FILLED = str.maketrans("▄─┄┃", "=-.|")
HILLS = str.maketrans(BLOCKS[1:], "....::::")

Cell = tuple[str, str]  # one character and its tone


def hill(chance: float) -> str:
    """A chance as the height of one cell; a blank where there is next to none."""
    return BLOCKS[max(1, min(HILL, int(9 * chance)))] if chance >= LEAST else " "


def slope(chance: float) -> str:
    """The same up to the full cell, for what lies behind all rows."""
    return BLOCKS[max(1, min(8, int(8.9 * chance)))] if chance >= LEAST / 2 else " "


def column(value: float, rows: int) -> list[str]:
    """A value of 0 to 1 as a column of cells, the topmost first."""
    eighths = round(value * rows * 8)
    return [BLOCKS[max(0, min(8, eighths - 8 * below))] for below in range(rows - 1, -1, -1)]


def laid_on(cell: Cell, sign: str, tone: str) -> Cell:
    """A sign in a tone of its own, on the ground that a cell has."""
    ground = cell[1].partition(" on ")[2]
    return sign, f"{tone} on {ground}" if ground else tone


def lay(cells: list[Cell], at: int, text: str, tone: str) -> None:
    """Letters laid on the ground that is there, from one cell on."""
    for n, letter in enumerate(text, at):
        cells[n] = laid_on(cells[n], letter, tone)


def lay_dots(field: list[list[Cell]], dots: Dots, tone: str) -> None:
    """The cells in which dots are set, on the ground that is there."""
    for r, cells in enumerate(field):
        for n, cell in enumerate(cells):
            if (sign := dots.cell(n, r)) != EMPTY:
                cells[n] = laid_on(cell, sign, tone)


def pieces(cells: Iterable[Cell]) -> tuple[Piece, ...]:
    """Cells as pieces, like tones joined."""
    return tuple(
        Piece("".join(character for character, _ in run), tone)
        for tone, run in groupby(cells, key=lambda cell: cell[1])
    )


def pieces_drawn(cells: Iterable[Cell], plain: Mapping[int, int]) -> tuple[Piece, ...]:
    """Cells as pieces with signs of their own in ASCII, so that nobody takes them for figures."""
    return tuple(p._replace(plain=p.text.translate(plain)) for p in pieces(cells))


def placed(words: Sequence[tuple[int, str, str]], width: int) -> list[Cell]:
    """Words at their columns on one line; the first given win, and none that finds no room is cut."""
    line: list[Cell] = [(" ", "")] * width
    for at, text, tone in words:
        around = line[max(0, at - 1) : at + len(text) + 1]
        if at >= 0 and at + len(text) <= width and all(cell[0] == " " for cell in around):
            line[at : at + len(text)] = [(character, tone) for character in text]
    return line
