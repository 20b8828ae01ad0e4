"""A page of its own for one line of a list: groups of sentences under headings."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import TYPE_CHECKING, TypeVar

from leafturn_tui.pages.base import WHOLE, Page
from leafturn_tui.render.parts.groups import Groups
from leafturn_tui.text.layout import BLANK, Row, heading, paragraph

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

T = TypeVar("T")


class Detail(Page):
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

    @property
    def list_width(self) -> int:
        """What is about no plant has no story beside it: its sentences are the whole of it."""
        return 0 if self._plant else WHOLE

    def has_why(self, row: Row) -> bool:
        """A sentence stands here whole; of a plant there is more."""
        return bool(self._plant)

    def gone(self, almanac: AlmanacFace) -> bool:
        """Whether it is no longer there."""
        return self._find(almanac) is None

    def heading(self, almanac: AlmanacFace) -> str:
        """What it is."""
        return self._title

    def rows(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """The groups that have something to say."""
        return group_rows(self._find(almanac) or (), width, self._plant)


def detail_of(
    title: str, one: Callable[[AlmanacFace], T | None], groups: Callable[[T, AlmanacFace], Groups], plant: str
) -> Detail:
    """The page of one thing, looked up anew in whatever almanac is shown.

    Parameters
    ----------
    one : callable
        Gives the thing from an almanac; None where it is no longer there.
    groups : callable
        Its groups of sentences.
    plant : str
        Id of the plant or heap it is about.
    """

    def find(almanac: AlmanacFace) -> Groups | None:
        found = one(almanac)
        return None if found is None else groups(found, almanac)

    return Detail(title, find, plant)


def group_rows(groups: Groups, width: int, plant: str = "") -> list[Row]:
    """Groups of sentences as rows; the bar rests on the first line of each sentence."""

    def rows_of(title: str, sentences: Sequence[str]) -> Iterator[Row]:
        for n, sentence in enumerate(sentences):
            first, *rest = paragraph(sentence, width, indent=1)
            yield Row(first.pieces, f"{title} {n}", sentence, plant)
            yield from rest

    return titled((title, list(rows_of(title, sentences))) for title, sentences in groups)


def titled(groups: Iterable[tuple[str, Sequence[Row]]]) -> list[Row]:
    """The groups that have rows, each under its title, with a blank line between them."""
    rows: list[Row] = []
    for title, own in groups:
        if own:
            rows += ([BLANK] if rows else []) + ([heading(title)] if title else [])
            rows += own
    return rows
