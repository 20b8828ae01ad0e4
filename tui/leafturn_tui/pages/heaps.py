"""Page 6: every compost heap, what it wants now, and where the ripe one goes."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from leafturn.answers.heaps import HeapView
from leafturn.soil.compost.mix import C_TO_N_MEANS
from leafturn.soil.nitrogen import Nitrogen
from leafturn_tui.pages.base import Page
from leafturn_tui.pages.told import Groups, Told, group_rows
from leafturn_tui.panels.sentences import Sheet
from leafturn_tui.text import phrases
from leafturn_tui.text.layout import BLANK, MARGINS, Column, Row, columns, paragraph, piece

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

MIX_FROM = 60
NITROGEN = "nitrogen from the air (rough: books differ threefold)"
NONE_YET = (
    'No heap is in the garden file. Three lines make one: [[heap]], then id = "bay-1" and stage = "filling".'
)


class HeapsPage(Page):
    """Which heap wants turning?"""

    digit = "6"
    name = "Heaps"
    question = "Which heap wants turning?"

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
            else Sheet(f"{heap.name}: {heap.to_do}", [*heap.says, *heap.mends, *_ratio_words(heap)])
        )

    def opened(self, almanac: AlmanacFace, row: Row) -> Page | None:
        """The heap's own page."""
        heap = _heap(almanac, row.key)
        return None if heap is None else Told(f"{heap.name}, {heap.stage}", _groups_of(heap.id), heap.id)


def nitrogen_lines(found: Nitrogen) -> list[str]:
    """Every guild's share of fixers, then every fixer."""
    return [*(guild.says for guild in found.guilds), *(fixer.says for fixer in found.fixers)]


def mix_words(heap: HeapView) -> str:
    """ "C:N 29, water 67 %"; says so where the mix is not written down."""
    if heap.c_to_n is None or heap.water_percent is None:
        return "mix not noted"
    return f"C:N {heap.c_to_n:.0f}, water {heap.water_percent:.0f} %"


def course_words(heap: HeapView) -> str:
    """The last two readings: "58 -> 44 C"."""
    told = " -> ".join(f"{celsius:.0f}" for _, celsius in heap.course[-2:])
    return f"{told} C" if told else "no reading"


def spread_words(heap: HeapView) -> list[str]:
    """A line a plant: litres, metres, and who of short reach gets there."""
    return [
        f"{s.plant}: {s.litres:.0f} litres"
        + (f", {phrases.metres(s.metres)} off" if s.metres is not None else ", place not given")
        + (f", within reach of {', '.join(s.reach)}" if s.reach else "")
        for s in heap.spread
    ]


def summary(heap: HeapView, almanac: AlmanacFace) -> str:
    """The heap in one sentence, for the line under the list."""
    said = heap.says[0] if heap.says else f"{heap.mixed_of or 'What went in is not noted'}."
    return f"{heap.name}, {heap.where}: {said}"


def heap_groups(heap: HeapView, almanac: AlmanacFace) -> Groups:
    """All that is told of a heap, in groups."""
    size = "" if heap.litres is None else f"{phrases.two_figures(heap.litres)} litres"
    return (
        ("", [", ".join(part for part in (heap.where, size, heap.to_do) if part)]),
        ("what it wants", [*heap.mends]),
        ("what the readings say", list(heap.says)),
        ("readings", [f"{phrases.day(day, almanac.on)}: {celsius:.0f} C" for day, celsius in heap.course]),
        ("what went in", [*([heap.mixed_of] if heap.mixed_of else []), *_unknown(heap), *_ratio_words(heap)]),
        ("where it goes, the neediest first (need and carry are weighed by a guess)", spread_words(heap)),
    )


def _ratio_words(heap: HeapView) -> list[str]:
    """What C:N is, where a heap has one."""
    return [] if heap.c_to_n is None else [C_TO_N_MEANS]


def _unknown(heap: HeapView) -> list[str]:
    return [f"{what}: not in the table of materials, left out of C:N and water" for what in heap.unknown]


def _heap(almanac: AlmanacFace, heap_id: str) -> HeapView | None:
    return next((h for h in almanac.heaps() if h.id == heap_id), None)


def _groups_of(heap_id: str) -> Callable[[AlmanacFace], Groups | None]:
    """Finds a heap's groups in whatever almanac is shown."""

    def find(almanac: AlmanacFace) -> Groups | None:
        heap = _heap(almanac, heap_id)
        return None if heap is None else heap_groups(heap, almanac)

    return find
