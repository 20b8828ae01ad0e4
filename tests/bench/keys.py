"""How long a key takes, from the hand to the screen, on every page of the program in a pseudo-terminal."""

from __future__ import annotations

import sys
import time
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from tests.bench.first_picture import Started
from tests.stories.terminal import COMMAND

from leafturn_tui.commands import PAINTS_A_SECOND

QUIET_S = 0.06  # a picture is whole when nothing more has come for so long
NOTHING_S = 1.5  # a key of the bar that has changed nothing by then changes nothing
PAGE_S = 60.0  # every page comes, however late
READ_S = 2.0  # so long a page is looked at before the next key
AT_WORK = b"Reckoning"  # told of long work until it is done
STANDS = b"chance it stands"  # on page 4, the one that waits for such work
COUNTED = "•".encode()  # in the page bar, once what waits on other pages is counted

# What a key costs at the least: one widget of as many lines, of which a key changes one.
BARE = """
from textual.app import App
from textual.geometry import Region
from textual.strip import Strip
from textual.widget import Widget
from rich.segment import Segment
class Lines(Widget):
    at = 0
    def render_line(self, y):
        return Strip([Segment(f"{'>' if y == self.at else ' '} line {y}".ljust(self.size.width))])
class Bare(App):
    BINDINGS = [("down", "move(1)"), ("end", "move(9)"), ("home", "move(8)")]
    def compose(self):
        yield Lines()
    def action_move(self, by):
        lines = self.query_one(Lines)
        lines.at = (lines.at + by) % lines.size.height
        lines.refresh(Region(0, 0, lines.size.width, lines.size.height))
Bare().run(mouse=False)
"""


class Press(NamedTuple):
    """One key: when its first byte came, and the last of its picture, both [s] from the press."""

    page: str
    key: str
    first: float
    whole: float


class Pages(Started):
    """The program on a garden, opened in a pseudo-terminal.

    Parameters
    ----------
    command : sequence of str
        What is started.
    """

    def __init__(self, command: Sequence[str], env: Mapping[str, str] | None = None) -> None:
        super().__init__(command, size=(120, 40), env=env)
        self._since = b""  # what came since the last key

    def read(self, patience: float) -> bytes | None:
        """What comes next, within so many seconds; None if nothing does."""
        came = super().read(patience)
        self._since += came or b""
        return came

    def wait(self, begun: float, quiet: float, *, most: float = 120.0) -> tuple[float, float]:
        """When the first and the last byte came, until nothing came for `quiet` seconds; 0 if none did."""
        first = last = 0.0
        while (now := time.perf_counter() - begun) < most:
            patience = quiet if first else most - now
            if self.read(patience) is None:
                break
            last = time.perf_counter() - begun
            first = first or last
        return first, last

    def until(self, words: bytes) -> None:
        """Wait until some words came."""
        came = b""
        while words not in came:
            came = came[-len(words) :] + (self.read(PAGE_S) or b"")

    def look(self) -> None:
        """Look at the page until nothing has come for a while, as readers do, and long work is done."""
        while self.read(PAGE_S if self._is_at_work else READ_S) is not None:
            pass

    @property
    def _is_at_work(self) -> bool:
        return AT_WORK in self._since and STANDS not in self._since

    def press(self, page: str, key: str, sent: str) -> Press:
        """One key, and its picture."""
        self._since = b""
        begun = time.perf_counter()  # before the key, which may be answered before this goes on
        self.write(sent.encode())
        return Press(page, key, *self.wait(begun, QUIET_S, most=PAGE_S if key == "page" else NOTHING_S))


DOWN, END, HOME = "\x1b[B", "\x1b[F", "\x1b[H"


def walk(words: Sequence[str], env: Mapping[str, str] | None = None) -> list[Press]:
    """Every page opened once, and on each the bar moved down ten times, to the end and to the beginning.

    The bar is moved once the page stands: one that reckons long tells meanwhile how far it is.

    Parameters
    ----------
    words : sequence of str
        The words after `leafturn`.
    env : mapping
        Of a cache in which no picture is kept: the first key would fall on it.
    """
    pages = Pages([*COMMAND, *words], env=env)
    try:
        pages.until(COUNTED)
        pressed = []
        for digit in "2345678901":
            pages.look()
            pressed.append(pages.press(digit, "page", digit))
            pages.look()
            pressed += _bar_moved(pages, digit)
        return pressed
    finally:
        pages.close()


def bare(env: Mapping[str, str] | None = None) -> list[Press]:
    """The same keys of the bar in a bare Textual app that paints as often, as many times."""
    pages = Pages([sys.executable, "-c", BARE], env={**(env or {}), "TEXTUAL_FPS": PAINTS_A_SECOND})
    try:
        pages.until(b"line 9")
        pages.look()
        return [press for _ in range(10) for press in _bar_moved(pages, "bare")]
    finally:
        pages.close()


def _bar_moved(pages: Pages, page: str) -> list[Press]:
    moved = [pages.press(page, "down", DOWN) for _ in range(10)]
    return [*moved, pages.press(page, "end", END), pages.press(page, "home", HOME)]
