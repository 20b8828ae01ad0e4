"""How far the year is, as a row of cells: the usual band, its middle, and where this year stands."""

from __future__ import annotations

from leafturn_tui.text.layout import Piece

HALF = 6  # cells on each side of the middle
DAYS_A_CELL = 3.5


def gauge(days_ahead: int, behind: int, ahead: int) -> tuple[Piece, ...]:
    """A gauge of 13 cells; early lies to the right.

    Parameters
    ----------
    days_ahead : int
        How far this year stands before the usual one; negative: behind.
    behind, ahead : int
        Where eight past years in ten stood on this day, in the same days.
    """
    first, last, at = (_cell(days) for days in (behind, ahead, days_ahead))
    pieces = []
    for cell in range(-HALF, HALF + 1):
        if cell == at:
            pieces.append(Piece("●", "*sun"))
        elif cell == 0:
            pieces.append(Piece("┃", "dim"))
        elif first <= cell <= last:
            pieces.append(Piece("━", "dim"))
        else:
            pieces.append(Piece("┄", "faint"))
    return tuple(pieces)


def _cell(days: int) -> int:
    return max(-HALF, min(HALF, round(days / DAYS_A_CELL)))
