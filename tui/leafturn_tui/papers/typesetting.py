"""A paper laid out on pages: where each word, box and line stands, in millimetres from the upper left corner.

Sizes are common practice for paper that is read at arm's length and written on with a pencil, no source.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise

from leafturn.papers.page_layout import WIDTH, Block
from leafturn_tui.papers.printed import Printed
from leafturn_tui.papers.sheets import MARGIN, Line, Page, Size, on_pages
from leafturn_tui.text.layout import Row
from leafturn_tui.text.shapes import HIGH, WIDE, Box, Disc, Shape, Words, shapes_of
from leafturn_tui.text.styles import Look

POINT = 25.4 / 72  # mm
# Of type [pt], of papers of one page: the largest that fits. Letters of 9 pt are as high as 11 pt Times here.
SIZES = (12.0, 11.5, 11.0, 10.5, 10.0, 9.5, 9.0)
SIZE = 11.0  # of papers that go on over pages
FOOT = 10.0  # mm, from the lower edge to the line of the foot, within the margin
PITCH = 1.26  # of lines, in heights of type
UNDER = 0.93  # of what belongs to a tick, against its own words
BOX = 5.0  # mm, of the square for a tick
GUTTER = 2.5  # mm, beside marks and boxes
HAIR = 0.25  # mm, the thickness of lines
PENCIL = 8.5  # mm from one line to write on to the next
COLUMN = 1.9  # mm that a column of fixed type sets in
DRAWN = 84  # columns of a drawing
INK, GREY = "#000000", "#555555"

Measure = Callable[[str, float, bool], float]
"""How wide a text is [mm] at so many points, bold or not."""


def typeset(printed: Printed, paper: Size, measure: Measure) -> list[Page]:
    """The pages of a paper, each with its foot.

    Parameters
    ----------
    printed : Printed
    paper : Size
    measure : callable
    """
    drawn = {name: picture(DRAWN) for name, picture in printed.pictures.items()}
    found: list[list[Page]] = []
    for size in SIZES if printed.one_page else (SIZE,):
        setter = _Setter(printed, drawn, paper, measure, size)
        lines = [line for block in printed.paper.blocks for line in setter.lines(block)]
        pages = on_pages(lines, paper)
        found.append([(*page, *setter.foot(n, len(pages))) for n, page in enumerate(pages, 1)])
    return min(found, key=len)  # the first of those with fewest pages, which has the largest type


class _Setter:
    """Sets the blocks of one paper at one size of type."""

    def __init__(
        self, printed: Printed, drawn: Mapping[str, Sequence[Row]], paper: Size, measure: Measure, size: float
    ) -> None:
        self._foot, self._drawn, self._paper = printed.foot, drawn, paper
        self._measure, self._size = measure, size
        self._wide = paper.wide - 2 * MARGIN
        blocks = printed.paper.blocks
        marks = [measure(block.mark, size, True) for block in blocks if block.mark]
        self._marks = max(marks) + GUTTER if marks else 0.0
        self._words_at = self._marks + BOX + GUTTER
        self._under_heading = {id(block) for before, block in pairwise(blocks) if before.kind == "heading"}
        self._going_on = {id(block) for block, after in pairwise(blocks) if after.kind == "under"}

    def lines(self, block: Block) -> list[Line]:
        """The lines of a block; those of a heading are kept with what follows, those of a tick together."""
        match block.kind:
            case "title":
                return self._title(block)
            case "heading" | "part":
                return [line._replace(kept=True) for line in self._text(block.text, bold=True)]
            case "item":
                return self._item(block)
            case "tick":
                return self._tick(block)
            case "under":
                return self._kept(block, self._text(block.text, self._words_at, size=self._size * UNDER))
            case "cells":
                return [self._cells(block)]
            case "room":
                left = block.indent * COLUMN
                return [Line(PENCIL, (Box(left, PENCIL - HAIR, self._wide - left, HAIR, INK),))]
            case "rule":
                return [Line(self._pitch, (Box(0.0, self._pitch / 2, self._wide, 3 * HAIR, INK),))]
            case "page":
                return [Line(0.0, (), last=True)]
            case "picture":
                return self._picture(self._drawn.get(block.text, ()))
            case "blank":
                return [Line(self._pitch * 0.5, (), kept=id(block) in self._under_heading)]
            case _:
                return self._text(block.text, block.indent * COLUMN)

    def foot(self, page: int, pages: int) -> tuple[Shape, ...]:
        """The line at the foot: what paper of which garden it is, and the number of the page."""
        base, size = self._paper.high - FOOT, 9.0
        number = f"page {page} of {pages}"
        wide = self._measure(number, size, False)
        room = self._wide - wide - GUTTER
        return (
            Words(MARGIN, base, room, self._fitted(self._foot, room, size), GREY, False, size),
            Words(MARGIN + self._wide - wide, base, wide, number, GREY, False, size),
        )

    @property
    def _pitch(self) -> float:
        return self._size * POINT * PITCH

    def _text(
        self,
        text: str,
        left: float = 0.0,
        right: float = 0.0,
        *,
        size: float | None = None,
        bold: bool = False,
    ) -> list[Line]:
        size = size or self._size
        high, room = size * POINT * PITCH, self._wide - left - right
        return [
            Line(high, (Words(left, high * 0.78, room, line, INK, bold, size),))
            for line in self._wrapped(text, room, size, bold)
        ]

    def _title(self, block: Block) -> list[Line]:
        size, beside = self._size * 1.3, self._measure(block.right, self._size, True)
        first, *rest = self._text(block.text, right=beside + GUTTER if beside else 0.0, size=size, bold=True)
        if beside:
            word = Words(self._wide - beside, first.high * 0.78, beside, block.right, INK, True, self._size)
            first = first._replace(marks=(*first.marks, word))
        return [line._replace(kept=True) for line in (first, *rest)]

    def _item(self, block: Block) -> list[Line]:
        left = block.indent * COLUMN
        first, *rest = self._text(block.text, left + 2 * COLUMN)
        dot = Disc(left + COLUMN * 0.7, first.high * 0.55, 0.55, INK)
        return [first._replace(marks=(dot, *first.marks)), *rest]

    def _tick(self, block: Block) -> list[Line]:
        """A square, its number before it, what is to be done beside it, how long it takes at the margin."""
        beside = self._measure(block.right, self._size, False)
        first, *rest = self._text(block.text, self._words_at, beside + GUTTER if beside else 0.0, bold=True)
        high = max(first.high, BOX + 1.0)
        base = high - first.high * 0.22
        before: list[Shape] = list(_square(self._marks, base + 0.8 - BOX, BOX))
        if block.mark:
            wide = self._measure(block.mark, self._size, True)
            before.append(Words(self._marks - GUTTER - wide, base, wide, block.mark, INK, True, self._size))
        lines = [Line(high, (*before, *(mark._replace(y=base) for mark in first.marks))), *rest]
        if beside:  # last, so that the words of a line are read in one
            up = sum(line.high for line in lines[:-1])
            word = Words(self._wide - beside, base - up, beside, block.right, INK, False, self._size)
            lines[-1] = lines[-1]._replace(marks=(*lines[-1].marks, word))
        return self._kept(block, lines)

    def _kept(self, block: Block, lines: list[Line]) -> list[Line]:
        """Lines kept together, and with what belongs to the same tick after them."""
        goes_on = id(block) in self._going_on
        return [line._replace(kept=goes_on or n < len(lines)) for n, line in enumerate(lines, 1)]

    def _cells(self, block: Block) -> Line:
        marks: list[Shape] = []
        at = 0.0
        for text, columns in block.cells:
            room = self._wide * columns / WIDTH
            fitted = self._fitted(text, room - GUTTER, self._size)
            marks.append(Words(at, self._pitch * 0.78, room, fitted, INK, block.head, self._size))
            at += room
        return Line(self._pitch, tuple(marks), kept=block.head)

    def _picture(self, rows: Sequence[Row]) -> list[Line]:
        if not rows:
            return []
        room = self._paper.high - 2 * MARGIN
        scale = min(self._wide / (DRAWN * WIDE), room / (len(rows) * HIGH))
        marks = tuple(_scaled(shape, scale) for shape in shapes_of(rows, Look("none")))
        return [Line(len(rows) * HIGH * scale, marks)]

    def _wrapped(self, text: str, room: float, size: float, bold: bool) -> list[str]:
        lines = [""]
        for word in text.split(" "):
            longer = f"{lines[-1]} {word}" if lines[-1] else word
            if self._measure(longer, size, bold) <= room:
                lines[-1] = longer
                continue
            pieces = self._divided(word, room, size, bold)
            lines += pieces if lines[-1] else []
            lines = lines if lines[-1] else pieces
        return lines

    def _divided(self, word: str, room: float, size: float, bold: bool) -> list[str]:
        """A word in pieces of which each fits a line."""
        pieces = [""]
        for letter in word:
            if pieces[-1] and self._measure(pieces[-1] + letter, size, bold) > room:
                pieces.append("")
            pieces[-1] += letter
        return pieces

    def _fitted(self, text: str, room: float, size: float) -> str:
        """A text that fits one line, with an ellipsis where something is left out."""
        if self._measure(text, size, False) <= room:
            return text
        while text and self._measure(f"{text}…", size, False) > room:
            text = text[:-1]
        return f"{text.rstrip()}…"


def _square(x: float, y: float, side: float) -> tuple[Shape, ...]:
    thick = 2 * HAIR
    return (
        Box(x, y, side, thick, INK),
        Box(x, y + side - thick, side, thick, INK),
        Box(x, y, thick, side, INK),
        Box(x + side - thick, y, thick, side, INK),
    )


def _scaled(shape: Shape, scale: float) -> Shape:
    """A shape of a drawing as it stands on paper [mm], its type in points."""
    x, y = shape.x * scale, shape.y * scale
    match shape:
        case Words():
            return shape._replace(x=x, y=y, room=shape.room * scale, size=shape.size * scale / POINT)
        case Disc():
            return shape._replace(x=x, y=y, radius=shape.radius * scale)
        case _:
            return shape._replace(x=x, y=y, wide=shape.wide * scale, high=shape.high * scale)
