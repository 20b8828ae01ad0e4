"""In a garden of many plants no key waits for what it asks: a word stands there until it comes."""

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
from screens import screen_text, send_keys, settled
from textual.pilot import Pilot

from leafturn.almanac import Almanac, open_almanac
from leafturn_tui.app import LeafturnApp
from leafturn_tui.desk import open_garden
from leafturn_tui.desk.drawing import STILL

DAY = dt.date(2027, 2, 10)


@dataclass(frozen=True)
class Held(FakeAlmanac):
    """One that answers some questions only when let go, and tells which were asked on the main thread."""

    held: tuple[str, ...] = ()
    go: threading.Event = field(default_factory=threading.Event, compare=False)
    asked: list[str] = field(default_factory=list, compare=False)
    on_main: list[str] = field(default_factory=list, compare=False)

    def _hold(self, question: str) -> None:
        self.asked.append(question)
        if threading.current_thread() is threading.main_thread():
            if not self.go.is_set():
                self.on_main.append(question)
        elif question in self.held:
            self.go.wait(30)

    def larder(self) -> Any:
        self._hold("larder")
        return super().larder()

    def light_by_month(self, plants: Iterable[str], without: str | None = None) -> Any:
        self._hold("months")
        return super().light_by_month(plants, without)

    def likely_stages(self) -> Any:
        self._hold("stages")
        return super().likely_stages()


Script = Callable[[LeafturnApp, Pilot[None]], Coroutine[Any, Any, None]]


