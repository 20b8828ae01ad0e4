"""A long list of prepared rows with a bar on one of them, and which of them are in sight."""

from __future__ import annotations

from collections.abc import Sequence

from leafturn_tui.text.layout import Piece, Row
from leafturn_tui.text.styles import JOINED_TO_IT, PAGE, UNDER_BAR

WEEK_UNDER_BAR = (" on week", " on bar")  # the tint of every second week gives way to the bar


class BarList:
    """The rows of a page. Only those in sight are drawn, so that a long list costs as a short one."""

    def __init__(self) -> None:
        self.rows: Sequence[Row] = ()
        self.at = -1  # the row under the bar; -1 where there is none
        self.top = 0  # the first row in sight
        self.height = 0  # rows that find room
        self._stops: list[int] = []
        self._after = ""  # the key of the line below the bar
        self._onward = ""  # that key, once the line under the bar has gone below it: Down goes on there

    @property
    def current(self) -> Row | None:
        """The row under the bar."""
        return self.rows[self.at] if 0 <= self.at < len(self.rows) else None

    @property
    def near(self) -> list[Row]:
        """Lines that keys to come may lay the bar on: a screenful round it, nearest first, and both ends."""
        if self.at < 0:
            return []
        place = self._stops.index(self.at)
        around = self._stops[max(0, place - self.height) : place + self.height + 1]
        around = sorted(around, key=lambda n: abs(n - self.at))
        return [self.rows[n] for n in (*around, self._stops[-1], self._stops[0])]

    @property
    def out_of_sight(self) -> tuple[int, int, list[str]]:
        """How many rows lie above and below what is on screen, and the headings of those below."""
        below = self.rows[self.top + self.height :]
        return self.top, len(below), [row.text for row in below if row.is_heading]

    def show(self, rows: Sequence[Row], key: str = "", at: int = 0) -> None:
        """Take these rows, the bar on the one with this key, else as near to `at` as can be."""
        if rows is not self.rows:
            self.rows = rows
            self._stops = [n for n, r in enumerate(rows) if r.key]
        by_key = next((n for n in self._stops if key and rows[n].key == key), None)
        shown_again = by_key == at == self.at
        self.at = min(self._stops, key=lambda n: abs(n - at), default=-1) if by_key is None else by_key
        if any(rows[n].key == self._after for n in self._stops if at <= n < self.at):
            self._onward = self._after
        elif not shown_again:
            self._remember()

    def fit(self, height: int) -> None:
        """Scroll so that with so many rows on screen the bar, and any heading just above it, are there."""
        self.height = max(0, height)
        top = min(self.top, max(0, len(self.rows) - self.height))
        if self.height and self.at >= 0:
            first, last = self._with_heading()
            if first < top:
                top = first
            elif last >= top + self.height:
                top = last - self.height + 1
        self.top = top

    def _with_heading(self) -> tuple[int, int]:
        """The rows that are wanted on screen: under the last line all that end the list."""
        first = self.at
        while first > 0 and not self.rows[first - 1].key and self.at - first < self.height - 1:
            first -= 1
        if self.at == self._stops[-1]:
            return first, min(len(self.rows) - 1, first + self.height - 1)
        return first, end_of(self.rows, self.at) - 1

    def move(self, steps: int) -> None:
        """Move the bar by so many lines; scroll where no line can carry it.

        Of a line that was done and so went to the end, the next is the one that stood below it.
        """
        onward = next((n for n in self._stops if steps == 1 and self.rows[n].key == self._onward), None)
        if onward is not None:
            self.at = onward
        elif self._stops:
            place = min(max(self._stops.index(self.at) + steps, 0), len(self._stops) - 1)
            self.at = self._stops[place]
        else:
            self.top = max(0, self.top + steps)
        self._laid()

    def seek(self, letters: str, steps: int) -> tuple[int, int]:
        """Lay the bar on the first line that holds letters in any case, or a step on or back, and round.

        Returns
        -------
        which, of : int
            Which of all such lines it is, counted from 1; 0 and 0 where there is none.
        """
        sought = letters.lower()
        found = [n for n in self._stops if sought in self._words(n).lower()]
        if not found:
            return 0, 0
        after = sum(n <= self.at for n in found) if steps > 0 else sum(n < self.at for n in found) - 1
        which = after % len(found) if steps else 0
        self.at = found[which]
        self._laid()
        return which + 1, len(found)

    def _laid(self) -> None:
        """Bring the bar in sight where a key has laid it."""
        self.fit(self.height)
        self._remember()

    def _remember(self) -> None:
        """What stands below the bar."""
        self._after = next((self.rows[n].key for n in self._stops if n > self.at), "")
        self._onward = ""

    def _words(self, line: int) -> str:
        """A line with those joined to it, and what it is about."""
        rows = self.rows[line : end_of(self.rows, line)]
        return " ".join((*(row.text for row in rows), rows[0].plant))

    def marked_line(self, n: int, *, colours: bool) -> tuple[Row, str]:
        """A row with its mark, if it is under the bar, and the ground it stands on."""
        row = self.rows[n]
        marked = n == self.at or (row.joined and self.at < n < end_of(self.rows, self.at))
        sign = "▌" if colours else ">" if n == self.at else " "
        mark = Piece(f"{sign} " if marked else "  ", "*accent") if row.key or row.joined else Piece(" ")
        if not marked:
            return Row((mark, *row.pieces)), PAGE
        pieces = (p._replace(tone=p.tone.replace(*WEEK_UNDER_BAR)) for p in row.pieces)
        return Row((mark, *pieces)), UNDER_BAR if n == self.at else JOINED_TO_IT


def steps_of(key: str, height: int) -> int:
    """How far a key moves through a list of which so many rows are in sight; 0 for every other key."""
    screenful = max(1, height - 1)
    return {
        "up": -1, "down": 1, "pageup": -screenful, "pagedown": screenful, "home": -(10**7), "end": 10**7,
    }.get(key, 0)  # fmt: skip


def end_of(rows: Sequence[Row], line: int) -> int:
    """The first row after a line and those joined to it."""
    end = line + 1
    while end < len(rows) and rows[end].joined:
        end += 1
    return end
