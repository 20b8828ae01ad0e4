"""What is wrong in the files, on top of the first page."""

from __future__ import annotations

from typing import TYPE_CHECKING

from leafturn_tui.rows import Row, paragraph
from leafturn_tui.words import count

if TYPE_CHECKING:
    from leafturn.almanac import Almanac

MOST = 3


def fault_rows(almanac: Almanac, width: int) -> list[Row]:
    """At most three faults, a line or two each, then how many more there are."""
    rows: list[Row] = []
    for fault in almanac.faults[:MOST]:
        rows += paragraph(fault.sentence(), width - 1, "fault", indent=1, most=2)
    more = len(almanac.faults) - MOST
    if more > 0:
        rows += paragraph(f"and {more} more: leafturn check", width - 1, "fault", indent=1)
    if not rows and almanac.notes:
        said = (
            almanac.notes[0]
            if len(almanac.notes) == 1
            else f"{count(len(almanac.notes), 'remark')}: leafturn check"
        )
        rows += paragraph(said, width - 1, indent=1, most=2)
    return rows
