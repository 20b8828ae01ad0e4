"""What became of everything planted, by kind, on the Book page."""

from __future__ import annotations

from typing import TYPE_CHECKING

from leafturn.answers.survival import KindSurvival
from leafturn_tui.text import phrases
from leafturn_tui.text.layout import (
    BLANK,
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


def survival_rows(almanac: AlmanacFace, width: int) -> list[Row]:
    """The garden as a whole in words; a line a kind: planted, lost, to what, and what share stands."""
    found = almanac.survival()
    if not found.kinds:
        return paragraph("Nothing stands in the garden file, and no loss is noted.", width)
    heads = ("kind", "planted", "lost", "to", "stand after")
    name, causes, share = Column(24, 10, gives=1), Column(28, 8, gives=3), Column(28, 6, gives=2)
    shape = (name, Column(7, 7), Column(5, 4), causes, share)
    table = [[piece(word, "heading") for word in heads], *(_cells(one) for one in found.kinds)]
    heads_laid, *laid = wrapped_columns(table, shape, width)
    rows = [*paragraph(found.whole.says, width), BLANK, *(over_list(one, within=True) for one in heads_laid)]
    for lines, one in zip(laid, found.kinds, strict=True):
        rows += joined_rows(lines, f"kind {one.kind}", one.says)
    return [*rows, BLANK, *paragraph(NOTE, width, "quiet")]


NOTE = (
    "Shares come from what was planted since the journal began: "
    "of older plants only those that lived are here to be counted."
)


def _cells(one: KindSurvival) -> list[Piece]:
    causes = ", ".join(f"{cause} {number}" for cause, number in one.causes)
    last = one.course[-1] if one.course and one.lost else None
    share = ""
    if last is not None and last.years:
        share = f"{last.years} y: {phrases.tenths(last.share, last.low, last.high)}"
    elif one.lost:
        share = "not to be told"
    tone = "" if one.lost else "quiet"
    said = (one.kind, str(one.planted), str(one.lost or "none"), causes, share)
    return [piece(word, tone) for word in said]
