"""Page 8: what to take care of, and who to call."""

from __future__ import annotations

from typing import TYPE_CHECKING

from leafturn_tui.pages.base import Page
from leafturn_tui.panels.sentences import Sheet
from leafturn_tui.render.care import QUESTION, care_lines
from leafturn_tui.text.layout import BLANK, Row, heading, paragraph

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace


class CarePage(Page, key="8", question=QUESTION):
    """What could hurt someone, or a plant?"""

    def rows(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """Matters under their headings, the gravest first; the bar rests on each matter."""
        rows: list[Row] = []
        for title, lines in care_lines(almanac.care(), almanac.water()):
            if not lines:
                continue
            rows += ([BLANK] if rows else []) + [heading(title)]
            for n, (plant, says) in enumerate(lines):
                first, *rest = paragraph(says, width, indent=1)
                rows.append(Row(first.pieces, f"{title} {n}", says, plant))
                rows += rest
        return rows

    def why(self, almanac: AlmanacFace, row: Row) -> Sheet | None:
        """The matter in full, with who to call."""
        found = almanac.care()
        cautions = [c for line in found.look_alikes if line.plant == row.plant for c in line.cautions]
        return Sheet(row.plant or "who to call", [row.why, *cautions, *(found.calls if row.plant else ())])
