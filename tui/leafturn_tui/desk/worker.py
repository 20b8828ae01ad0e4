"""Slow work in a Textual worker with a thread: how far it has come, and a way to stop it."""

from __future__ import annotations

import contextlib
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING

from textual.message import Message
from textual.worker import Worker, get_current_worker

from leafturn_tui.host import PageFace, Slow
from leafturn_tui.text.layout import Row, paragraph, row

if TYPE_CHECKING:
    from textual.screen import Screen

    from leafturn_tui.almanac_face import AlmanacFace

_BAR = 30


class Stopped(Exception):
    """Raised inside the work when it is no longer wanted."""


class CameBack(Message):
    """Sent to the screen from the thread: what was done behind it has ended."""

    def __init__(self, said: str, after: Callable[[], None]) -> None:
        super().__init__()
        self.said, self.after = said, after


class CameFar(Message):
    """Sent to the screen from the thread: the worker has done so much of so much."""

    def __init__(self, worker: Worker[object], done: int, of: int) -> None:
        super().__init__()
        self.worker, self.done, self.of = worker, done, of


@dataclass
class Reckoning:
    """One piece of work for one page of one almanac, and how far it has come."""

    page: PageFace
    almanac: AlmanacFace
    what: str
    worker: Worker[object]
    done: int = 0
    of: int = 0

    @property
    def stopped(self) -> bool:
        """Whether someone has stopped it."""
        return self.worker.is_cancelled

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
    """The work that the page on top waits for, one at a time.

    Parameters
    ----------
    screen : Screen
        Runs the worker and is sent what becomes of it; the worker ends when the screen goes.
    """

    def __init__(self, screen: Screen[None]) -> None:
        self._screen = screen
        self._now: Reckoning | None = None

    def waited_for(self, page: PageFace, almanac: AlmanacFace) -> Reckoning | None:
        """The work that a page waits for, at work or stopped; None if it waits for none that is begun."""
        slow, now = page.slow(almanac), self._now
        if slow is None or now is None:
            return None
        return now if now.page is page and now.almanac is almanac and now.what == slow.what else None

    def begin(self, page: PageFace, almanac: AlmanacFace) -> Reckoning | None:
        """Begin what a page waits for, unless it is begun, and give it; work for another page is let go."""
        slow = page.slow(almanac)
        if slow is not None and self.waited_for(page, almanac) is None:
            worker = self._screen.run_worker(
                partial(_run, self._screen, slow), group="reckoning", exclusive=True, thread=True,
                exit_on_error=False,
            )  # fmt: skip
            self._now = Reckoning(page, almanac, slow.what, worker)
        return self.waited_for(page, almanac)

    def came_far(self, worker: Worker[object], done: int, of: int) -> None:
        """Keep how far the work has come, if it is still the work waited for."""
        if self._now is not None and self._now.worker is worker:
            self._now.done, self._now.of = done, of

    def is_of(self, page: PageFace) -> bool:
        """Whether the work begun last is this page's."""
        return self._now is not None and self._now.page is page

    def forget_stopped(self) -> None:
        """Let stopped work be begun again."""
        if self._now is not None and self._now.stopped:
            self._now = None


def _run(screen: Screen[None], slow: Slow) -> object:
    """In the thread: do the work, tell the screen how far it is, end soon after it is stopped."""
    worker: Worker[object] = get_current_worker()
    told = -1  # in 100, so that the screen is drawn at most a hundred times

    def progress(done: int, of: int) -> None:
        nonlocal told
        if worker.is_cancelled:
            raise Stopped
        if of and (share := 100 * done // of) != told:
            told = share
            screen.post_message(CameFar(worker, done, of))

    return slow.work(progress)


def run_behind(screen: Screen[None], work: Callable[[], str], after: Callable[[], None]) -> None:
    """Do work in a thread while the screen goes on; it is sent the sentence that the work gives."""

    screen.run_worker(partial(come_back, screen, work, after), group="behind", thread=True)


def come_back(screen: Screen[None], work: Callable[[], str], after: Callable[[], None]) -> None:
    """In a thread: do work, and send the screen the sentence it gives; a slip in it is raised there."""
    try:
        said = work()
    except Exception as slip:
        said, after = "", partial(_raise, slip)
    with contextlib.suppress(RuntimeError):  # the program has left meanwhile
        screen.post_message(CameBack(said, after))


def _raise(slip: Exception) -> None:
    raise slip
