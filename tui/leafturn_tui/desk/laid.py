"""Pages as they were laid, kept until something about them changes."""

from __future__ import annotations

import threading
from collections.abc import MutableMapping
from typing import TYPE_CHECKING, NamedTuple
from weakref import WeakKeyDictionary

from leafturn_tui.desk.frame import Frame
from leafturn_tui.text.layout import Row

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace
    from leafturn_tui.host import PageFace


class LaidPage(NamedTuple):
    """A page's list and what stands over it.

    Parameters
    ----------
    head : list of Row
        What stands between the page bar and the list.
    rows : list of Row
        The list.
    """

    head: list[Row]
    rows: list[Row]


class Laid:
    """Lays each page once for one almanac, in whichever thread asks first; the other waits for it.

    A page is laid anew where the almanac, the room, or what keys have turned on the page is another.

    Parameters
    ----------
    colours : bool
        Whether the terminal shows any.
    """

    def __init__(self, *, colours: bool) -> None:
        self.colours = colours
        self._almanac: AlmanacFace | None = None
        self._kept: MutableMapping[PageFace, tuple[tuple[object, ...], LaidPage]] = WeakKeyDictionary()
        self._laying: MutableMapping[PageFace, threading.Lock] = WeakKeyDictionary()

    def turn(self, almanac: AlmanacFace) -> None:
        """Pages of this almanac are wanted from now on; those of another are forgotten."""
        if almanac is not self._almanac:
            self._almanac = almanac
            self._kept.clear()

    def page(self, frame: Frame) -> LaidPage:
        """The frame's page."""
        page, almanac = frame.page, frame.almanac
        with self._laying.setdefault(page, threading.Lock()):
            page.colours, page.height = self.colours, frame.height
            asked = (frame.width, frame.height, frame.lost, *page.turned)
            kept_for, kept = self._kept.get(page, ((), None))
            if kept is not None and kept_for == asked and almanac is self._almanac:
                return kept
            laid = LaidPage(frame.over_list(), page.rows(almanac, frame.rows_width))
            if almanac is self._almanac:
                self._kept[page] = asked, laid
            return laid
