"""Page 0: every plant of the garden."""

from __future__ import annotations

from typing import TYPE_CHECKING

from leafturn.answers.plant_card import PlantCard
from leafturn_tui.pages.base import Page, first_lines
from leafturn_tui.render.plants import QUESTION
from leafturn_tui.text.layout import MARGINS, Column, Row, columns, piece

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

WHERE_FROM = 60


class PlantsPage(Page, key="0", question=QUESTION):
    """What stands here?"""

    def rows(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """A line a plant: name, a few words, where."""
        cards = almanac.plants()
        if not cards:
            return first_lines(width)
        shape = [Column(22, 10), Column(48, 12), Column()][: 3 if width + MARGINS >= WHERE_FROM else 2]
        table = [[piece(c.id), piece(_line(c)), piece(c.where)][: len(shape)] for c in cards]
        laid = columns(table, shape, width)
        return [
            Row(line, c.id, f"{c.name}: {_line(c)}, {c.where}", c.id)
            for c, line in zip(cards, laid, strict=True)
        ]


def _line(card: PlantCard) -> str:
    return card.line or card.kind
