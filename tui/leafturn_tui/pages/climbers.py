"""Page 5: every climber, how far it has grown since its cut, and whether its host bears it."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from leafturn.answers.climbers import ClimberView
from leafturn_tui.pages.base import Page
from leafturn_tui.pages.told import told_of
from leafturn_tui.panels.sentences import Sheet
from leafturn_tui.render.climbers import QUESTION, climber_groups, growth_words, training_words
from leafturn_tui.text.layout import MARGINS, Column, Piece, Row, columns, paragraph, piece

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

HOST_FROM = 70
CUT_FROM = 90  # columns; where there are fewer the next cut stands below


class ClimbersPage(Page, key="5", question=QUESTION):
    """Which climber is too much for its host?"""

    def rows(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """Two lines a climber, the hardest on its host first: the load, and below it the growth."""
        climbers = sorted(almanac.climbers(), key=lambda c: c.verdict != "too much")
        if not climbers:
            return paragraph("No climber is in the garden file.", width)
        table = [self._cells(c, width) for c in climbers]
        shape = [Column(16, 8), Column(20, 8), *([Column(22, 8)] if width + MARGINS >= HOST_FROM else [])]
        rows: list[Row] = []
        shape = [*shape[: len(table[0]) - 1], Column()]
        for climber, line in zip(climbers, columns(table, shape, width), strict=True):
            rows.append(Row(line, climber.plant, " ".join(climber.says[:2]), climber.plant))
            if width + MARGINS < CUT_FROM:
                rows += paragraph(climber.next_cut, width, _tone(climber), indent=3)
            rows += paragraph(growth_words(climber, almanac.on), width, "quiet", indent=3)
            if climber.train_by is not None:
                rows += paragraph(training_words(climber), width, "lacks", indent=3)
        return rows

    def _cells(self, climber: ClimberView, width: int) -> list[Piece]:
        tone = "lacks" if climber.verdict == "too much" else ""
        cells = [piece(climber.plant), piece(climber.verdict, tone)]
        if width + MARGINS >= HOST_FROM:
            state = f", {climber.host_state}" if climber.host_state not in ("", "well") else ""
            cells.append(piece(f"{climber.host or 'no host given'}{state}"))
        if width + MARGINS >= CUT_FROM:
            cells.append(piece(climber.next_cut, _tone(climber)))
        return cells

    def why(self, almanac: AlmanacFace, row: Row) -> Sheet | None:
        """What its growth and its load come to, and from what."""
        climber = _climber(almanac, row.key)
        return None if climber is None else Sheet(f"{climber.plant}: {climber.verdict}", climber.says)

    def opened(self, almanac: AlmanacFace, row: Row) -> Page | None:
        """The climber on its host."""
        climber = _climber(almanac, row.key)
        title = f"{row.key} on {climber.host}" if climber and climber.host else row.key
        return (
            None
            if climber is None
            else told_of(title, partial(_climber, plant=row.key), climber_groups, row.key)
        )


def _tone(climber: ClimberView) -> str:
    return "due" if climber.cut_due else "quiet"


def _climber(almanac: AlmanacFace, plant: str) -> ClimberView | None:
    return next((c for c in almanac.climbers() if c.plant == plant), None)
