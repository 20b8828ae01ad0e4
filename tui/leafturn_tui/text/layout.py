"""Lines ready to show: pieces of safe text with a tone, fitted to a width in terminal cells."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import NamedTuple

from rich.cells import cell_len, set_cell_size

from leafturn.base.patterns import pattern
from leafturn.base.value import Value
from leafturn_tui.safe_text import ELLIPSIS, safe_text
from leafturn_tui.text.wrapping import wrap

GAP = 2
HEADING = "heading"  # the tone of a line between groups
MARGINS = 3  # cells of a list that its rows do not have: bar and blank on the left, a blank on the right
LABEL = 11  # cells of a label beside its text
FULL = 3  # lines at most of what is told in full in a list
LEAST_NAME = 15  # cells of a column of names with a blank
BETWEEN = 4  # cells between a question and its sum
FEW_LETTERS = 5  # of a head say nothing
_HEAD = pattern(r"\S+(?: \S+)*")
_CLAUSE_END = pattern(r"[;:.] | \(")


class Piece(NamedTuple):
    """A stretch of safe text and the tone it is said in (see `tones`). Make one with `piece`.

    `plain` is how it is drawn in ASCII, as many cells wide, where that is not as `text/glyphs.py` has it.
    """

    text: str
    tone: str = ""
    plain: str = ""


def piece(text: str, tone: str = "", limit: int | None = 400) -> Piece:
    """A piece of any string, made safe."""
    return Piece(safe_text(text, limit=limit), tone)


class Row(Value, kw_only=False):
    """One line of a page.

    Parameters
    ----------
    pieces : tuple of Piece
        What it says, from left to right.
    key : str
        What the line stands for; the bar only rests on lines with a key, and finds it again
        after everything was computed anew.
    why : str or callable
        The sentence shown under the list while the bar is here, or what gives it where that takes time.
    plant : str
        Id of the plant or heap the line is about, if any.
    about : str
        What else it is about, by its id: a job, a week, a partner that may stand over the fence.
    joined : bool
        Whether it belongs to the line above and is under the bar with it.
    """

    pieces: tuple[Piece, ...]
    key: str = ""
    why: str | Callable[[], str] = ""
    plant: str = ""
    about: str = ""
    joined: bool = False

    @property
    def text(self) -> str:
        """The line as read aloud."""
        return "".join(p.text for p in self.pieces)

    @property
    def sentence(self) -> str:
        """The sentence shown under the list while the bar is here."""
        return self.why if isinstance(self.why, str) else self.why()

    @property
    def is_heading(self) -> bool:
        """Whether it stands between groups of lines."""
        return not self.key and self.pieces[:1] == (Piece(self.text, HEADING),)


def row(*parts: Piece | str, key: str = "", why: str = "", plant: str = "") -> Row:
    """A row of pieces and plain strings."""
    return Row(tuple(p if isinstance(p, Piece) else piece(p) for p in parts), key, why, plant)


def heading(text: str) -> Row:
    """A line between groups of lines."""
    return row(piece(text, HEADING))


BLANK = Row((Piece(""),))


def cut(text: str, width: int) -> str:
    """`text` in at most `width` cells, with an ellipsis where something is left out."""
    if cell_len(text) <= width:
        return text
    return set_cell_size(text, width - 1).rstrip() + ELLIPSIS if width > 0 else ""


def fit(text: str, width: int, right: bool = False) -> str:
    """`text` in exactly `width` cells."""
    text = cut(text, width)
    space = " " * (width - cell_len(text))
    return space + text if right else text + space


def cut_heads(line: str, width: int) -> str:
    """Heads of columns in at most `width` cells; without the one of which hardly a letter has room."""
    if cell_len(line) <= width:
        return line
    *_, (first, last) = [(0, 0), *(m.span() for m in _HEAD.finditer(line) if m.start() < width)]
    if last <= width:
        return line[:last]
    return line[:first].rstrip() if width - first <= FEW_LETTERS else cut(line, width)


def in_lines(text: str, width: int, wanted: int = FULL) -> list[str]:
    """Safe text in so many lines without the clauses that find no room; in more where none ends there."""
    lines = wrap(text, width)
    ends = [end for found in _CLAUSE_END.finditer(text) if 2 * (end := found.start()) >= width]
    for most in range(wanted, FULL + 1):
        if len(lines) <= most:
            return lines
        for end in reversed(ends):
            if len(shorter := wrap(text[:end], width)) <= most:
                return shorter
    return [*lines[: FULL - 1], cut(" ".join(lines[FULL - 1 :]), width)]


def as_there_is_room(make: Callable[[int], list[Row]], items: int, room: int) -> list[Row]:
    """Rows of a list whose first items are told in full, as many as leave all of it in sight.

    Parameters
    ----------
    make : callable
        Gives the rows if so many of the first are told in full, the others in as few lines as can be.
    items : int
    room : int
        Lines.
    """
    whole = make(items)
    if len(whole) <= room:
        return whole
    fitting = bisect_right(range(items), room, key=lambda full: len(make(full)))
    return make(max(0, fitting - 1))


def name_cells(names: Iterable[str], width: int, least: int = LEAST_NAME) -> int:
    """Cells of names with the blank behind them: as the longest has it, at most a quarter of the row."""
    longest = max((cell_len(safe_text(name)) for name in names), default=0)
    return max(least, min(longest + 1, width // 4))


class Column(Value, kw_only=False):
    """How wide a column may be, in cells. `right` sets figures to the right.

    Where there is too little room the column that `gives` most shrinks first.
    """

    most: int = 400
    least: int = 4
    right: bool = False
    gives: int = 0


def columns(table: Sequence[Sequence[Piece]], shape: Sequence[Column], width: int) -> list[tuple[Piece, ...]]:
    """Lay rows of pieces out in columns that together take at most `width` cells.

    Columns take what their longest piece needs; if that is too much they give way down to their least.
    """
    if not table:
        return []
    widths = _widths(table, shape, width)
    return [_set(cells, widths, shape) for cells in table]


def wrapped_columns(
    table: Sequence[Sequence[Piece]], shape: Sequence[Column], width: int, most: int = 3
) -> Iterator[list[tuple[Piece, ...]]]:
    """The same, but what is too wide for its column goes on below: at most so many lines a row.

    Each row is broken into lines when it is asked for, so that whoever wants the heads alone breaks no other.
    """
    widths = _widths(table, shape, width) if table else []
    return (_wrapped(cells, widths, shape, most) for cells in table)


def over_list(pieces: Iterable[Piece], *, within: bool = False) -> Row:
    """A row of heads over a list, or within it, set in as far as the lines that have the bar before them."""
    return Row((Piece(" " if within else "  "), *pieces))


def joined_rows(
    lines: Sequence[tuple[Piece, ...]], key: str, why: str, plant: str = "", about: str = ""
) -> list[Row]:
    """The lines of one row of such columns as rows that are under the bar together."""
    first, *more = lines
    return [Row(first, key, why, plant, about), *(Row(line, joined=True) for line in more)]


def _wrapped(
    cells: Sequence[Piece], widths: Sequence[int], shape: Sequence[Column], most: int
) -> list[tuple[Piece, ...]]:
    texts = [wrap(cell.text, wide) for cell, wide in zip(cells, widths, strict=True)]
    high = min(most, max(map(len, texts)))
    lines = []
    for n in range(high):
        parts = [own[n : n + 1] if n < high - 1 else own[n:] for own in texts]
        line = [cell._replace(text=" ".join(part)) for cell, part in zip(cells, parts, strict=True)]
        lines.append(_set(line, widths, shape))
    return lines


def _widths(table: Sequence[Sequence[Piece]], shape: Sequence[Column], width: int) -> list[int]:
    """What each column takes."""
    widths = [
        min(column.most, max(1, *(cell_len(cells[i].text) for cells in table)))
        for i, column in enumerate(shape)
    ]
    over = sum(widths) + GAP * (len(widths) - 1) - width
    for _ in range(max(0, over)):
        able = [i for i, column in enumerate(shape) if widths[i] > column.least]
        if not able:
            break
        widths[max(able, key=lambda i: (shape[i].gives, widths[i]))] -= 1
    return widths


def _set(cells: Sequence[Piece], widths: Sequence[int], shape: Sequence[Column]) -> tuple[Piece, ...]:
    pieces: list[Piece] = []
    for i, (cell, wide, column) in enumerate(zip(cells, widths, shape, strict=True)):
        if i:
            pieces.append(Piece(" " * GAP))
        last = i == len(widths) - 1 and not column.right
        pieces.append(Piece(cut(cell.text, wide) if last else fit(cell.text, wide, column.right), cell.tone))
    return tuple(pieces)


def paragraph(
    text: str, width: int, tone: str = "", *, indent: int = 0, hang: int = 2, most: int = 1000, key: str = ""
) -> list[Row]:
    """A paragraph as at most so many rows of `width` cells; they carry the bar if a key is given.

    `indent` is the margin on the left, `hang` what later lines are set in by. Text beyond the last
    row is left out, with an ellipsis.
    """
    lines = wrap(safe_text(text, limit=4000), width - indent, hang)
    if len(lines) > most:
        lines = lines[:most]
        if lines:
            lines[-1] = cut(lines[-1], width - indent - 1).removesuffix(ELLIPSIS) + ELLIPSIS
    margin = " " * indent
    return [
        Row((Piece(margin + line, tone),), f"{key} {n}" if key else "") for n, line in enumerate(lines, 1)
    ]


def labelled(label: str, text: str, width: int, tone: str = "") -> list[Row]:
    """A paragraph hanging beside its label; below it where there is too little room."""
    beside = width >= 3 * LABEL
    lines = wrap(safe_text(text, limit=4000), width - LABEL if beside else width)
    if not beside:
        return [Row((Piece(label, "dim"),)), *(Row((Piece(line, tone),)) for line in lines)]
    return [
        Row((Piece(fit(label if n == 0 else "", LABEL), "dim"), Piece(line, tone)))
        for n, line in enumerate(lines)
    ]


def question_row(question: str, total: Sequence[str], width: int) -> Row:
    """The question, and at the right its sum: as many of its parts as there is room for."""
    asked = piece(" " + cut(question, width - 2), "question")
    for said in ("; ".join(total[:parts]) for parts in range(len(total), -1, -1)):
        free = width - 2 - cell_len(asked.text) - cell_len(said)
        if free >= BETWEEN or not said:
            return Row((asked, Piece(" " * max(0, free)), piece(said)))
    return Row((asked,))
