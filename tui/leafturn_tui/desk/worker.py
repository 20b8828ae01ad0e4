"""Slow work in a thread of its own: how far it has come, and a way to stop it."""

from __future__ import annotations

import threading
from typing import TYPE_CHECKING

from leafturn_tui.pages.base import Page, Slow
from leafturn_tui.text.layout import Row, paragraph, row

if TYPE_CHECKING:
    from leafturn.almanac import Almanac

PATIENCE = 0.25  # seconds that a key may take before a page tells how far its work has come
_BAR = 30


class Stopped(Exception):
    """Raised inside the work when it is no longer wanted."""


class Reckoning:
    """One piece of work for one page of one almanac.

    Parameters
    ----------
    page : Page
    almanac : Almanac
    slow : Slow
        What is to be done.
    """

    def __init__(self, page: Page, almanac: Almanac, slow: Slow) -> None:
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

    def fits(self, page: Page, almanac: Almanac, what: str) -> bool:
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
