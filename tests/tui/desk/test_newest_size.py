"""A size that the window has no more is not laid out.

Told of two at once Textual went from one to the other for ever: keys were answered no more. How often that
comes about hangs on the machine; stories/test_every_page_in_a_terminal.py drags a window through many sizes.
"""

from __future__ import annotations

import asyncio
import datetime as dt

import pytest
from fake_almanac import FakeAlmanac
from textual import events
from textual.geometry import Size

from leafturn_tui.app import LeafturnApp
from leafturn_tui.desk.widgets.whole_window import WholeWindow

NOW, OVER = Size(80, 24), Size(60, 20)


def test_a_size_that_is_over_is_passed_over(monkeypatch: pytest.MonkeyPatch) -> None:
    laid: list[Size] = []
    monkeypatch.setattr(WholeWindow, "on_resize", lambda window: laid.append(window.size))

    async def dragged() -> None:
        app = LeafturnApp(FakeAlmanac(), clock=lambda: dt.datetime(2027, 4, 19, 14, 5))
        async with app.run_test(size=NOW) as pilot:
            await pilot.pause()
            app.screen.post_message(events.Resize(OVER, OVER))
            await pilot.pause(0.1)

    asyncio.run(dragged())
    assert set(laid) == {NOW}
