"""A page of its own for one line of a list: groups of sentences under headings."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from leafturn_tui.pages.base import Page
from leafturn_tui.render.parts.groups import Groups
from leafturn_tui.text.layout import BLANK, Row, heading, paragraph

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace


class Told(Page):
    """All that is known of one thing.

    Parameters
    ----------
    title : str
        The first line.
    find : callable
        Gives the groups of sentences from an almanac; None where the thing is no longer there.
    plant : str
        Id of the plant or heap it is about.
    """

    def __init__(self, title: str, find: Callable[[AlmanacFace], Groups | None], plant: str = "") -> None:
        self._title = title
        self._find = find
        self._plant = plant

    def gone(self, almanac: AlmanacFace) -> bool:
        """Whether it is no longer there."""
        return self._find(almanac) is None

    def heading(self, almanac: AlmanacFace) -> str:
        """What it is."""
        return self._title

    def rows(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """The groups that have something to say."""
        return group_rows(self._find(almanac) or (), width, self._plant)


def group_rows(groups: Groups, width: int, plant: str = "") -> list[Row]:
    """Groups of sentences as rows; the bar rests on the first line of each sentence."""
    rows: list[Row] = []
    for title, sentences in groups:
        if not sentences:
            continue
        rows += ([BLANK] if rows else []) + ([heading(title)] if title else [])
        for n, sentence in enumerate(sentences):
            first, *rest = paragraph(sentence, width, indent=1)
            rows.append(Row(first.pieces, f"{title} {n}", sentence, plant))
            rows += rest
    return rows
