"""Page 8: what to take care of, and who to call."""

from __future__ import annotations

from typing import TYPE_CHECKING

from leafturn.care import Care
from leafturn_tui.pages.base import Page
from leafturn_tui.pages.told import Groups
from leafturn_tui.panels.sheet import Sheet
from leafturn_tui.rows import BLANK, Row, heading, paragraph

if TYPE_CHECKING:
    from leafturn.almanac import Almanac


class CarePage(Page):
    """What could hurt someone, or a plant?"""

    digit = "8"
    name = "Care"
    question = "What could hurt someone, or a plant?"

    def rows(self, almanac: Almanac, width: int) -> list[Row]:
        """Matters under their headings, the gravest first; the bar rests on each matter."""
        rows: list[Row] = []
        for title, lines in care_lines(almanac.care()):
            if not lines:
                continue
            rows += ([BLANK] if rows else []) + [heading(title)]
            for n, (plant, says) in enumerate(lines):
                first, *rest = paragraph(says, width, indent=1)
                rows.append(Row(first.pieces, f"{title} {n}", says, plant))
                rows += rest
        return rows

    def why(self, almanac: Almanac, row: Row) -> Sheet | None:
        """The matter in full, with who to call."""
        found = almanac.care()
        cautions = [c for line in found.look_alikes if line.plant == row.plant for c in line.cautions]
        return Sheet(row.plant or "who to call", [row.why, *cautions, *(found.calls if row.plant else ())])


def care_lines(care: Care) -> tuple[tuple[str, list[tuple[str, str]]], ...]:
    """Plant and sentence of every matter, under titles."""
    now = [line for line in care.juglone if line.suffers != "not known"]
    unknown = [line for line in care.juglone if line.suffers == "not known"]
    return (
        ("trees that could fall where people are", [(line.plant, line.says) for line in care.falls]),
        ("who to call", [("", call) for call in care.calls]),
        ("look-alikes", [(line.plant, line.says) for line in care.look_alikes]),
        ("bark", [(line.plant, line.says) for line in care.bark]),
        ("roots of walnut kin", [(line.plant, line.says) for line in now]),
        ("roots of walnut kin, not known", [(line.plant, line.says) for line in unknown]),
    )


def care_groups(care: Care) -> Groups:
    """The same for reading aloud, with every caution of a look-alike."""
    said = {line.plant: line.cautions for line in care.look_alikes}
    return [
        (title, [part for plant, says in lines
                 for part in (says, *(said.get(plant, ()) if title == "look-alikes" else ()))])
        for title, lines in care_lines(care)
    ]  # fmt: skip
