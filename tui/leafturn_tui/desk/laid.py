"""Pages as they were laid and what is told of their lines, kept until something about them changes."""

from __future__ import annotations

import threading
from collections.abc import Callable, MutableMapping
from functools import partial
from typing import TYPE_CHECKING, NamedTuple
from weakref import WeakKeyDictionary

from leafturn.base.value import Value
from leafturn_tui.desk.frame import Frame, Told
from leafturn_tui.desk.once import Once
from leafturn_tui.text.layout import Row

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace
    from leafturn_tui.desk.page_bar import Tab
    from leafturn_tui.host import PageFace


class LaidPage(NamedTuple):
    """A page's list and what stands over it.

    Parameters
    ----------
    head : list of Row
        What stands between the page bar and the list.
    rows : list of Row
        The list.
    start : int
        The line the bar rests on when the page opens.
    """

    head: list[Row]
    rows: list[Row]
    start: int


class _OfPage(Value, kw_only=False):
    """A page as it was asked last: what for, its list, and what is told by key of a line."""

    asked: tuple[object, ...]
    laid: Once[LaidPage]
    told: dict[str, Once[Told]]


class Laid:
    """Lays each page of one almanac once, in whichever thread asks first; the other waits for it.

    A page is laid anew where the room, or what keys have turned on the page is another.

    Parameters
    ----------
    almanac : AlmanacFace
    tabs : callable
        What the page bar asks of an almanac.
    colours : bool
        Whether the terminal shows any.
    """

    def __init__(
        self, almanac: AlmanacFace, tabs: Callable[[AlmanacFace], tuple[Tab, ...]], *, colours: bool
    ) -> None:
        self.almanac, self.colours = almanac, colours
        self.tabs = Once(partial(tabs, almanac))
        self._asking = threading.Lock()
        self._kept: MutableMapping[PageFace, _OfPage] = WeakKeyDictionary()

    def page(self, frame: Frame) -> Once[LaidPage]:
        """The frame's page."""
        return self._of(frame).laid

    def told(self, frame: Frame, row: Row | None) -> Once[Told]:
        """What is told of a line of the frame's page; None where it has no line that can be chosen."""
        told = self._of(frame).told
        return told.setdefault(row.key if row else "", Once(partial(frame.told, row)))

    def _of(self, frame: Frame) -> _OfPage:
        page = frame.page
        with self._asking:
            page.colours, page.height = self.colours, frame.height
            asked = (frame.width, frame.height, frame.lost, *page.turned)
            kept = self._kept.get(page)
            if kept is None or kept.asked != asked:
                kept = self._kept[page] = _OfPage(asked, Once(partial(self._lay, frame)), {})
            return kept

    def _lay(self, frame: Frame) -> LaidPage:
        page, almanac = frame.page, frame.almanac
        rows = page.rows(almanac, frame.rows_width)
        return LaidPage(frame.over_list(), rows, page.start(almanac, rows))
