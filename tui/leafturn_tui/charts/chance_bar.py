"""A chance with its range as a bar that runs out like a stair, and a mark where it is enough."""

from __future__ import annotations

from leafturn_tui.charts.heights import STAIR, Cell, hill, pieces, pieces_drawn
from leafturn_tui.text.layout import Piece

STEPS = "▆▄▂"  # up to the low value it is sure, up to the likely one likely, up to the high one perhaps


def chance_bar(
    low: float, likely: float, high: float, cells: int, enough: float | None = None
) -> tuple[Piece, ...]:
    """A bar of so many cells for ten springs.

    Parameters
    ----------
    low, likely, high : float
        Chances; one case in ten lies below `low`, one above `high`.
    cells : int
    enough : float or None
        Where a mark stands, and from where on the bar is drawn as enough; None for no mark.
    """
    tone = "f_well" if enough is None or likely >= enough else "f_amber"
    mark = None if enough is None else round(enough * cells)
    line: list[Cell] = []
    for n in range(cells):
        at = (n + 0.5) / cells
        step = next((sign for end, sign in zip((low, likely, high), STEPS, strict=True) if at <= end), "")
        if step:
            line.append((step, tone))
        elif n == mark:
            line.append(("│", "dim"))
        else:
            line.append(("·" if n % 2 == 0 else " ", "faint"))
    return pieces_drawn(line, STAIR)


def enough_mark(enough: float, cells: int) -> str:
    """A line over the mark of bars, with what it means."""
    return " " * round(enough * cells) + "│ enough"


def heights(values: list[float], tone: str = "f_well") -> tuple[Piece, ...]:
    """Chances of years to come as heights, two cells a year."""
    return pieces([(hill(value), tone) for value in values for _ in range(2)])
