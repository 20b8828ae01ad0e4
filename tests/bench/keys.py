"""How long a key takes, from the hand to the screen, on every page of the program in a pseudo-terminal."""

from __future__ import annotations

import time
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from tests.bench.first_picture import Started
from tests.stories.terminal import COMMAND

QUIET_S = 0.06  # a picture is whole when nothing more has come for so long
NOTHING_S = 1.5  # a key of the bar that has changed nothing by then changes nothing
PAGE_S = 60.0  # every page comes, however late
READ_S = 2.0  # so long a page is looked at before the next key
FIRST = b"What needs hands this week?"


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
    words : sequence of str
        The words after `leafturn`.
    """

    def __init__(
        self, words: Sequence[str], *, size: tuple[int, int] = (120, 40), env: Mapping[str, str] | None = None
    ) -> None:
        super().__init__([*COMMAND, *words], size=size, env=env)

    def wait(self, quiet: float, *, most: float = 120.0) -> tuple[float, float]:
        """When the first and the last byte came, until nothing came for `quiet` seconds; 0 if none did."""
        begun = time.perf_counter()
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
        """Look at the page until nothing has come for a while, as readers do."""
        while self.read(READ_S) is not None:
            pass

    def press(self, page: str, key: str, sent: str) -> Press:
        """One key, and its picture."""
        self.write(sent.encode())
        return Press(page, key, *self.wait(QUIET_S, most=PAGE_S if key == "page" else NOTHING_S))


DOWN, END, HOME = "\x1b[B", "\x1b[F", "\x1b[H"


def walk(words: Sequence[str], env: Mapping[str, str] | None = None) -> list[Press]:
    """Every page opened once, and on each the bar moved down ten times, to the end and to the beginning.

    The bar is moved once the page stands: one that reckons long tells meanwhile how far it is.
    """
    pages = Pages(words, env=env)
    try:
        pages.until(FIRST)
        pressed = []
        for digit in "2345678901":
            pages.look()
            pressed.append(pages.press(digit, "page", digit))
            pages.look()
            pressed += [pages.press(digit, "down", DOWN) for _ in range(10)]
            pressed += [pages.press(digit, "end", END), pages.press(digit, "home", HOME)]
        return pressed
    finally:
        pages.close()
