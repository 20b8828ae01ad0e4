"""Pages are asked before they are opened, while no key is pressed, and keys are answered meanwhile."""

from __future__ import annotations

import asyncio
import datetime as dt
import threading
from collections.abc import Callable, Coroutine, Iterable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest
from fake_almanac import FakeAlmanac
from screens import screen_text, settled
from textual.pilot import Pilot

from leafturn.almanac import open_almanac
from leafturn.answers.harvest_calendar import Larder
from leafturn.assembly.looking_ahead import SlowAnswer
from leafturn_tui.app import LeafturnApp
from leafturn_tui.desk import beforehand
from leafturn_tui.desk.beforehand import QUIET_S


@dataclass(frozen=True)
class AskedAlmanac(FakeAlmanac):
    """One that tells what it was asked, and waits to be let go before it tells of the larder."""

    asked: list[str] = field(default_factory=list, compare=False)
    may_answer: threading.Event = field(default_factory=threading.Event, compare=False)
    larder_waits: bool = True
    light_is_wrong: bool = False

    def larder(self) -> Larder:
        self.asked.append("larder")
        if self.larder_waits and threading.current_thread() is not threading.main_thread():
            self.may_answer.wait(30)
            self.asked.append("told of the larder")
        return super().larder()

    def heed(self) -> Any:
        if threading.current_thread() is not threading.main_thread():
            self.asked.append("heed")
        return super().heed()

    def ready(self, answer: SlowAnswer) -> bool:
        return answer != "canopy" or "light" in self.asked

    def canopy(self, progress: Callable[[int, int], None] | None = None) -> Any:
        if not self.ready("canopy") and progress is not None:
            progress(1, 2)
            self.asked.append("years")
            if self.light_is_wrong:
                raise RuntimeError("a slip in the arithmetic")
            self.may_answer.wait(30)
            progress(2, 2)
            self.asked.append("light")
        return super().canopy()

    def light_by_month(self, plants: Iterable[str], without: str | None = None) -> Any:
        self.asked.append("months")
        return super().light_by_month(plants, without)


Script = Callable[[Pilot[None], AskedAlmanac], Coroutine[Any, Any, None]]


def run(script: Script, almanac: AskedAlmanac) -> None:
    async def go() -> None:
        try:
            async with LeafturnApp(almanac).run_test(size=(120, 30)) as pilot:
                await script(pilot, almanac)
                almanac.may_answer.set()
        finally:
            almanac.may_answer.set()

    asyncio.run(go())


async def until(pilot: Pilot[None], asked: str, almanac: AskedAlmanac) -> None:
    for _ in range(100):
        await pilot.pause(0.05)
        if asked in almanac.asked:
            return
    raise AssertionError(f"{asked} was never asked, only {almanac.asked}")


def test_a_page_that_is_asked_long_keeps_no_key_waiting() -> None:
    async def script(pilot: Pilot[None], almanac: AskedAlmanac) -> None:
        await until(pilot, "larder", almanac)
        await pilot.press("2")
        assert "What is coming, and when?" in screen_text(pilot.app)

    run(script, AskedAlmanac())


def test_all_pages_are_asked_and_long_work_comes_last() -> None:
    async def script(pilot: Pilot[None], almanac: AskedAlmanac) -> None:
        almanac.may_answer.set()
        await until(pilot, "months", almanac)  # what is told of a line beside the list
        assert almanac.asked.index("larder") < almanac.asked.index("years")
        await pilot.press("4")
        assert "Reckoning" not in screen_text(pilot.app)
        assert "chance it stands" in screen_text(pilot.app)

    run(script, AskedAlmanac())


def test_no_page_is_begun_within_a_moment_of_a_key() -> None:
    async def script(pilot: Pilot[None], almanac: AskedAlmanac) -> None:
        await until(pilot, "larder", almanac)
        almanac.asked.remove("heed")  # which was counted after the first picture
        for _ in range(5):
            await pilot.press("down")
            almanac.may_answer.set()
            await pilot.pause(QUIET_S / 3)
        assert "heed" not in almanac.asked
        await until(pilot, "heed", almanac)

    run(script, AskedAlmanac())


def test_a_key_leaves_long_work_to_its_page() -> None:
    async def script(pilot: Pilot[None], almanac: AskedAlmanac) -> None:
        await until(pilot, "years", almanac)
        await pilot.press("down")
        almanac.may_answer.set()
        await pilot.pause(3 * QUIET_S)
        assert "light" not in almanac.asked
        assert almanac.asked.count("years") == 1

    run(script, AskedAlmanac(larder_waits=False))


