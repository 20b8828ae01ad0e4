"""What is wrong in the files, on top of the first page."""

from __future__ import annotations

from typing import TYPE_CHECKING

from leafturn_tui.text.layout import Row, paragraph
from leafturn_tui.text.phrases import count

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

MOST = 3
ONE = 4  # lines of the only remark, so that what it says to do is read
REMARKS = "R"  # the key that lists all of them, on every page


def fault_rows(almanac: AlmanacFace, width: int) -> list[Row]:
    """At most three faults, a line or two each, then how many more there are."""
    rows: list[Row] = []
    for fault in almanac.faults[:MOST]:
        rows += paragraph(fault.sentence(), width - 1, "fault", indent=1, most=2)
    more = len(almanac.faults) - MOST
    if more > 0:
        rows += paragraph(f"and {more} more: {REMARKS} lists them", width - 1, "fault", indent=1)
    remarks = almanac.remarks
    if not rows and remarks:
        said = remarks[0] if len(remarks) == 1 else f"{count(len(remarks), 'remark')}: {REMARKS} lists them"
        rows += paragraph(said, width - 1, "dim", indent=1, most=ONE)
    return rows
