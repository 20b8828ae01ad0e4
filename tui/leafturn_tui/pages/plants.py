"""Page 0: every plant of the garden."""

from __future__ import annotations

from typing import TYPE_CHECKING

from leafturn_tui.pages.base import Page
from leafturn_tui.rows import Column, Row, columns, paragraph, piece

if TYPE_CHECKING:
    from leafturn.almanac import Almanac

LINE_FROM = 76
WHERE_FROM = 50


class PlantsPage(Page):
    """What stands here?"""

    digit = "0"
    name = "Plants"
    question = "What stands here?"

    def rows(self, almanac: Almanac, width: int) -> list[Row]:
        """A line a plant: name, kind, where, and a few words."""
        cards = almanac.plants()
        if not cards:
            return paragraph(
                ' No plants yet. Write in the garden file: [[plant]] and below it kind = "pear".', width
            )
        shape = [Column(22, 10), Column(22, 8), Column(30, 10), Column()]
        shape = shape[: 4 if width >= LINE_FROM else 3 if width >= WHERE_FROM else 2]
        table = [
            [piece(c.id), piece(c.kind + (", guess" if c.guessed else "")), piece(c.where), piece(c.line)][
                : len(shape)
            ]
            for c in cards
        ]
        laid = columns(table, shape, width)
        return [
            Row(line, c.id, f"{c.name}: {c.line}" if c.line else c.name, c.id)
            for c, line in zip(cards, laid, strict=True)
        ]