@pytest.fixture(autouse=True)
def many_plants(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(open_garden, "AT_ONCE", 0)


def run(script: Script, app: LeafturnApp, almanac: Held | None = None) -> None:
    async def go() -> None:
        try:
            async with app.run_test(size=(120, 40)) as pilot:
                await settled(pilot)
                await shown(app, "What needs hands this week?")
                await script(app, pilot)
        finally:
            if almanac is not None:
                almanac.go.set()

    asyncio.run(go())


async def shown(app: LeafturnApp, words: str) -> str:
    for _ in range(400):
        if words in (text := " ".join(screen_text(app).split())):
            return text
        await asyncio.sleep(0.01)
    raise AssertionError(screen_text(app))


def test_a_page_that_is_not_there_yet_comes_by_itself() -> None:
    almanac = Held(held=("larder",), log=[])

    async def script(app: LeafturnApp, pilot: Pilot[None]) -> None:
        await send_keys(app, ["7"])
        await shown(app, STILL)
        await send_keys(app, ["3"])
        await shown(app, "Who still lacks a partner?")
        await send_keys(app, ["7"])
        assert STILL in screen_text(app)
        almanac.go.set()
        text = await shown(app, "When is there nothing to pick?")
        assert STILL not in text

    run(script, LeafturnApp(almanac), almanac)
    assert not almanac.on_main


def test_a_line_whose_story_is_not_there_yet_is_under_the_bar_at_once() -> None:
    almanac = Held(held=("months",), log=[])

    async def script(app: LeafturnApp, pilot: Pilot[None]) -> None:
        await send_keys(app, ["4", "down", "down"])
        await shown(app, "Being reckoned; it")
        await send_keys(app, ["up"])
        almanac.go.set()
        await send_keys(app, ["down"])
        await shown(app, "By month, now/without")

    run(script, LeafturnApp(almanac), almanac)
    assert "months" in almanac.asked
    assert not almanac.on_main


@pytest.mark.parametrize("further", [False, True])
def test_what_a_key_asks_is_asked_behind_and_then_done_unless_another_key_came(further: bool) -> None:
    almanac = Held(held=("stages",), log=[])

    async def script(app: LeafturnApp, pilot: Pilot[None]) -> None:
        await send_keys(app, ["b"])
        await shown(app, STILL)
        if further:
            await send_keys(app, ["down"])
        almanac.go.set()
        if further:
            await asyncio.sleep(0.2)
            assert "Seen in flower" not in screen_text(app)
        else:
            await shown(app, "Seen in flower")

    run(script, LeafturnApp(almanac), almanac)
    assert not almanac.on_main


def app_of(garden: Path) -> LeafturnApp:
    return LeafturnApp(open_almanac(garden, DAY), clock=lambda: dt.datetime(2027, 2, 10, 8))


def test_another_day_is_reckoned_behind(garden: Path, renewed: threading.Event) -> None:
    async def script(app: LeafturnApp, pilot: Pilot[None]) -> None:
        before = screen_text(app).splitlines()[1]
        await send_keys(app, ["o", "ctrl+u", *"2027-05-03", "enter"])
        await shown(app, "3 May 2027 is being reckoned; go on meanwhile")
        assert screen_text(app).splitlines()[1] == before
        await send_keys(app, ["3"])
        await shown(app, "Who still lacks a partner?")
        renewed.set()
        await shown(app, "Everything is shown as on")
        assert screen_text(app).splitlines()[1] != before

    run(script, app_of(garden))


def test_another_day_and_a_note_are_both_told_of_once_they_are_reckoned(
    garden: Path, renewed: threading.Event
) -> None:
    async def script(app: LeafturnApp, pilot: Pilot[None]) -> None:
        await send_keys(app, ["o", "ctrl+u", *"2027-05-03", "enter", "n", *"owl", "enter"])
        await shown(app, "noted: owl")
        renewed.set()
        text = await shown(app, "noted, and the week is reckoned anew")
        assert "Everything is shown as on" in text

    run(script, app_of(garden))


@pytest.fixture
def read_on_main(monkeypatch: pytest.MonkeyPatch) -> list[bool]:
    """For each time that the garden is read again, whether a key waits for it."""
    on_main: list[bool] = []
    reread = Almanac.reread

    def reading(self: Almanac) -> Almanac:
        on_main.append(threading.current_thread() is threading.main_thread())
        return reread(self)

    monkeypatch.setattr(Almanac, "reread", reading)
    return on_main


def test_a_change_of_the_garden_file_is_written_at_once_and_read_behind(
    garden: Path, renewed: threading.Event, read_on_main: list[bool]
) -> None:
    async def script(app: LeafturnApp, pilot: Pilot[None]) -> None:
        await send_keys(app, ["0"])
        await shown(app, "boskoop")
        for year in ("3", "4"):
            await send_keys(app, ["e", *"year", "enter"])
            await send_keys(app, ["ctrl+u", *f"201{year}", "enter"])
            await shown(app, f"year = 201{year}")
            await send_keys(app, ["enter"])
            await shown(app, "written into garden.toml: boskoop")
            assert f"year = 201{year}" in (garden / "garden.toml").read_text(encoding="utf-8")
        renewed.set()
        await shown(app, "The week is reckoned anew.")
        await shown(app, "2014")

    run(script, app_of(garden))
    assert read_on_main
    assert not any(read_on_main)


def test_files_changed_by_another_hand_are_read_and_reckoned_behind(
    garden: Path, renewed: threading.Event, read_on_main: list[bool]
) -> None:

    async def script(app: LeafturnApp, pilot: Pilot[None]) -> None:
        file = garden / "garden.toml"
        file.write_text(file.read_text(encoding="utf-8").replace("comice", "conference"), encoding="utf-8")
        await send_keys(app, ["0"])
        assert "conference" not in await shown(app, "comice")
        renewed.set()
        assert "comice" not in await shown(app, "conference")

    run(script, app_of(garden))
    assert read_on_main == [False]


def test_the_newest_note_can_be_taken_back_at_once_and_the_same_words_noted_twice(
    garden: Path, renewed: threading.Event
) -> None:
    words = ["n", *"owl", "enter", "n", *"owl", "enter", "n", *"late", "enter"]

    async def script(app: LeafturnApp, pilot: Pilot[None]) -> None:
        await send_keys(app, words)
        assert len(open_almanac(garden, DAY).entries) == 3
        await send_keys(app, ["u"])
        assert "late" in await shown(app, "Take back this note?")
        await send_keys(app, ["enter"])
        assert [entry.text for entry in open_almanac(garden, DAY).entries] == ["owl", "owl"]
        renewed.set()
        await shown(app, "reckoned anew")

    run(script, app_of(garden))
