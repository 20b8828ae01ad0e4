"""Slow work: how far it has come is told, it can be stopped, and keys are answered meanwhile."""

from __future__ import annotations

import asyncio
import threading
from collections.abc import Callable, Coroutine
from dataclasses import dataclass, field
from typing import Any

import pytest
from fake_almanac import FakeAlmanac
from screens import screen_text
from textual.pilot import Pilot

from leafturn.assembly.looking_ahead import SlowAnswer
from leafturn_tui.app import LeafturnApp


@dataclass(frozen=True)
class SlowAlmanac(FakeAlmanac):
    """One whose thirty years wait for a bell after each fifth of them."""

    bell: threading.Semaphore = field(default_factory=lambda: threading.Semaphore(0), compare=False)
    state: dict[str, Any] = field(default_factory=dict, compare=False)

    def ready(self, answer: SlowAnswer) -> bool:
        return bool(self.state.get("ready"))

    def canopy(self, progress: Callable[[int, int], None] | None = None) -> Any:
        if progress is not None and not self.ready("canopy"):
            for step in range(5):
                progress(self.on.year + 6 * step, self.on.year + 30)
                if self.state.get("wrong"):
                    raise RuntimeError("a slip in the arithmetic")
                self.bell.acquire(timeout=10)
            self.state["ready"] = True
        return super().canopy()


def run(script: Callable[[LeafturnApp, Pilot[None], SlowAlmanac], Coroutine[Any, Any, None]]) -> None:
    almanac = SlowAlmanac()

    async def go() -> None:
        app = LeafturnApp(almanac)
        async with app.run_test(size=(80, 24)) as pilot:
            await pilot.press("4")
            await script(app, pilot, almanac)
        almanac.bell.release(5)

    asyncio.run(go())


async def until(app: LeafturnApp, pilot: Pilot[None], words: str) -> str:
    for _ in range(60):
        await pilot.pause(0.05)
        if words in screen_text(app):
            return screen_text(app)
    raise AssertionError(f"{words!r} never came:\n{screen_text(app)}")


def test_it_tells_how_far_it_has_come_and_then_shows_the_page() -> None:
    async def script(app: LeafturnApp, pilot: Pilot[None], almanac: SlowAlmanac) -> None:
        await until(app, pilot, "Reckoning thirty years of light: 0 in 100 done")
        almanac.bell.release(2)
        await until(app, pilot, "40 in 100 done")
        almanac.bell.release(3)
        shown = await until(app, pilot, "chance it stands")
        assert "Reckoning" not in shown

    run(script)


def test_esc_stops_it_and_the_page_begins_anew() -> None:
    async def script(app: LeafturnApp, pilot: Pilot[None], almanac: SlowAlmanac) -> None:
        await until(app, pilot, "Reckoning")
        await pilot.press("escape")
        await until(app, pilot, "Stopped: thirty years of light is not reckoned.")
        almanac.bell.release(5)
        await pilot.pause(0.2)
        assert not almanac.ready("canopy")
        await pilot.press("4")
        almanac.bell.release(5)
        await until(app, pilot, "chance it stands")

    run(script)


def test_other_pages_answer_meanwhile_and_the_tree_s_keys_wait() -> None:
    async def script(app: LeafturnApp, pilot: Pilot[None], almanac: SlowAlmanac) -> None:
        await until(app, pilot, "Reckoning")
        await pilot.press("y", "r", "right", "v")
        assert "Reckoning" in screen_text(app)
        await pilot.press("2")
        await until(app, pilot, "What is coming, and when?")
        almanac.bell.release(5)
        await pilot.pause(0.3)
        assert "What is coming, and when?" in screen_text(app)
        await pilot.press("4")
        await until(app, pilot, "chance it stands")

    run(script)


def test_a_slip_in_the_work_is_not_hidden() -> None:
    async def script(app: LeafturnApp, pilot: Pilot[None], almanac: SlowAlmanac) -> None:
        almanac.state["wrong"] = True
        almanac.bell.release(5)
        await pilot.press("escape", "4")
        for _ in range(40):
            await pilot.pause(0.05)

    with pytest.raises(RuntimeError, match="slip in the arithmetic"):
        run(script)
