"""A paper as people get it: its blocks, its drawings, and what stands at the foot of each of its pages."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Mapping, Sequence
from types import MappingProxyType
from typing import TYPE_CHECKING

from msgspec import field

from leafturn.base.day_words import full_day
from leafturn.base.value import Value
from leafturn.papers.page_layout import WIDTH, Block, Paper
from leafturn_tui.safe_text import safe_text
from leafturn_tui.text.layout import Row

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

Picture = Callable[[int], Sequence[Row]]
"""A drawing of at most so many columns."""


def foot_of(almanac: AlmanacFace, what: str) -> str:
    """What stands at the foot of each page: the garden, what the paper is, and the day it was made for."""
    name = almanac.garden.place.name.strip()
    return safe_text(f"{f'{name}: ' if name else ''}{what}, {full_day(almanac.on)}")


class Printed(Value):
    """A paper with its drawings.

    Parameters
    ----------
    paper : Paper
    foot : str
        What the paper is, of which garden and of which day.
    on : date
        The day it was made for.
    pictures : mapping of str to Picture
        By the names of the paper's picture blocks; a picture without a drawing is left out.
    one_page : bool
        Whether its type may be smaller so that each of its pages stays one.
    """

    paper: Paper
    foot: str
    on: dt.date
    pictures: Mapping[str, Picture] = field(default_factory=lambda: MappingProxyType({}))
    one_page: bool = False

    @property
    def pages(self) -> tuple[tuple[str, ...], ...]:
        """The paper in fixed type, as far as its pages are parted there."""
        pages: list[list[str]] = [[]]
        for block in self.paper.blocks:
            if block.kind == "page":
                pages.append([])
            pages[-1] += self._lines(block)
        return tuple(map(tuple, pages))

    @property
    def lines(self) -> tuple[str, ...]:
        """All of its pages in fixed type."""
        return tuple(line for page in self.pages for line in page)

    def _lines(self, block: Block) -> tuple[str, ...]:
        """A block in fixed type; a paper of one page has no room for drawings there."""
        if block.kind != "picture" or self.one_page:
            return block.lines
        drawn = self.picture_lines(block.text)
        return ("", *drawn) if drawn else ()

    def picture_lines(self, name: str) -> tuple[str, ...]:
        """A drawing as lines of characters; empty without one."""
        drawn = self.pictures[name](WIDTH) if name in self.pictures else ()
        return tuple(row.text.rstrip() for row in drawn)
