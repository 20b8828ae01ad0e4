"""Whole screens as text, compared with stored ones.

To renew the stored screens after a wanted change of a page, run

    LEAFTURN_RENEW_SCREENS=1 python -m pytest -m "" tests/tui

and read the changed files under tests/tui/screens/ as a user would before committing them.
"""

from __future__ import annotations

import asyncio
import datetime as dt
import os
from collections.abc import Iterable
from pathlib import Path

from rich.color import Color
from rich.style import Style
from textual import events
from textual.app import App
from textual.pilot import Pilot

from leafturn_tui.almanac_face import AlmanacFace
from leafturn_tui.app import LeafturnApp
from leafturn_tui.desk.screen import Desk
from leafturn_tui.text.palette import COLOURS, GROUNDS, ON_HARM, TEXT, contrast

NAMES = {" ": "space", ".": "full_stop", "-": "minus", ",": "comma", "+": "plus", ":": "colon"}
NEUTRAL = ("ink", "dim")
FOLDER = Path(__file__).parent / "screens"


def screen_lines(app: App[None]) -> list[str]:
    """What stands on the screen, line by line, without trailing blanks."""
    return [strip.text.rstrip() for strip in app.screen._compositor.render_strips(app.size)]


def words_by_colour(app: App[None], look: str) -> list[str]:
    """What a page tells in each colour that means something: its token, then its words, each once, downward.

    Pages, instruments and keys are left out: they are on every page.
    """
    tokens = {getattr(colour, look): name for name, colour in (TEXT | {"on_harm": ON_HARM}).items()}
    found: dict[str, dict[str, None]] = {}
    for strip in app.screen._compositor.render_strips(app.size)[2:-1]:
        for segment in strip:
            token = tokens.get(_hex(segment.style and segment.style.color), "")
            words = segment.text.strip()
            if token and token not in NEUTRAL and any(c.isalnum() or c in "!*+" for c in words):
                found.setdefault(token, {})[words] = None
    return [f"{token}: {' | '.join(found[token])}" for token in (*TEXT, "on_harm") if token in found]


def unreadable(app: App[None], look: str) -> list[str]:
    """Words of too little contrast: under 4.5 to 1 on a ground of the page, 3 to 1 on a picture (WCAG)."""
    plain = {getattr(colour, look) for colour in GROUNDS.values()}
    faint = getattr(COLOURS["faint"], look)
    found = []
    for strip in app.screen._compositor.render_strips(app.size):
        for segment in strip:
            front, ground = (_hex(segment.style and part(segment.style)) for part in (_front, _ground))
            if not front or not ground or front == faint or not any(c.isalnum() for c in segment.text):
                continue
            if contrast(front, ground) < (4.5 if ground in plain else 3.0):
                found.append(f"{segment.text!r}: {front} on {ground}")
    return found


def _front(style: Style) -> Color | None:
    return style.color


def _ground(style: Style) -> Color | None:
    return style.bgcolor


def _hex(colour: Color | None) -> str:
    return colour.triplet.hex if colour is not None and colour.triplet is not None else ""


def screen_text(app: App[None]) -> str:
    """The same as one text."""
    return "\n".join(screen_lines(app))


def shown_after(almanac: AlmanacFace, size: tuple[int, int], *keys: str) -> list[str]:
    """The screen that an almanac's pages show in a window of this size, after these keys."""

    async def run() -> list[str]:
        app = LeafturnApp(almanac, clock=lambda: dt.datetime(2027, 4, 19, 14, 5))
        async with app.run_test(size=size) as pilot:
            await settled(pilot)
            await send_keys(app, keys)
            await settled(pilot)
            return screen_lines(app)

    return asyncio.run(run())


def lines_as_stored(lines: Iterable[str], name: str) -> None:
    """Compare lines with stored ones, or store them where that is asked for."""
    stored = FOLDER / f"{name}.txt"
    shown = "\n".join(lines) + "\n"
    if os.environ.get("LEAFTURN_RENEW_SCREENS"):
        stored.parent.mkdir(exist_ok=True)
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


async def settled(pilot: Pilot[None]) -> None:
    """Until all is answered, slow work with it, and painted: sooner than a pause that waits for idleness."""
    app = pilot.app
    await pilot.pause(0)
    while app.is_running and any(isinstance(one, Desk) and not one._is_counted for one in app.screen_stack):
        await asyncio.sleep(0.005)
    while app.is_running and any(not worker.is_finished for worker in app.workers):
        await asyncio.sleep(0.005)
    await pilot.pause(0)


async def send_keys(app: App[None], keys: Iterable[str]) -> None:
    """Keys by their names."""
    await send(app, *(key_event(name) for name in keys))


def key_event(name: str) -> events.Key:
    """A key as the terminal gives it."""
    characters = {"enter": "\r", "tab": "\t", "escape": "\x1b"} | {name: c for c, name in NAMES.items()}
    return events.Key(name, characters.get(name, name if len(name) == 1 else None))
