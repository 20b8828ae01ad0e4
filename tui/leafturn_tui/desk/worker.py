"""Slow work in a thread of its own: how far it has come, and a way to stop it."""

from __future__ import annotations

import threading
from typing import TYPE_CHECKING

from leafturn_tui.host import PageFace, Slow
from leafturn_tui.text.layout import Row, paragraph, row

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

PATIENCE = 0.25  # seconds that a key may take before a page tells how far its work has come
_BAR = 30


class Stopped(Exception):
    """Raised inside the work when it is no longer wanted."""


class Reckoning:
    """One piece of work for one page of one almanac.

    Parameters
    ----------
    page : PageFace
    almanac : AlmanacFace
    slow : Slow
        What is to be done.
    """

    def __init__(self, page: PageFace, almanac: AlmanacFace, slow: Slow) -> None:
        self.page = page
        self.almanac = almanac
        self.what = slow.what
        self.done, self.of = 0, 0
        self.failure: Exception | None = None
        self._work = slow.work
        self._unwanted = threading.Event()
        self._thread = threading.Thread(target=self._run, name="reckoning", daemon=True)

    def start(self) -> None:
        """Begin, and wait a moment: most gardens are done by then."""
        self._thread.start()
        self._thread.join(PATIENCE)

    @property
    def running(self) -> bool:
        """Whether it is still at work."""
        return self._thread.is_alive()

    @property
    def stopped(self) -> bool:
        """Whether someone has stopped it."""
        return self._unwanted.is_set()

    def stop(self) -> None:
        """Let it end at the next chance."""
        self._unwanted.set()

    def fits(self, page: PageFace, almanac: AlmanacFace, what: str) -> bool:
        """Whether this is the work that a page of an almanac waits for."""
        return self.page is page and self.almanac is almanac and self.what == what

    def _run(self) -> None:
        try:
            self._work(self._progress)
        except Stopped:
            pass
        except Exception as why:  # told by the desk, where it can be seen
            self.failure = why

    def _progress(self, done: int, of: int) -> None:
        self.done, self.of = done, of
        if self.stopped:
            raise Stopped

    def rows(self, width: int) -> list[Row]:
        """How far it has come, in words and as a line."""
        if self.stopped:
            said = f"Stopped: {self.what} is not reckoned. Come back to the page by its digit to begin again."
            return paragraph(said, width)
        share = self.done / self.of if self.of else 0.0
        filled = round(share * _BAR)
        far = f"{round(100 * share)} in 100 done" if self.of else "just begun"
        return [
            *paragraph(f"Reckoning {self.what}: {far}.", width),
            row("=" * filled + "." * (_BAR - filled)),
            *paragraph("Esc stops it. Other pages can be opened meanwhile.", width),
        ]


class SlowWork:
    """The work that the page on top waits for, one at a time."""

    def __init__(self) -> None:
        self._now: Reckoning | None = None

    @property
    def running(self) -> bool:
        """Whether anything is at work."""
        return self._now is not None and self._now.running

    @property
    def failure(self) -> Exception | None:
        """What went wrong in it."""
        return self._now.failure if self._now else None

    def is_of(self, page: PageFace) -> bool:
        """Whether the work begun last is this page's."""
        return self._now is not None and self._now.page is page

    def waited_for(self, page: PageFace, almanac: AlmanacFace) -> Reckoning | None:
        """The work that a page waits for, at work or stopped; None if it waits for none that is begun."""
        slow = page.slow(almanac)
        fits = slow is not None and self._now is not None and self._now.fits(page, almanac, slow.what)
        return self._now if fits else None

    def begin(self, page: PageFace, almanac: AlmanacFace) -> bool:
        """Begin what a page waits for, unless it is begun; work for another almanac is let go."""
        slow = page.slow(almanac)
        if slow is None or self.waited_for(page, almanac):
            return False
        if self._now is not None:
            self._now.stop()
        self._now = Reckoning(page, almanac, slow)
        self._now.start()
        return True

    def forget_stopped(self) -> None:
        """Let stopped work be begun again."""
        if self._now is not None and self._now.stopped:
            self._now = None
