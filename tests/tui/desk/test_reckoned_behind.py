"""In a garden of many plants a note is kept at once, and its week is reckoned behind the screen."""

from __future__ import annotations

import asyncio
import datetime as dt
import threading
from pathlib import Path

import pytest
from tests.tui.screens import screen_lines, send_keys, settled
from textual.pilot import Pilot

from leafturn.almanac import open_almanac
from leafturn_tui.app import LeafturnApp
from leafturn_tui.desk import open_garden

DAY = dt.date(2027, 2, 10)


@pytest.fixture
def held(monkeypatch: pytest.MonkeyPatch, renewed: threading.Event) -> threading.Event:
    """As with many plants; what is reckoned behind waits until this is set."""
    monkeypatch.setattr(open_garden, "AT_ONCE", 0)
    return renewed


def app_of(garden: Path) -> LeafturnApp:
    clock = lambda: dt.datetime(2027, 2, 10, 8)  # noqa: E731
    return LeafturnApp(open_almanac(garden, DAY), clock=clock, named=garden)


async def shown(pilot: Pilot[None], words: str) -> str:
    for _ in range(400):
        text = "\n".join(screen_lines(pilot.app))
        if words in text:
            return text
        await asyncio.sleep(0.02)
    raise AssertionError(text)


def test_a_note_is_kept_at_once_and_shown_when_its_week_is_reckoned(
    garden: Path, held: threading.Event
) -> None:
    async def run() -> None:
        app = app_of(garden)
        async with app.run_test(size=(100, 30)) as pilot:
            await settled(pilot)
            before = screen_lines(app)[3:-4]
            await send_keys(app, ["space"])
            await shown(pilot, "The week is being reckoned anew; go on meanwhile.")
            assert screen_lines(app)[3:-4] == before, "the week stands as it was"
            assert len(open_almanac(garden, DAY).entries) == 1, "and the note is in the journal"
            await send_keys(app, ["space"])
            await shown(pilot, "That is noted already.")
            assert len(open_almanac(garden, DAY).entries) == 1
            await send_keys(app, ["3"])
            await shown(pilot, "Who still lacks a partner?")
            await send_keys(app, ["1", "down", "space"])
            held.set()
            await shown(pilot, "noted, and the week is reckoned anew")
            assert screen_lines(app)[3:-4] != before
            assert len(open_almanac(garden, DAY).entries) == 2

    asyncio.run(run())


def test_no_picture_is_kept_of_a_week_that_is_no_more(
    garden: Path, held: threading.Event, monkeypatch: pytest.MonkeyPatch
) -> None:
    kept = []
    monkeypatch.setattr("leafturn_tui.desk.screen.keep_week", lambda *what, **more: kept.append(what))

    async def run(*keys: str) -> None:
        app = app_of(garden)
        async with app.run_test(size=(100, 30)) as pilot:
            await settled(pilot)
            await shown(pilot, "boskoop")
            await send_keys(app, [*keys, "q"])
            await asyncio.sleep(0.1)

    asyncio.run(run("down"))
    assert len(kept) == 1
    asyncio.run(run("space"))
    held.set()
    assert len(kept) == 1
