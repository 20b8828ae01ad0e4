"""What keys to come may ask is asked while none is pressed: of lines near the bar, then of other pages."""

from __future__ import annotations

import contextlib
import gc
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import partial
from typing import TYPE_CHECKING

from msgspec.structs import replace
from textual.timer import Timer

from leafturn_tui.desk import behind
from leafturn_tui.desk.frame import Frame
from leafturn_tui.desk.laid import Laid
from leafturn_tui.desk.whole_picture import whole_picture
from leafturn_tui.desk.worker import Stopped
from leafturn_tui.host import PageFace
from leafturn_tui.text.layout import Row

if TYPE_CHECKING:
    from textual.screen import Screen

    from leafturn_tui.almanac_face import AlmanacFace

QUIET_S = 0.3  # guess: hands that have pressed no key for so long are reading
REST_S = 10.0  # guess: those that have pressed none for so long are elsewhere, mostly for longer


class Beforehand:
    """Asks in a thread what is told of the lines near the bar, then one page after another.

    It begins nothing within a moment of a key.

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
        self._near: Sequence[Row] = ()  # lines of the page that is shown
        self._left: Iterator[tuple[str, PageFace]] = iter(())
        self._seen: set[str] = set()  # keys of pages that were turned to
        self._answered = 0  # keys since the screen came
        self._quiet: Timer | None = None  # runs while a key was pressed a moment ago
        self._is_asking = False

    def key_answered(self, frame: Frame, laid: Laid, near: Sequence[Row]) -> None:
        """Go on in a moment, of another almanac from the beginning.

        Parameters
        ----------
        frame : Frame
            What the screen shows now.
        laid : Laid
            Keeps what pages answer.
        near : sequence of Row
            Lines that the bar may rest on next.
        """
        if self._laid is not laid:
            self._is_cleared = self._laid is None
            self._laid = laid
            self._left, self._seen = iter(self._in_order(frame.almanac)), set()
        self._frame, self._near = frame, near
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
        near, self._near = self._near, ()
        if near:
            self._begin(partial(self._ask_lines, self._frame, near, self._laid, self._answered))
        elif page := next((page for key, page in self._left if key not in self._seen), None):
            self._begin(partial(self._ask, self._frame, page, self._laid, self._answered))
        elif not self._is_cleared:
            self._quiet = self._screen.set_timer(REST_S, self._clear)

    def _clear(self) -> None:
        """Look among all objects for rings that nobody holds, such as an almanac before this one."""
        self._quiet = None
        self._is_cleared = True
        gc.collect()  # which a key would wait for, and Python does not do while pages are shown

    def _begin(self, asking: Callable[[], None]) -> None:
        """Ask in a thread. What goes wrong there is told when what was asked for is shown."""

        def ask() -> None:
            with contextlib.suppress(Exception):
                asking()
            with contextlib.suppress(RuntimeError):  # the program has left meanwhile
                self._screen.call_later(self._has_asked)

        self._is_asking = True
        behind.begin(ask)

    def _ask_lines(self, frame: Frame, rows: Sequence[Row], laid: Laid, answered: int) -> None:
        """In the thread: have told what is told of lines, until a key is pressed."""
        for row in rows:
            if self._answered != answered or not self._screen.is_running:
                return
            laid.told(frame, row).wait()

    def _ask(self, shown: Frame, page: PageFace, laid: Laid, answered: int) -> None:
        """In the thread: have a page answer."""

        def progress(done: int, of: int) -> None:
            if self._answered != answered or not self._screen.is_running:
                raise Stopped

        if shown.page.slow(shown.almanac) is None:
            laid.page(shown).wait()  # which a key waits for already
        frame = replace(shown, page=page)
        if slow := page.slow(frame.almanac):
            slow.work(progress)
        whole_picture(frame, laid)
        rows = [row for row in laid.page(frame).wait().rows if row.key]
        self._ask_lines(frame, [*rows[: frame.height], *rows[-1:]], laid, answered)

    def _has_asked(self) -> None:
        self._is_asking = False
        self._ask_next()
