"""A few prepared rows, drawn as they are."""

from __future__ import annotations

from collections.abc import Sequence

from rich.segment import Segment
from textual.geometry import Size
from textual.reactive import Reactive
from textual.strip import Strip
from textual.widget import Widget

from leafturn_tui.text.glyphs import plain
from leafturn_tui.text.layout import Piece, Row
from leafturn_tui.text.styles import PAGE, Look

DIVIDED = (Piece("│", "faint"), Piece(" "))
MORE = Row((Piece("… w and Enter tell more", "dim"),))


def strip_of(row: Row, base: str, width: int, look: Look) -> Strip:
    """The row as one line of exactly `width` cells, on the ground that `base` names."""
    under = look.style(base)
    pieces = [p for p in row.pieces if p.text]
    segments = [
        Segment(
            (p.plain or plain(p.text)) if look.plain else p.text,
            under + look.style(p.tone) if p.tone else under,
        )
        for p in pieces
    ]
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

    def show(self, rows: Sequence[Row]) -> None:
        """Show these rows and be as tall as they are many; rows that are shown already cost nothing."""
        if rows == self._rows and self._season == self._look.season:
            return
        self._season = self._look.season
        if len(rows) != len(self._rows):
            self._grow(len(rows))
        self._rows = rows
        self.refresh()

    def _grow(self, lines: int) -> None:
        self.styles.height = lines

    def render_line(self, y: int) -> Strip:
        """One line of the screen."""
        if y >= len(self._rows):
            return Strip.blank(self.size.width, self._look.page)
        return strip_of(self._rows[y], PAGE, self.size.width, self._look)


class Story(Lines):
    """As tall as the style sheet says, right of a line; what finds no room is told to be missing."""

    DEFAULT_CSS = "Story { height: 1fr; width: 1fr; }"

    def _grow(self, lines: int) -> None:
        """Its height is not that of what it tells."""

    def render_line(self, y: int) -> Strip:
        """One line of the screen."""
        return strip_of(beside_list(self._rows, y, self.size.height), PAGE, self.size.width, self._look)


def beside_list(story: Sequence[Row], y: int, height: int) -> Row:
    """A line of what is told beside the list; the last says where there is no room for all."""
    row = story[y] if y < len(story) else Row(())
    if y == height - 1 and len(story) > height:
        row = MORE
    return Row((*DIVIDED, *row.pieces))
