"""A few prepared rows, drawn as they are."""

from __future__ import annotations

from collections.abc import Sequence

from rich.segment import Segment
from textual.geometry import Size
from textual.reactive import Reactive
from textual.strip import Strip
from textual.widget import Widget

from leafturn_tui.text.layout import Row
from leafturn_tui.text.styles import Look


def strip_of(row: Row, width: int, look: Look, base: str = "ink on ground") -> Strip:
    """The row as one line of exactly `width` cells, on the ground that `base` names."""
    under = look.style(base)
    pieces = [p for p in row.pieces if p.text]
    segments = [Segment(p.text, under + look.style(p.tone) if p.tone else under) for p in pieces]
    return Strip(segments).adjust_cell_length(width, under)


class Lines(Widget):
    """As many lines as there are rows."""

    DEFAULT_CSS = "Lines { height: 0; width: 1fr; }"
    virtual_size = Reactive(Size(0, 0))  # it asks for no second layout

    def __init__(self, look: Look, id: str) -> None:
        super().__init__(id=id)
        self._look = look
        self._rows: Sequence[Row] = ()
        self._season = look.season  # in which they were drawn

    @property
    def rows(self) -> Sequence[Row]:
        """What is shown."""
        return self._rows

    def show(self, rows: Sequence[Row], fill: bool = False) -> None:
        """Show these rows and be as tall as they are many; `fill` leaves the height to the style sheet.

        Rows that are shown already cost nothing.
        """
        if rows == self._rows and self._season == self._look.season:
            return
        self._season = self._look.season
        if len(rows) != len(self._rows) and not fill:
            self.styles.height = len(rows)
        self._rows = rows
        self.refresh()

    def render_line(self, y: int) -> Strip:
        """One line of the screen."""
        if y >= len(self._rows):
            return Strip.blank(self.size.width, self._look.page)
        return strip_of(self._rows[y], self.size.width, self._look)
