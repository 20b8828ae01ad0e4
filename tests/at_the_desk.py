"""The pages within this process: keys in and the screen out, as `stories/terminal.py` has them at a terminal.

A process takes a second to start and each key a pause to see that nothing more is painted; here a key is
answered when the screen says so. What is of the terminal itself, stories tell there.

with AtTheDesk(garden, dt.date(2027, 4, 19)) as desk:
    desk.press("b", "enter")
    desk.wait_for("noted:")
"""

from __future__ import annotations

import asyncio
import contextvars
import datetime as dt
import os
import time
from collections.abc import Callable, Coroutine
from pathlib import Path
from types import TracebackType
from typing import Any, TypeVar
from unittest import mock

from textual import events

from leafturn_tui.app import LeafturnApp
from tests.in_process import opened
from tests.stories.terminal import KEYS, Shown
from tests.tui.screens import NAMES, key_event, screen_lines, send, settled

Answer = TypeVar("Answer")
CONTROLS = {"\r": "enter", "\x15": "ctrl+u"}


def _key(named: str) -> events.Key:
    return key_event(CONTROLS.get(named) or NAMES.get(named, named))


class AtTheDesk(Shown):
    """The pages of a garden on a day, without colour; the clock stands at two on it."""

    def __init__(self, garden: Path, on: dt.date, *, size: tuple[int, int] = (80, 24)) -> None:
        with mock.patch.dict(os.environ, {"LEAFTURN_LOOK": "none", "LEAFTURN_GLYPHS": "full"}):
            self.app = LeafturnApp(opened(garden, on), clock=lambda: dt.datetime.combine(on, dt.time(14, 5)))
        self._loop = asyncio.new_event_loop()
        self._context = contextvars.copy_context()  # Textual knows its application by this
        self._open = self.app.run_test(size=size)

    def __enter__(self) -> AtTheDesk:
        self._pilot = self._run(self._open.__aenter__())
        self._run(settled(self._pilot))
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._run(self._open.__aexit__(kind, error, trace))
        self._loop.run_until_complete(self._loop.shutdown_default_executor())
        self._loop.close()

    def _run(self, work: Coroutine[Any, Any, Answer]) -> Answer:
        return self._loop.run_until_complete(self._loop.create_task(work, context=self._context))

    async def _send(self, *given: events.Event) -> None:
        await send(self.app, *given)
        await settled(self._pilot)

    # ---- seeing ------------------------------------------------------------------------------

    @property
    def lines(self) -> list[str]:
        """The screen line by line."""
        return screen_lines(self.app)

    def wait_for(self, words: str | Callable[[str], bool], most: float = 30.0) -> None:
        """Let the screen go on until it tells some words, or a test of it is true."""
        end = time.monotonic() + most
        while time.monotonic() < end:
            if self.tells(words):
                return
            self._run(asyncio.sleep(0.01))
            self._run(settled(self._pilot))
        raise AssertionError(f"waited for {words!r} in vain; the screen:\n{self.text}")

    # ---- doing -------------------------------------------------------------------------------

    def press(self, *keys: str) -> None:
        """Press keys, by name or as they are typed, each answered before the next."""
        for key in keys:
            for one in [key] if key in KEYS else key:
                self._run(self._send(_key(one)))

    def type(self, text: str) -> None:
        """Type text ahead, quicker than it is answered."""
        self._run(self._send(*map(_key, text)))

    def paste(self, text: str) -> None:
        """Paste."""
        self._run(self._send(events.Paste(text)))

    def resize(self, columns: int, lines: int) -> None:
        """Give the window another size."""
        self._run(self._pilot.resize_terminal(columns, lines))
        self._run(settled(self._pilot))
