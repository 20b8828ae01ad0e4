"""A climber on its host: from the ground to the host's top, and how far up it stands now."""

from __future__ import annotations

from leafturn_tui.charts.heights import FILLED, Cell, pieces_drawn
from leafturn_tui.text.layout import Piece


def load_bar(share: float | None, too_much: bool, cells: int) -> tuple[Piece, ...]:
    """A bar of so many cells, the last of them the host's top.

    Parameters
    ----------
    share : float or None
        The climber's height over that of its host, 1 at the top and more past it; None if nobody knows.
    too_much : bool
        Whether the host does not bear it.
    cells : int
    """
    top = cells - 1
    if share is None:
        return pieces_drawn([*[("┄", "faint")] * top, ("┃", "ink")], FILLED)
    filled = max(0, min(top, round(share * top)))
    tone = "f_amber" if too_much or share > 1 else "f_well"
    line: list[Cell] = [("▄", tone)] * filled + [("─", "faint")] * (top - filled)
    return pieces_drawn([*line, ("┃", "f_amber" if share > 1 else "ink")], FILLED)
