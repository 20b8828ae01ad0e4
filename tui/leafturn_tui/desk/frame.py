"""What stands round a page's list: the head, the rule under the list, the reasons, the keys."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from leafturn_tui.desk.keys import SHOWN_WHEN_NARROW
from leafturn_tui.host import PageFace
from leafturn_tui.render.parts.heading import season_line
from leafturn_tui.text.layout import BLANK, Piece, Row, paragraph, piece, sides
from leafturn_tui.text.phrases import long_day

if TYPE_CHECKING:
    from textual.binding import Binding

    from leafturn_tui.almanac_face import AlmanacFace
    from leafturn_tui.host import PanelFace

LEAST_WIDTH, LEAST_HEIGHT = 40, 12
NARROW = 60
LOW = 18
TOO_SMALL = f"Make the window larger: at least {LEAST_WIDTH} columns and {LEAST_HEIGHT} lines."


@dataclass(frozen=True)
class Frame:
    """Room and circumstances for the rows round a list.

    Parameters
    ----------
    width, height : int
        The screen in cells.
    lost : str
        Why the garden can no longer be read; empty if it can.
    read_at : datetime
        When it was last read.
    """

    almanac: AlmanacFace
    page: PageFace
    width: int
    height: int
    lost: str
    read_at: dt.datetime

    @property
    def too_small(self) -> bool:
        """Whether there is no room for a page at all."""
        return self.width < LEAST_WIDTH or self.height < LEAST_HEIGHT

    def head(self) -> list[Row]:
        """The question and the day, heat and frost, a rule, and what the page has to say above its list."""
        width = self.width
        rows = [
            sides(" " + self.page.heading(self.almanac), self._day_and_place(), width),
            Row((Piece(" "), piece(season_line(self.almanac, width - 2)))),
        ]
        if self.lost:
            rows += paragraph(self.lost, width - 1, "fault", indent=1, most=2)
        return [*rows, rule(width), *self.page.top(self.almanac, width)[: self.height // 3]]

    def _day_and_place(self) -> list[str]:
        """The right side of the first line, longest wording first."""
        day, place = long_day(self.almanac.on), self.almanac.heading().place
        if self.lost:
            read = f"as read at {self.read_at:%H:%M}"
            return [f"{read}, {day}, {place} ", f"{read}, {day} ", f"{read} "]
        return [f"{day}, {place} " if place else f"{day} ", f"{day} ", f"{day[4:]} "]

    def foot(self, said: str, keys: Sequence[tuple[str, str]]) -> list[Row]:
        """One sentence, what the page has to say below its list, and the keys."""
        low = self.height < LOW
        lines = 1 if low else 2
        sentence = paragraph(said, self.width - 1, indent=1, most=lines) if said else []
        sentence += [BLANK] * (lines - len(sentence))
        below = self.page.below(self.almanac, self.width)
        return [*sentence, *(below[:1] if low else below), *key_rows(keys, self.width - 1)]

    def over(self, panel: PanelFace) -> list[Row]:
        """A panel with a rule above it, over at most the lower half."""
        most = min(max(6, self.height // 2), self.height - 5)
        return [rule(self.width), *panel.lines(self.width, most)]


def shown_keys(
    bindings: Iterable[tuple[str, Binding]], page: PageFace, steps_back: bool, width: int
) -> list[tuple[str, str]]:
    """The bindings that have a label, as key and label for the foot; fewer in a narrow window."""
    own = page.keys()
    narrow = {*SHOWN_WHEN_NARROW, *(key.name for key in own)}
    return [
        (binding.key_display or name, binding.description)
        for name, binding in bindings
        if binding.show and (steps_back or name != "escape") and (width >= NARROW or name in narrow)
    ]


def rule(width: int, words: str = "") -> Row:
    """A line across, with a few words in it if given."""
    said = f"─── {words} " if words else ""
    return Row((Piece(said + "─" * (width - len(said)), "quiet"),))


def hidden_rule(width: int, above: int, below: int) -> Row:
    """The line under a list, saying how many of its lines are out of sight."""
    hidden = [f"{n} more {where}" for n, where in ((above, "above"), (below, "below")) if n]
    return rule(width, ", ".join(hidden))


def key_rows(keys: Sequence[tuple[str, str]], width: int) -> list[Row]:
    """Keys and labels, wrapped so that none is left out."""
    rows: list[Row] = []
    line: list[Piece] = []
    used = 0
    for name, label in keys:
        wide = len(name) + 1 + len(label)
        if line and used + 2 + wide > width:
            rows.append(Row(tuple(line)))
            line, used = [], 0
        start = "  " if line else " "
        line += [Piece(start), Piece(name, "key"), piece(f" {label}")]
        used += len(start) + wide
    return [*rows, Row(tuple(line))] if line else rows
