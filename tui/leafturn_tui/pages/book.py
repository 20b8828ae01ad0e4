"""Page 9: what was noted, newest first; what the notes taught; how far forecasts missed; what was lost."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from leafturn.journal.book import BookLine
from leafturn.journal.entries import Withdrawal
from leafturn_tui.host import Key, Slow
from leafturn_tui.pages.base import Page
from leafturn_tui.pages.learnt import need_rows, need_sheet
from leafturn_tui.pages.scores import score_rows
from leafturn_tui.pages.survival import survival_rows
from leafturn_tui.panels.sentences import Sheet
from leafturn_tui.render.book import QUESTION
from leafturn_tui.text import phrases
from leafturn_tui.text.layout import (
    Column,
    Piece,
    Row,
    joined_rows,
    over_list,
    paragraph,
    piece,
    wrapped_columns,
)

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace
    from leafturn_tui.host import Host

WHEN = 12  # cells of a day
ASKED = {
    "notes": "What was noted?",
    "learnt": "What did the notes teach?",
    "score": "How far were forecasts off?",
    "survival": "What became of what was planted?",
}  # by view
VIEWS = tuple(ASKED)


class BookPage(Page, key="9", question=QUESTION):
    """What have we noted?"""

    def __init__(self) -> None:
        self.view = 0

    def keys(self) -> tuple[Key, ...]:
        """The next view."""
        following = VIEWS[(self.view + 1) % len(VIEWS)]
        return (Key("v", following, "notes, what they taught, scores, what was lost", self._turn),)

    def slow(self, almanac: AlmanacFace) -> Slow | None:
        """Forecasts of past springs, made again as they stood before each note."""
        if VIEWS[self.view] != "score" or almanac.ready("score"):
            return None
        return Slow("the forecasts of past seasons", almanac.score)

    def _turn(self, desk: Host) -> None:
        self.view = (self.view + 1) % len(VIEWS)
        desk.start_over()

    def sum(self, almanac: AlmanacFace) -> tuple[str, ...]:
        """How many notes count."""
        kept = sum(not line.taken_back for line in almanac.book())
        return (phrases.count(kept, "note"),) if kept else ()

    def heads(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """When, and what, over the notes."""
        if VIEWS[self.view] != "notes" or not almanac.book():
            return []
        heads = next(self._table(almanac, width))
        return [over_list(heads[0])]

    def rows(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """The view turned to."""
        return (self._notes, need_rows, score_rows, survival_rows)[self.view](almanac, width)

    def _notes(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """A line a note; those taken back say so."""
        lines = almanac.book()
        if not lines:
            return paragraph("Nothing is noted yet: b notes a bloom, h a harvest, n anything.", width)
        _, *laid = self._table(almanac, width)
        return [
            row
            for b, own in zip(lines, laid, strict=True)
            for row in joined_rows(own, b.entry.id, _said(b), b.entry.plant or b.entry.heap or "", b.entry.id)
        ]

    def _table(self, almanac: AlmanacFace, width: int) -> Iterator[list[tuple[Piece, ...]]]:
        """The heads, then the lines of each note."""
        notes = [
            (piece(phrases.day(b.entry.on, almanac.on)), piece(_said(b), "quiet" if b.taken_back else ""))
            for b in almanac.book()
        ]
        heads = (piece("when", "dim"), piece("what, and by whom", "dim"))
        return wrapped_columns([heads, *notes], (Column(WHEN, 6), Column()), width)

    def why(self, almanac: AlmanacFace, row: Row) -> Sheet | None:
        """The whole note and where it stands; of what was learnt all; in words what else a line counts."""
        if VIEWS[self.view] == "learnt" and row.plant:
            return need_sheet(almanac, row.plant)
        line = _line(almanac, row.about)
        if line is None and not row.plant:
            return Sheet(ASKED[VIEWS[self.view]], [row.sentence]) if row.why else None
        if line is None:
            return super().why(almanac, row)
        entry = line.entry
        where = f"Note {entry.id}" + (f", in {entry.file}" if entry.file else "")
        where += f", line {entry.line}." if entry.line else "."
        back = ["It was taken back and counts for nothing."] if line.taken_back else []
        return Sheet(f"noted on {phrases.long_day(entry.on)}", [line.words, *back, where])

    def taken_back(self, almanac: AlmanacFace, row: Row | None) -> str | None:
        """The note under the bar; for one already taken back, the note that did so."""
        line = _line(almanac, row.about) if row else None
        if line is None or not line.taken_back:
            return line.entry.id if line else None
        return next(
            (
                b.entry.id
                for b in almanac.book()
                if isinstance(b.entry, Withdrawal) and b.entry.entry == line.entry.id and not b.taken_back
            ),
            None,
        )


def _line(almanac: AlmanacFace, entry_id: str) -> BookLine | None:
    return next((b for b in almanac.book() if b.entry.id == entry_id), None)


def _said(line: BookLine) -> str:
    return f"(taken back) {line.words}" if line.taken_back else line.words
