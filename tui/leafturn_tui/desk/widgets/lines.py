"""A few prepared rows, drawn as they are."""

from __future__ import annotations

from collections.abc import Sequence

from textual.geometry import Size
from textual.reactive import Reactive
from textual.strip import Strip
from textual.widget import Widget

from leafturn_tui.desk.bar_list import steps_of
from leafturn_tui.text.drawn import segments_of
from leafturn_tui.text.layout import Row
from leafturn_tui.text.styles import PAGE, Look


def strip_of(row: Row, base: str, width: int, look: Look) -> Strip:
    """The row as one line of exactly `width` cells, on the ground that `base` names."""
    return Strip(segments_of(row, base, width, look), width)


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


class Scrolled(Lines):
    """As tall as it is told to be; rows that find no room are scrolled to."""

    def __init__(self, look: Look, id: str) -> None:
        super().__init__(look, id)
        self._top = self._height = 0

    def show_in(self, height: int, rows: Sequence[Row]) -> None:
        """Show these rows, or as many of them as find room, other ones from their beginning."""
        if rows != self._rows:
            self._top = 0
        self._height = height
        self.styles.height = height
        self.show(rows)
        self._scroll(0)

    def _grow(self, lines: int) -> None:
        """Its height is not that of what it tells."""

    @property
    def out_of_sight(self) -> tuple[int, int]:
        """How many rows lie above and below what is on screen."""
        return self._top, max(0, len(self._rows) - self._top - self._height)

    def scroll_by(self, key: str) -> None:
        """Scroll as far as a key moves."""
        self._scroll(steps_of(key, self._height))

    def _scroll(self, steps: int) -> None:
        before = self._top
        self._top = max(0, min(before + steps, len(self._rows) - self._height))
        if before != self._top:
            self.refresh()

    def render_line(self, y: int) -> Strip:
        """One line of the screen."""
        return super().render_line(y + self._top)
