"""What is wrong in the files, on top of the first page."""

from __future__ import annotations

from typing import TYPE_CHECKING

from leafturn_tui.safe_text import ELLIPSIS
from leafturn_tui.text.layout import Piece, Row, cut, paragraph
from leafturn_tui.text.phrases import count

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

MOST = 3
LINES = 2  # of a fault, and of a remark that is alone
REMARKS = "R"  # the key that lists all of them, on every page
REST = f" {REMARKS}: all"  # behind a remark that is cut


def fault_rows(almanac: AlmanacFace, width: int) -> list[Row]:
    """At most three faults, a line or two each, then how many more there are."""
    rows: list[Row] = []
    for fault in almanac.faults[:MOST]:
        rows += paragraph(fault.sentence(), width - 1, "fault", indent=1, most=LINES)
    more = len(almanac.faults) - MOST
    if more > 0:
        rows += paragraph(f"and {more} more: {REMARKS} lists them", width - 1, "fault", indent=1)
    remarks = almanac.remarks
    if not rows and len(remarks) == 1:
        return _the_remark(remarks[0], width - 1)
    if not rows and remarks:
        said = f"{count(len(remarks), 'remark')}: {REMARKS} lists them"
        rows += paragraph(said, width - 1, "dim", indent=1, most=LINES)
    return rows


def _the_remark(said: str, width: int) -> list[Row]:
    """The only remark; where it is long its beginning, and the key that tells all of it."""
    whole = paragraph(said, width, "dim", indent=1)
    if len(whole) <= LINES:
        return whole
    last = cut(whole[LINES - 1].text.rstrip() + ELLIPSIS, width - len(REST))
    return [*whole[: LINES - 1], Row((Piece(last, "dim"), Piece(REST, "key")))]
