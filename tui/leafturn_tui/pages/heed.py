"""Page 8: what could hurt someone or a plant, the gravest first, and who to call."""

from __future__ import annotations

from typing import TYPE_CHECKING

from leafturn.hazards.overview import POISON
from leafturn_tui.pages.base import Page
from leafturn_tui.pages.heed_rows import WHAT, rows_of
from leafturn_tui.panels.sentences import Sheet
from leafturn_tui.render.heed import QUESTION
from leafturn_tui.text.layout import Piece, Row, cut, fit, paragraph

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace


class HeedPage(Page, key="8", question=QUESTION):
    """What could hurt someone, or a plant?"""

    def sum(self, almanac: AlmanacFace) -> str:
        """How many matters of each kind."""
        found = almanac.heed()
        named = (
            (len(found.over_people), "over people"),
            (len(found.juglone), "roots"),
            (len(found.bark), "bark"),
            (len(found.look_alikes), "to eat or not"),
        )
        return " · ".join(f"{number} {what}" for number, what in named if number) or "nothing known"

    def waits(self, almanac: AlmanacFace) -> tuple[int, str]:
        """Failing trees with someone or something in reach."""
        return len(almanac.heed().over_people), "harm"

    def heads(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """What, and who is in reach."""
        return [Row((Piece(cut(fit("  what", WHAT + 2) + "who or what is in reach", width + 2), "dim"),))]

    def rows(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """Over people first, told in full; then a line a matter under its head."""
        rows = rows_of(almanac, width)
        return rows or paragraph("Nothing in the garden file is known to hurt anyone.", width)

    def below(self, almanac: AlmanacFace, under: Row | None, width: int) -> list[Row]:
        """What to do if something was eaten."""
        said = "Eaten what you are not sure of? Poison centre at once; keep the plant."
        return [Row((Piece(cut(f" {said}", width), "harm"),))] if POISON in almanac.heed().calls else []

    def why(self, almanac: AlmanacFace, row: Row) -> Sheet | None:
        """The matter in full, its cautions, and who to call."""
        found = almanac.heed()
        cautions = [c for line in found.look_alikes if line.plant == row.plant for c in line.cautions]
        return Sheet(row.plant or "who to call", [row.why, *cautions, *(found.calls if row.plant else ())])
