"""What stands round a page's list: the page bar and the instruments, the question, the rule, the keys."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from typing import TYPE_CHECKING

from rich.cells import cell_len

from leafturn.base.value import Value
from leafturn_tui.desk.instruments import instruments
from leafturn_tui.desk.page_bar import RAISED, WIDE, Tab, page_bar
from leafturn_tui.host import LOW, PageFace
from leafturn_tui.safe_text import ELLIPSIS
from leafturn_tui.text.layout import BLANK, MARGINS, Piece, Row, cut, fit, paragraph, piece, question_row

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

LEAST_WIDTH, LEAST_HEIGHT = 30, 10
VERY_LOW = 18  # lines below which the story has one line
LIST_SHARE = 0.61
LEAST_STORY = 24  # cells under which no story stands beside a list
DIVIDER = 2  # cells: the line between list and story, and a blank
TOO_SMALL = f"Make the window larger: at least {LEAST_WIDTH} columns and {LEAST_HEIGHT} lines."
MOST_KEYS = 7
RULE_LEFT = 10  # cells of the line under a list that its words leave
RULE_AND_KEYS = 2  # lines
TEXT_BELOW = 2  # lines that are left of what stands below a list where a picture finds no room
ALL_KEYS = ("?", "all keys")


class Told(Value, kw_only=False):
    """What is told of a line.

    Parameters
    ----------
    story : sequence of Row
        Beside the list, where there is room for it.
    sentence : str
        Below it, where no story stands beside it.
    below : sequence of Row
        What the page has to say below its list.
    """

    story: Sequence[Row] = ()
    sentence: str = ""
    below: Sequence[Row] = ()


class Frame(Value, kw_only=False):
    """Room and circumstances for the rows round a list.

    Parameters
    ----------
    width, height : int
        The screen in cells.
    lost : str
        Why the garden can no longer be read; empty if it can.
    read_at : datetime or None
        When it was last read, if that is asked for.
    tabs : tuple of Tab
        The pages that can be turned to.
    shown : str
        Key of the page that is shown or lies under the shown one.
    """

    almanac: AlmanacFace
    page: PageFace
    width: int
    height: int
    lost: str = ""
    read_at: dt.datetime | None = None
    tabs: tuple[Tab, ...] = ()
    shown: str = ""

    @property
    def too_small(self) -> bool:
        """Whether there is no room for a page at all."""
        return self.width < LEAST_WIDTH or self.height < LEAST_HEIGHT

    @property
    def southern(self) -> bool:
        """Whether the garden lies south of the equator."""
        return self.almanac.garden.place.southern

    @property
    def side_width(self) -> int:
        """Cells of the story beside the list; 0 where it stands under it."""
        if self.width < WIDE:
            return 0
        left = self.width - max(self.page.list_width, round(self.width * LIST_SHARE)) - DIVIDER
        return left if left >= LEAST_STORY else 0

    @property
    def rows_width(self) -> int:
        """Cells of a row of the list, without its margins."""
        return self.list_width - MARGINS

    @property
    def list_width(self) -> int:
        """Cells of the list with its margins."""
        return self.width - (self.side_width + DIVIDER if self.side_width else 0)

    def pages(self) -> Row:
        """The first line: every page that can be turned to."""
        return page_bar(self.tabs, self.shown, self.width)

    def over_list(self) -> list[Row]:
        """Instruments, the question with its sum, what the page says above its list, column heads."""
        since = f"as read at {self.read_at:%H:%M}" if self.lost and self.read_at else ""
        rows = [instruments(self.almanac, self.width, since)]
        if self.height >= LOW:
            rows.append(BLANK)
        rows.append(question_row(self.page.heading(self.almanac), self.page.sum(self.almanac), self.width))
        if self.lost:
            rows += paragraph(self.lost, self.width - 1, "fault", indent=1, most=2)
        top, most = self.page.top(self.almanac, self.width), self.top_lines
        rows += top if len(top) <= most else _cut_off(top[:most], self.width)
        return [*rows, *self.page.heads(self.almanac, self.rows_width)]

    @property
    def top_lines(self) -> int:
        """Lines at most above a list: in a low window some of it stays in sight."""
        return self.height // 2 if self.height >= LOW else max(1, (self.height - LEAST_HEIGHT + 1) // 3)

    def told(self, under: Row | None) -> Told:
        """What is told of the line under the bar, and what the page has to say below its list."""
        page, width = self.page, self.side_width
        return Told(
            story=page.story(self.almanac, under, width - 1) if under and width else [],
            sentence=under.sentence if under and not width else "",
            below=page.below(self.almanac, under, self.width),
        )

    def foot(self, said: str, told: Told, keys: Sequence[tuple[str, str]], free: int = 0) -> list[Row]:
        """What was said or the line's sentence, what the page has to say below its list, and the keys.

        Parameters
        ----------
        said : str
            A sentence in answer to the last key; empty if there is none.
        told : Told
            Of the line under the bar.
        keys : sequence of (key, label)
        free : int
            Lines that head and list leave: a long sentence takes of those rather than being cut.
        """
        lines = 1 if self.side_width or self.height < VERY_LOW else 2
        below, words = told.below, said or told.sentence
        in_low = TEXT_BELOW if self.height >= VERY_LOW else 1
        most = (self.height - lines) // 2 if self.height >= LOW else in_low
        most = max(most, free - lines - RULE_AND_KEYS)
        below = below if len(below) <= most else _cut_off(below[: min(most, TEXT_BELOW)], self.width)
        room = max(lines, free - len(below) - RULE_AND_KEYS)
        sentence = paragraph(words, self.width - 1, indent=1, hang=0, most=room) if words else []
        sentence += [BLANK] * (lines - len(sentence))
        return [*below, *sentence, key_line(keys, self.width)]


def _cut_off(rows: Sequence[Row], width: int) -> list[Row]:
    """Rows that further ones followed, which the last of them says; of a picture only its words."""
    *before, last = [row for row in rows if any(map(str.isalnum, row.text))] or rows
    *pieces, end = last.pieces
    room = width - sum(cell_len(p.text) for p in pieces)
    return [*before, Row((*pieces, end._replace(text=cut(f"{end.text.rstrip()} {ELLIPSIS}", room))))]


def rule(width: int, words: str = "") -> Row:
    """A line across, with a few words set into it near the right end if given."""
    said = f" {words} ─────" if words else ""
    return Row((Piece("─" * (width - cell_len(said)), "faint"), Piece(said, "dim")))


def hidden_rule(width: int, above: int, below: int, heads: Sequence[str], bare: bool) -> Row:
    """The line under a list, saying how many of its lines are out of sight, and under which heads below.

    `bare` leaves the line itself away, and keeps the words.
    """
    hidden = [f"{n} more {where}" for n, where in ((above, "above"), (below, "below")) if n]
    words = ", ".join(hidden)
    for head in heads:
        longer = f"{words}{' · ' if head is not heads[0] else ': '}{head}"
        if cell_len(longer) > width - RULE_LEFT:
            break
        words = longer
    return Row((piece(fit(words, width - 2, right=True), "dim"),)) if bare else rule(width, words)


def key_line(keys: Sequence[tuple[str, str]], width: int) -> Row:
    """As many keys with their labels as there is room for, and where all of them are told."""
    last = f"{ALL_KEYS[0]} {ALL_KEYS[1]} "
    used = 1
    line: list[Piece] = [Piece(" ", RAISED)]
    for name, label in keys[:MOST_KEYS]:
        wide = cell_len(name) + 1 + cell_len(label) + 2
        if used + wide > width - cell_len(last):
            break
        line += [Piece(name, "*accent on raised"), piece(f" {label}  ", RAISED)]
        used += wide
    space = " " * max(0, width - used - cell_len(last))
    return Row((*line, Piece(space, RAISED), Piece(last, "dim on raised")))
