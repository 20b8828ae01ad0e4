"""Page 6: every compost heap, what it wants now, and where the ripe one goes."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from leafturn.answers.heaps import HeapView
from leafturn.base import quantities
from leafturn_tui.charts.heap_course import ROWS, course_rows
from leafturn_tui.host import Key
from leafturn_tui.notes import dates, grammar
from leafturn_tui.pages.base import Page
from leafturn_tui.pages.detail import Detail, detail_of, group_rows
from leafturn_tui.pages.heap_begun import begin_key
from leafturn_tui.pages.job_keys import job_keys, job_under_bar
from leafturn_tui.panels.line import Typing
from leafturn_tui.panels.sentences import Sheet
from leafturn_tui.render.heaps import (
    HOW_TO_READ,
    NITROGEN,
    QUESTION,
    READINGS,
    TO_MEASURE,
    heap_groups,
    measuring,
    nitrogen_lines,
    ratio_words,
)
from leafturn_tui.text.layout import Piece, Row, cut, fit, labelled, name_cells, paragraph, piece
from leafturn_tui.text.wrapping import wrap

if TYPE_CHECKING:
    from leafturn.journal.entries import Entry
    from leafturn_tui.almanac_face import AlmanacFace
    from leafturn_tui.host import Host

BELOW = (READINGS, TO_MEASURE, HOW_TO_READ)  # told below the list, or on the heap's own page alone
NAME, STAGE, INSIDE = 12, 9, 13  # cells of columns, of names at least
LEAST_TO_DO, INDENT = 16, 2  # cells in which what a heap wants stands beside it, else below, set in
HIGH, HIGH_COURSE = 46, 13  # lines of a window in which the course is drawn so high
NONE_YET = "No heap is in the garden file. N begins one and writes it there."


class HeapsPage(Page, key="6", question=QUESTION):
    """Which heap wants turning?"""

    def sum(self, almanac: AlmanacFace) -> tuple[str, ...]:
        """The heaps that want work now, and those that are ripe."""
        heaps = almanac.heaps()
        due, ripe = [h.name for h in heaps if h.due and not h.mature], [h.name for h in heaps if h.mature]
        said = [f"{', '.join(due)} now"] if due else []
        said += [f"{', '.join(ripe)} {'is' if len(ripe) == 1 else 'are'} ripe"] if ripe else []
        return tuple(said) or (("none now",) if heaps else ())

    def waits(self, almanac: AlmanacFace) -> tuple[int, str]:
        """Heaps that want work now."""
        return sum(h.due for h in almanac.heaps()), "amber"

    def keys(self) -> tuple[Key, ...]:
        """A reading, what is done to the heap's job, what fixes nitrogen, a heap more."""
        return (
            Key("r", "reading", "note how warm the heap under the bar is inside", _ask_reading, of_line=True),
            Key(
                "v",
                "nitrogen",
                "what fixes nitrogen from the air, guild by guild",
                _show_nitrogen,
                of_plants=True,
            ),
            *job_keys(partial(job_under_bar, _heap)),
            begin_key(),
        )

    def heads(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """Stage, the last two readings, what it wants."""
        if not almanac.heaps():
            return []
        said = "  " + fit("heap", _name_cells(almanac, width)) + fit("stage", STAGE) + fit("inside", INSIDE)
        said += "what it wants" if width - len(said) >= LEAST_TO_DO else ""
        return [Row((Piece(cut(said, width + 2), "dim"),))]

    def rows(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """A line a heap."""
        heaps = almanac.heaps()
        return [r for h in heaps for r in _rows(h, almanac, width)] or paragraph(NONE_YET, width)

    def start(self, almanac: AlmanacFace, rows: list[Row]) -> int:
        """On the first heap that wants work now, else on one that is ripe."""
        heaps = almanac.heaps()
        chosen = next((h.id for h in heaps if h.due), next((h.id for h in heaps if h.mature), ""))
        return next((n for n, r in enumerate(rows) if r.key and r.key == chosen), 0)

    def story(self, almanac: AlmanacFace, row: Row, width: int) -> list[Row]:
        """All that is told of a heap but its readings, which are drawn below, and how to read it."""
        heap = _heap(almanac, row.plant)
        if heap is None:
            return super().story(almanac, row, width)
        told = [
            group
            for group in heap_groups(heap, almanac)
            if group[0] not in (READINGS, HOW_TO_READ, TO_MEASURE)
        ]
        return [*paragraph(heap.name, width, "name", hang=0), *group_rows(told, width, heap.id)]

    def below(self, almanac: AlmanacFace, under: Row | None, width: int) -> list[Row]:
        """How warm the heap under the bar was inside; where nobody looked, what a thermometer would tell."""
        heap = _heap(almanac, under.plant) if under else None
        if heap is None:
            return []
        if not heap.course:
            said = (
                row for label, text in measuring(heap, almanac) for row in labelled(label, text, width - 2)
            )
            return [Row((Piece(" "), *row.pieces)) for row in said]
        high = HIGH_COURSE if self.height >= HIGH else ROWS
        rows = course_rows(heap.name, heap.course, heap.turns, almanac.on, width - 2, high)
        return [Row((Piece(" "), *row.pieces)) for row in rows]

    def why(self, almanac: AlmanacFace, row: Row) -> Sheet | None:
        """What its readings and its mix say."""
        heap = _heap(almanac, row.plant)
        return (
            None
            if heap is None
            else Sheet(f"{heap.name}: {heap.to_do}", [*heap.says, *heap.mends, *ratio_words(heap)])
        )

    def opened(self, almanac: AlmanacFace, row: Row) -> Page | None:
        """The heap's own page."""
        heap = _heap(almanac, row.plant)
        if heap is None:
            return None
        return detail_of(f"{heap.name}, {heap.stage}", partial(_heap, heap_id=heap.id), heap_groups, heap.id)


def _rows(heap: HeapView, almanac: AlmanacFace, width: int) -> list[Row]:
    """Name, stage, warmth, and what it wants, wrapped."""
    sign, tone = ("*", "amber") if heap.due else ("+", "well") if heap.mature else (" ", "")
    warm = " ▸ ".join(quantities.bare_celsius(c, 0) for _, c in heap.course[-2:])
    inside = f"{warm} {quantities.celsius_unit()}" if warm else "no reading"
    left = (
        fit(piece(heap.name).text, _name_cells(almanac, width) - 1)
        + " "
        + fit(heap.stage, STAGE)
        + fit(inside, INSIDE)
    )
    beside = width - len(left) - 2
    indent = len(left) if beside >= LEAST_TO_DO else INDENT
    first, *more = wrap(piece(heap.to_do).text, width - indent - 2)
    below = [Row((Piece(" " * (indent + 2)), Piece(r, tone)), joined=True) for r in more]
    to_do = Piece(f"{sign} {first}", tone)
    if indent == len(left):
        return [Row((Piece(left), to_do), heap.id, summary(heap), heap.id), *below]
    named = Row((Piece(left),), heap.id, summary(heap), heap.id)
    return [named, Row((Piece(" " * indent), to_do), joined=True), *below]


def _name_cells(almanac: AlmanacFace, width: int) -> int:
    return name_cells((heap.name for heap in almanac.heaps()), width, NAME)


def _ask_reading(desk: Host) -> None:
    """Ask how warm a heap is inside, and note it."""
    heap = _heap(desk.almanac, desk.current.plant) if desk.current else None
    if heap is None:
        desk.say("There is no heap under the bar.")
        return
    chosen, on = heap.id, desk.almanac.on

    def reading(text: str) -> Entry:
        degrees, day = dates.day_at_end(text, on)
        return grammar.reading(chosen, degrees, day)

    def preview(text: str) -> str:
        if not text.strip():
            return f"degrees {quantities.celsius_unit()}, deep in the middle"
        return grammar.entry_words(reading(text), on)

    def take(text: str) -> None:
        desk.consider(reading(text))

    desk.ask(Typing(f"How warm is {heap.name} inside?", take, preview=preview))


def _show_nitrogen(desk: Host) -> None:
    desk.open(
        Detail("What fixes nitrogen here?", lambda almanac: ((NITROGEN, nitrogen_lines(almanac.nitrogen())),))
    )


def summary(heap: HeapView) -> str:
    """The heap in one sentence, for the line under the list."""
    said = heap.says[0] if heap.says else f"{heap.mixed_of or 'What went in is not noted'}."
    return f"{heap.name}, {heap.where}: {said}"


def _heap(almanac: AlmanacFace, heap_id: str) -> HeapView | None:
    return next((h for h in almanac.heaps() if h.id == heap_id), None)
