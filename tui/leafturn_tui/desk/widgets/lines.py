"""A few prepared rows, drawn as they are."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from rich.segment import Segment
from rich.style import Style
from textual.strip import Strip
from textual.widget import Widget

from leafturn_tui.text.layout import Row
from leafturn_tui.text.styles import NOTHING


def strip_of(row: Row, width: int, styles: Mapping[str, Style], under_bar: bool = False) -> Strip:
    """The row as one line of exactly `width` cells."""
    base = styles.get("bar", NOTHING) if under_bar else NOTHING
    segments = [Segment(p.text, base + styles.get(p.tone, NOTHING)) for p in row.pieces if p.text]
    return Strip(segments).adjust_cell_length(width)


class Lines(Widget):
    """As many lines as there are rows."""

    DEFAULT_CSS = "Lines { height: 0; width: 1fr; }"

    def __init__(self, styles: Mapping[str, Style], id: str) -> None:
        super().__init__(id=id)
        self._look = styles
        self._rows: Sequence[Row] = ()

    @property
    def rows(self) -> Sequence[Row]:
        """What is shown."""
        return self._rows

    def show(self, rows: Sequence[Row]) -> None:
        """Show these rows and be as tall as they are many."""
        if len(rows) != len(self._rows):
            self.styles.height = len(rows)
        self._rows = rows
        self.refresh()

    def render_line(self, y: int) -> Strip:
        """One line of the screen."""
        if y >= len(self._rows):
            return Strip.blank(self.size.width)
        return strip_of(self._rows[y], self.size.width, self._look)
