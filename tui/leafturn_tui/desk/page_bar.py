"""The first line: all pages by their key, the one that is shown, and where something waits."""

from __future__ import annotations

from collections.abc import Sequence

from rich.cells import cell_len

from leafturn.base.value import Value
from leafturn_tui.text.layout import Piece, Row

WIDE = 110  # columns from which names stand apart, and the story beside the list
RAISED = "ink on raised"


class Tab(Value, kw_only=False):
    """A page on the bar: its key, its name, how many things wait there and in which tone that is said."""

    key: str
    name: str
    waiting: int = 0
    tone: str = "amber"


def page_bar(tabs: Sequence[Tab], shown: str, width: int) -> Row:
    """The pages in one line; where it is too narrow for all names the last ones give way to their key.

    Parameters
    ----------
    tabs : sequence of Tab
    shown : str
        Key of the page that is shown; empty if it lies on none of them.
    width : int [cells]
    """
    wide = width >= WIDE
    for named in range(len(tabs), -1, -1):
        pieces = [Piece(" ", RAISED)]
        for n, tab in enumerate(tabs):
            pieces += _tab(tab, tab.key == shown, wide, n < named or tab.key == shown)
        if sum(cell_len(p.text) for p in pieces) <= width:
            break
    used = sum(cell_len(p.text) for p in pieces)
    return Row((*pieces, Piece(" " * (width - used), RAISED)))


def _tab(tab: Tab, is_shown: bool, wide: bool, named: bool) -> list[Piece]:
    ground = "accent" if is_shown else "raised"
    key = Piece(tab.key, "*ground on accent" if is_shown else f"dim on {ground}")
    said = (" " if wide else "") + tab.name if named else ""
    name = Piece(said, "*ground on accent" if is_shown else RAISED)
    if not tab.waiting:
        return [key, name, Piece("   " if wide else " ", RAISED)]
    if not wide:
        return [key, name, Piece("•", f"{tab.tone} on raised")]
    return [key, name, Piece(f"•{tab.waiting} ", f"{tab.tone} on raised")]
