"""Pages not yet opened are asked while no key is pressed, so that the first keys find their answers ready."""

from __future__ import annotations

import contextlib
import gc
from collections.abc import Iterator, Mapping
from functools import partial
from typing import TYPE_CHECKING

from msgspec.structs import replace
from textual.timer import Timer

from leafturn_tui.desk import behind
from leafturn_tui.desk.frame import Frame
from leafturn_tui.desk.laid import Laid
from leafturn_tui.desk.whole_picture import whole_picture
from leafturn_tui.desk.worker import Stopped, take_short_turns
from leafturn_tui.host import PageFace

if TYPE_CHECKING:
    from textual.screen import Screen

    from leafturn_tui.almanac_face import AlmanacFace

QUIET_S = 0.3  # guess: hands that have pressed no key for so long are reading


class Beforehand:
    """Asks one page after another in a thread, and begins none within a moment of a key.

    What they answer is kept by the almanac and by themselves, and they stay laid. A page that waits
    for long work comes last, and a key that is pressed meanwhile leaves the work to the page.

    Parameters
    ----------
    screen : Screen
        No more is asked when it goes.
    pages : mapping of key to PageFace
        All that can be turned to; a page that was shown is asked no more.
    """

    def __init__(self, screen: Screen[None], pages: Mapping[str, PageFace]) -> None:
        self._screen, self._pages = screen, pages
        self._laid: Laid | None = None
        self._is_cleared = True  # of the almanac before
        self._frame: Frame | None = None
        self._left: Iterator[tuple[str, PageFace]] = iter(())
        self._seen: set[str] = set()  # keys of pages that were turned to
        self._answered = 0  # keys since the screen came
        self._quiet: Timer | None = None  # runs while a key was pressed a moment ago
        self._is_asking = False

    def key_answered(self, frame: Frame, laid: Laid) -> None:
        """Go on in a moment, of another almanac from the beginning.

        Parameters
        ----------
        frame : Frame
            What the screen shows now.
        laid : Laid
            Keeps what pages answer.
        """
        if self._laid is not laid:
            self._is_cleared = self._laid is None
            self._laid = laid
            self._left, self._seen = iter(self._in_order(frame.almanac)), set()
        self._frame = frame
        self._seen.add(frame.shown)
        self._answered += 1
        if self._quiet is not None:
            self._quiet.stop()
        self._quiet = self._screen.set_timer(QUIET_S, self._moment_is_over)

    def _in_order(self, almanac: AlmanacFace) -> list[tuple[str, PageFace]]:
        """Those that wait for long work last."""
        return sorted(self._pages.items(), key=lambda named: named[1].slow(almanac) is not None)

    def _moment_is_over(self) -> None:
        self._quiet = None
        self._ask_next()

    def _ask_next(self) -> None:
        if self._is_asking or self._quiet is not None or self._frame is None or self._laid is None:
            return
        page = next((page for key, page in self._left if key not in self._seen), None)
        if page is not None:
            self._is_asking = True
            behind.begin(partial(self._ask, self._frame, page, self._laid, self._answered))
        elif not self._is_cleared:
            self._is_cleared = True
            gc.collect()  # which a key would wait for, and Python does not do while pages are shown

    def _ask(self, shown: Frame, page: PageFace, laid: Laid, answered: int) -> None:
        """In the thread: have a page answer. What goes wrong is told when the page is opened."""

        def progress(done: int, of: int) -> None:
            if self._answered != answered or not self._screen.is_running:
                raise Stopped

        take_short_turns()
        with contextlib.suppress(Exception):
            if shown.page.slow(shown.almanac) is None:
                laid.page(shown).wait()  # which a key waits for already
            frame = replace(shown, page=page)
            if slow := page.slow(frame.almanac):
                slow.work(progress)
            whole_picture(frame, laid)
            for row in [row for row in laid.page(frame).wait().rows if row.key][: frame.height]:
                if self._screen.is_running:
                    laid.told(frame, row).wait()
        with contextlib.suppress(RuntimeError):  # the program has left meanwhile
            self._screen.call_later(self._has_asked)

    def _has_asked(self) -> None:
        self._is_asking = False
        self._ask_next()
