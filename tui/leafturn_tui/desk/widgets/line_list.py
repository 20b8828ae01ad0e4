"""A long list of prepared rows with a bar on one of them."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from textual import events
from textual.geometry import Region, Size
from textual.reactive import Reactive
from textual.scroll_view import ScrollView
from textual.strip import Strip

from leafturn_tui.desk.widgets.lines import strip_of
from leafturn_tui.text.layout import Piece, Row
from leafturn_tui.text.styles import JOINED_TO_IT, PAGE, UNDER_BAR, Look

WEEK_UNDER_BAR = (" on week", " on bar")  # the tint of every second week gives way to the bar


class LineList(ScrollView, can_focus=False):
    """Draws only the lines on screen; moving the bar redraws two of them. Without `marks` there is no bar."""

    DEFAULT_CSS = "LineList { height: 1fr; scrollbar-size: 0 0; overflow: hidden scroll; }"
    virtual_size = Reactive(Size(0, 0))  # it asks for no second layout

    def __init__(self, look: Look, id: str, on_view: Callable[[], None], *, marks: bool = True) -> None:
        super().__init__(id=id)
        self._marks = marks
        self._look = look
        self._on_view = on_view
        self._rows: Sequence[Row] = ()
        self._season = look.season  # in which they were drawn
        self._stops: list[int] = []
        self.at = -1

    @property
    def rows(self) -> Sequence[Row]:
        """All the rows, on screen or not."""
        return self._rows

    @property
    def current(self) -> Row | None:
        """The row under the bar."""
        return self._rows[self.at] if 0 <= self.at < len(self._rows) else None

    def show(self, rows: Sequence[Row], key: str = "", at: int = 0) -> None:
        """Show these rows, the bar on the one with this key, else as near to `at` as can be."""
        before = (self._rows, self.at, self.size.width, self._season)
        self._rows = rows
        self._stops = [n for n, r in enumerate(rows) if r.key]
        self.at = resting_line(rows, key, at)
        self.virtual_size = Size(self.size.width, len(rows))
        self.keep_in_sight()
        self._season = self._look.season
        if before != (rows, self.at, self.size.width, self._season):
            self.refresh()

    def move(self, steps: int) -> None:
        """Move the bar by so many stops; scroll where no line can carry it."""
        if not self._stops:
            self.scroll_to(y=self.scroll_offset.y + steps, animate=False)
            return
        before = self.at
        place = min(max(self._stops.index(self.at) + steps, 0), len(self._stops) - 1)
        self.at = self._stops[place]
        self.keep_in_sight()
        for line in {before, self.at}:
            tall = end_of(self._rows, line) - line
            self.refresh(Region(0, line - self.scroll_offset.y, self.size.width, tall))

    def seek(self, letters: str, *, further: bool) -> tuple[int, int]:
        """Lay the bar on the first line that holds letters in any case, or on the next after it, and round.

        Returns
        -------
        which, of : int
            Which of all such lines it is, counted from 1; 0 and 0 where there is none.
        """
        sought = letters.lower()
        found = [n for n in self._stops if sought in self._words(n).lower()]
        if not found:
            return 0, 0
        which = next((i for i, n in enumerate(found) if n > self.at), 0) if further else 0
        self.at = found[which]
        self.keep_in_sight()
        self.refresh()
        return which + 1, len(found)

    def _words(self, line: int) -> str:
        """A line with those joined to it, and what it is about."""
        rows = self._rows[line : end_of(self._rows, line)]
        return " ".join((*(row.text for row in rows), rows[0].plant))

    def steps(self, key: str) -> int:
        """How far a key moves the bar; 0 for every other key."""
        screenful = max(1, self.size.height - 1)
        return {
            "up": -1, "down": 1, "pageup": -screenful, "pagedown": screenful, "home": -(10**7), "end": 10**7,
        }.get(key, 0)  # fmt: skip

    @property
    def out_of_sight(self) -> tuple[int, int]:
        """How many lines lie above and below what is on screen."""
        above = self.scroll_offset.y
        return above, max(0, len(self._rows) - above - self.size.height)

    def keep_in_sight(self) -> None:
        """Scroll so that the bar, and any heading just above it, are on screen."""
        height, top = self.size.height, self.scroll_offset.y
        if height <= 0 or self.at < 0:
            return
        first = self.at
        while first > 0 and not self._rows[first - 1].key and self.at - first < height - 1:
            first -= 1
        last = end_of(self._rows, self.at) - 1
        if self._stops and self.at == self._stops[-1]:
            last = min(len(self._rows) - 1, first + height - 1)
        if first < top:
            top = first
        elif last >= top + height:
            top = last - height + 1
        top = min(top, max(0, len(self._rows) - height))
        # By force: a list that has only just grown longer than its window is not yet known to scroll.
        self.scroll_to(y=top, animate=False, force=True)

    def on_resize(self, event: events.Resize) -> None:
        """The bar stays on screen."""
        self.keep_in_sight()
        self._on_view()

    def watch_scroll_y(self, old_value: float, new_value: float) -> None:
        """Other lines came into sight."""
        super().watch_scroll_y(old_value, new_value)
        self._on_view()

    def render_line(self, y: int) -> Strip:
        """One line of the screen."""
        n, width = y + self.scroll_offset.y, self.size.width
        if n >= len(self._rows):
            return Strip.blank(width, self._look.page)
        if not self._marks:
            return strip_of(self._rows[n], PAGE, width, self._look)
        return strip_of(*marked_line(self._rows, n, self.at, self._look.in_colour), width, self._look)


def end_of(rows: Sequence[Row], line: int) -> int:
    """The first row after a line and those joined to it."""
    end = line + 1
    while end < len(rows) and rows[end].joined:
        end += 1
    return end


def resting_line(rows: Sequence[Row], key: str, at: int) -> int:
    """The line with a key, else the one nearest to `at` on which the bar may rest; -1 if there is none."""
    stops = [n for n, r in enumerate(rows) if r.key]
    by_key = next((n for n in stops if key and rows[n].key == key), None)
    return min(stops, key=lambda n: abs(n - at), default=-1) if by_key is None else by_key


def marked_line(rows: Sequence[Row], n: int, at: int, colours: bool) -> tuple[Row, str]:
    """A line with its mark, if the bar is at line `at`, and the ground it stands on."""
    row = rows[n]
    marked = n == at or (row.joined and at < n < end_of(rows, at))
    sign = "▌" if colours else ">" if n == at else " "
    mark = Piece(f"{sign} " if marked else "  ", "*accent") if row.key or row.joined else Piece(" ")
    pieces = (p._replace(tone=p.tone.replace(*WEEK_UNDER_BAR)) for p in row.pieces) if marked else row.pieces
    return Row((mark, *pieces)), UNDER_BAR if n == at else JOINED_TO_IT if marked else PAGE
