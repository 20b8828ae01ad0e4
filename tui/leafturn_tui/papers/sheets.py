"""Sheets of paper, and lines laid on as many of them as they take.

Places and lengths are in millimetres from the upper left corner of a page, type in points.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from leafturn_tui.text.shapes import Shape

MARGIN = 15.0  # common practice, no source


class Size(NamedTuple):
    """A sheet of paper [mm]."""

    wide: float
    high: float


PAPERS = {
    "a4": Size(210.0, 297.0),
    "letter": Size(215.9, 279.4),
}  # ISO 216; ANSI/ASME Y14.1, 8.5 by 11 inches


class Line(NamedTuple):
    """What stands on a line, from its own top; `kept` with the one after it, or the `last` of its page."""

    high: float
    marks: tuple[Shape, ...]
    kept: bool = False
    last: bool = False


Page = tuple[Shape, ...]


def on_pages(lines: Sequence[Line], paper: Size) -> list[Page]:
    """Lines from above, those that are kept together on one page where a page can hold them."""
    room = paper.high - 2 * MARGIN
    pages: list[list[Shape]] = [[]]
    at = 0.0
    for group in _groups(lines):
        high = sum(line.high for line in group)
        if at and at + high > room and high <= room:
            pages.append([])
            at = 0.0
        for line in group:
            if at and at + line.high > room:
                pages.append([])
                at = 0.0
            if not at and not line.marks:
                continue  # no page begins with a blank
            pages[-1] += [_moved(mark, MARGIN, MARGIN + at) for mark in line.marks]
            at += line.high
        if group[-1].last:
            pages.append([])
            at = 0.0
    return [tuple(page) for page in pages if page] or [()]


def _groups(lines: Sequence[Line]) -> Iterator[list[Line]]:
    group: list[Line] = []
    for line in lines:
        group.append(line)
        if not line.kept:
            yield group
            group = []
    if group:
        yield group


def _moved(mark: Shape, right: float, down: float) -> Shape:
    return mark._replace(x=mark.x + right, y=mark.y + down)
