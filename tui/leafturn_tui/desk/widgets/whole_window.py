"""The whole window as one widget: what stands on it are lines, and only what has changed is painted."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from textual.geometry import Region, Size
from textual.reactive import Reactive
from textual.strip import Strip
from textual.widget import Widget

from leafturn_tui.desk.kept_picture import Line
from leafturn_tui.desk.widgets.lines import strip_of
from leafturn_tui.text.styles import Look


class WholeWindow(Widget):
    """Draws lines that are made of stretches. To turn to another page lays nothing out anew.

    Parameters
    ----------
    painted : callable, optional
        Called once, when lines have been painted for the first time.
    """

    DEFAULT_CSS = "WholeWindow { width: 1fr; height: 1fr; }"
    virtual_size = Reactive(Size(0, 0))  # it asks for no second layout

    def __init__(
        self, look: Look, lines: Sequence[Line] = (), painted: Callable[[], None] | None = None
    ) -> None:
        super().__init__()
        self._painted = painted
        self._look = look
        self._season = look.season  # in which they were drawn
        self._lines = lines
        self._strips: dict[int, Strip] = {}  # as drawn, by line

    def show(self, lines: Sequence[Line]) -> None:
        """Show these lines; those that stand there already cost nothing."""
        before, self._lines = self._lines, lines
        if self._season != self._look.season or len(before) != len(lines):
            self._season = self._look.season
            self._strips.clear()
            self.refresh()
            return
        changed = [y for y, (old, new) in enumerate(zip(before, lines, strict=True)) if old != new]
        for y in changed:
            self._strips.pop(y, None)
        if changed:
            self.refresh(*(part for y in changed for part in _differing(before[y], lines[y], y)))

    def render_lines(self, crop: Region) -> list[Strip]:
        """The lines of a part of the window, as Textual wants them."""
        if self._painted is not None and self._lines:
            self.call_later(self._painted)
            self._painted = None
        return [self._strip(y).crop(*crop.column_span) for y in crop.line_range]

    def _strip(self, y: int) -> Strip:
        if y not in self._strips:
            parts = self._lines[y] if y < len(self._lines) else ()
            drawn = [strip_of(part.row, part.ground, part.width, self._look) for part in parts]
            self._strips[y] = Strip.join(drawn).adjust_cell_length(self.size.width, self._look.page)
        return self._strips[y]

    def on_resize(self) -> None:
        """Drawn anew as wide as it is now."""
        self._strips.clear()


def _differing(before: Line, after: Line, y: int) -> list[Region]:
    """Where a line has changed: single stretches if it is divided as before, else all of it."""
    if [part.width for part in before] != [part.width for part in after]:
        return [Region(0, y, sum(part.width for part in after), 1)]
    regions, x = [], 0
    for old, new in zip(before, after, strict=True):
        if old != new:
            regions.append(Region(x, y, new.width, 1))
        x += new.width
    return regions
