"""Whole screens as text, compared with stored ones.

To renew the stored screens after a wanted change of a page, run

    LEAFTURN_RENEW_SCREENS=1 python -m pytest tests/tui

and read the changed files under tests/tui/screens/ as a user would before committing them.
"""

from __future__ import annotations

import asyncio
import datetime as dt
import os
from collections.abc import Iterable
from pathlib import Path

from textual import events
from textual.app import App

from leafturn_tui.almanac_face import AlmanacFace
from leafturn_tui.app import LeafturnApp

NAMES = {" ": "space", ".": "full_stop", "-": "minus", ",": "comma", "+": "plus", ":": "colon"}
FOLDER = Path(__file__).parent / "screens"


def screen_lines(app: App[None]) -> list[str]:
    """What stands on the screen, line by line, without trailing blanks."""
    return [strip.text.rstrip() for strip in app.screen._compositor.render_strips(app.size)]


def screen_text(app: App[None]) -> str:
    """The same as one text."""
    return "\n".join(screen_lines(app))


def shown_after(almanac: AlmanacFace, size: tuple[int, int], *keys: str) -> list[str]:
    """The screen that an almanac's pages show in a window of this size, after these keys."""

    async def run() -> list[str]:
        app = LeafturnApp(almanac, clock=lambda: dt.datetime(2027, 4, 19, 14, 5))
        async with app.run_test(size=size) as pilot:
            await pilot.pause()
            await send_keys(app, keys)
            await pilot.pause()
            return screen_lines(app)

    return asyncio.run(run())


def same_as_stored(app: App[None], name: str) -> None:
    """Compare the screen with the stored one, or store it where that is asked for."""
    stored = FOLDER / f"{name}.txt"
    shown = screen_text(app) + "\n"
    if os.environ.get("LEAFTURN_RENEW_SCREENS"):
        FOLDER.mkdir(exist_ok=True)
        stored.write_text(shown, encoding="utf-8")
    assert stored.exists(), f"no stored screen {name}; see tests/tui/screens.py"
    assert shown == stored.read_text(encoding="utf-8")


async def send(app: App[None], *given: events.Event) -> None:
    """Events of a terminal, typed ahead of each other; back when all are answered, or one fails."""
    answered = asyncio.Event()
    for event in given:
        app.post_message(event)
    app.call_later(answered.set)
    while app.is_running and not answered.is_set():
        await asyncio.sleep(0)


async def send_keys(app: App[None], keys: Iterable[str]) -> None:
    """Keys by their names."""
    await send(app, *(key_event(name) for name in keys))


def key_event(name: str) -> events.Key:
    """A key as the terminal gives it."""
    characters = {"enter": "\r", "tab": "\t", "escape": "\x1b"} | {name: c for c, name in NAMES.items()}
    return events.Key(name, characters.get(name, name if len(name) == 1 else None))
