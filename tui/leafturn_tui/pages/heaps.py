"""Page 6: every compost heap, what it wants now, and where the ripe one goes."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING

from leafturn.answers.heaps import HeapView
from leafturn_tui.pages.base import Page
from leafturn_tui.pages.told import group_rows, told_of
from leafturn_tui.panels.sentences import Sheet
from leafturn_tui.render.heaps import (
    NITROGEN,
    QUESTION,
    course_words,
    heap_groups,
    mix_words,
    nitrogen_lines,
    ratio_words,
)
from leafturn_tui.text.layout import BLANK, MARGINS, Column, Row, columns, paragraph, piece

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

MIX_FROM = 60
NONE_YET = (
    'No heap is in the garden file. Three lines make one: [[heap]], then id = "bay-1" and stage = "filling".'
)


class HeapsPage(Page, key="6", question=QUESTION):
    """Which heap wants turning?"""

    def rows(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """Two lines a heap: stage, mix, warmth; below them what to do. Then what fixes nitrogen."""
        heaps = almanac.heaps()
        rows = self._heaps(heaps, almanac, width) if heaps else paragraph(NONE_YET, width)
        lines = nitrogen_lines(almanac.nitrogen())
        return [*rows, BLANK, *group_rows([(NITROGEN, lines)], width)] if lines else rows

    def _heaps(self, heaps: Sequence[HeapView], almanac: AlmanacFace, width: int) -> list[Row]:
        wide = width + MARGINS >= MIX_FROM
        shape = [Column(14, 6), Column(8, 7), *([Column(24, 6)] if wide else []), Column()]
        table = [
            [
                piece(h.name),
                piece(h.stage),
                *([piece(mix_words(h), "quiet")] if wide else []),
                piece(course_words(h)),
            ]
            for h in heaps
        ]
        rows: list[Row] = []
        for heap, line in zip(heaps, columns(table, shape, width), strict=True):
            rows.append(Row(line, heap.id, summary(heap, almanac), heap.id))
            rows += paragraph(heap.to_do, width, "due" if heap.due else "", indent=3)
        return rows

    def why(self, almanac: AlmanacFace, row: Row) -> Sheet | None:
        """What its readings and its mix say."""
        heap = _heap(almanac, row.key)
        return (
            None
            if heap is None
            else Sheet(f"{heap.name}: {heap.to_do}", [*heap.says, *heap.mends, *ratio_words(heap)])
        )

    def opened(self, almanac: AlmanacFace, row: Row) -> Page | None:
        """The heap's own page."""
        heap = _heap(almanac, row.key)
        if heap is None:
            return None
        return told_of(f"{heap.name}, {heap.stage}", partial(_heap, heap_id=heap.id), heap_groups, heap.id)


def summary(heap: HeapView, almanac: AlmanacFace) -> str:
    """The heap in one sentence, for the line under the list."""
    said = heap.says[0] if heap.says else f"{heap.mixed_of or 'What went in is not noted'}."
    return f"{heap.name}, {heap.where}: {said}"


def _heap(almanac: AlmanacFace, heap_id: str) -> HeapView | None:
    return next((h for h in almanac.heaps() if h.id == heap_id), None)