def test_lines_near_the_bar_are_asked_while_no_key_is_pressed() -> None:
    async def script(pilot: Pilot[None], almanac: AskedAlmanac) -> None:
        plants = 4  # on that page
        almanac.may_answer.set()
        almanac.asked.append("light")  # of thirty years, as if reckoned
        await pilot.press("4")
        for _ in range(100):
            await pilot.pause(0.05)
            if almanac.asked.count("months") == plants:
                break
        await pilot.press("down", "down", "end", "home")
        assert almanac.asked.count("months") == plants

    run(script, AskedAlmanac())


def test_a_slip_beforehand_ends_nothing() -> None:
    async def script(pilot: Pilot[None], almanac: AskedAlmanac) -> None:
        almanac.may_answer.set()
        await until(pilot, "years", almanac)
        await pilot.pause(QUIET_S)
        await pilot.press("2")
        assert "What is coming, and when?" in screen_text(pilot.app)

    run(script, AskedAlmanac(light_is_wrong=True))


def test_what_waits_on_other_pages_is_counted_behind_the_first_picture() -> None:
    """Keys are answered meanwhile, and it comes with one paint more."""
    threads: set[bool] = set()

    @dataclass(frozen=True)
    class Counted(AskedAlmanac):
        def climbers(self) -> Any:
            threads.add(threading.current_thread() is threading.main_thread())
            self.may_answer.wait(30)
            return super().climbers()

    async def script(pilot: Pilot[None], almanac: AskedAlmanac) -> None:
        for _ in range(100):
            await pilot.pause(0.02)
            if threads:
                break
        await pilot.press("down", "down")
        assert "•" not in screen_text(pilot.app).split("\n", 1)[0]
        almanac.may_answer.set()
        await settled(pilot)
        assert "•" in screen_text(pilot.app).split("\n", 1)[0]

    run(script, Counted())
    assert threads == {False}


def test_leaving_does_not_wait_for_a_page_that_is_asked() -> None:
    almanac = AskedAlmanac()

    async def leave() -> None:
        async with LeafturnApp(almanac).run_test() as pilot:
            await until(pilot, "larder", almanac)
            await pilot.press("q")

    asyncio.run(leave())
    assert "told of the larder" not in almanac.asked
    almanac.may_answer.set()


def test_a_page_that_answers_once_the_program_has_left_tells_nothing() -> None:
    """Else its thread would write its dismay over the terminal that was just given back."""

    async def run() -> None:
        app = LeafturnApp(FakeAlmanac())
        async with app.run_test(size=(80, 24)) as pilot:
            await pilot.pause()
            desk.append(app.screen)
            asked.append((desk[0]._frame, desk[0].page, desk[0]._laid, 0))

    desk: list[Any] = []
    asked: list[Any] = []
    asyncio.run(run())
    desk[0]._detach()
    desk[0]._closing = desk[0]._closed = False  # as in the moment between, when it was taken for open
    dismayed: list[BaseException] = []

    def ask() -> None:
        try:
            desk[0]._beforehand._ask(*asked[0])
        except RuntimeError as why:
            dismayed.append(why)

    thread = threading.Thread(target=ask)
    thread.start()
    thread.join(60)
    assert not dismayed


def test_the_week_before_is_let_go_only_when_hands_have_rested_long(
    garden: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """To look through all objects takes as long as some keys do, and no key can interrupt it."""
    looks: list[int] = []
    monkeypatch.setattr(beforehand.gc, "collect", lambda *of: looks.append(1))
    monkeypatch.setattr(beforehand, "REST_S", 2.0)
    day = dt.date(2027, 2, 10)

    async def run() -> None:
        app = LeafturnApp(open_almanac(garden, day), clock=lambda: dt.datetime(2027, 2, 10, 8))
        async with app.run_test(size=(80, 24)) as pilot:
            await pilot.press("n", "o", "w", "l", "enter")
            asked = app.screen._beforehand  # type: ignore[attr-defined]
            for _ in range(400):
                await pilot.pause(0.05)
                if asked._quiet is not None and asked._quiet._interval == beforehand.REST_S:
                    break  # every page was asked
            assert not looks
            await pilot.press("down")
            await pilot.pause(2 * QUIET_S)
            assert not looks
            for _ in range(200):
                await pilot.pause(0.05)
                if looks:
                    break

    asyncio.run(run())
    assert looks == [1]
