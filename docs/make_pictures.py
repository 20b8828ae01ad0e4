"""Makes the pictures in docs/pictures from the real program on the demo garden's story day.

Run from the project's root: `python docs/make_pictures.py`. Whole pages are drawn as the terminal shows them,
cell by cell, with the program's own writer of SVG; look at them rendered before they are committed.
"""

from __future__ import annotations

import asyncio
import datetime as dt
import os
from pathlib import Path

from textual.strip import Strip

from leafturn.almanac import open_almanac
from leafturn_tui.app import LeafturnApp
from leafturn_tui.cli.picture import PICTURES, drawn
from leafturn_tui.text.layout import Piece, Row
from leafturn_tui.text.styles import Look
from leafturn_tui.text.svg import svg_of

ROOT = Path(__file__).parent.parent
OUT = ROOT / "docs" / "pictures"
STORY_DAY = dt.date(2027, 4, 19)
PAGES = {
    "round": (["1"], (120, 36), "dark"),
    "season": (["2"], (120, 36), "dark"),
    "partners": (["3", "down", "down"], (120, 36), "dark"),
    "canopy": (["4"], (120, 40), "dark"),
    "canopy-gained": (["4", "v", "x", "x", "x"], (100, 32), "dark"),
    "canopy-side": (["4", "v", "v"], (100, 28), "light"),
    "climbers": (["5"], (80, 24), "dark"),
    "heaps": (["6", "down"], (80, 24), "dark"),
    "larder": (["7"], (80, 24), "dark"),
    "heed": (["8"], (120, 36), "dark"),
    "round-light": (["1"], (80, 24), "light"),
    "season-plain": (["2"], (80, 24), "none"),
}
DRAWN = ("plan", "light", "heat", "year")


async def page(name: str, keys: list[str], size: tuple[int, int], look: str) -> None:
    """One whole page as SVG."""
    os.environ["LEAFTURN_LOOK"] = look
    almanac = open_almanac(ROOT / "demo_garden", STORY_DAY)
    app = LeafturnApp(almanac, clock=lambda: dt.datetime(2027, 4, 19, 8, 0))
    async with app.run_test(size=size) as pilot:
        for key in keys:
            await pilot.press(key)
            await pilot.pause(0.5)
        rows = [_row(strip) for strip in app.screen._compositor.render_strips(app.size)]
    text = svg_of(rows, Look(look), size[0], f"The page {name} of the demo garden")
    (OUT / f"{name}.svg").write_text(text, encoding="utf-8")


def _row(strip: Strip) -> Row:
    """A line of the screen with the colours it has there."""
    pieces = []
    for segment in strip:
        style = segment.style
        if style is None:
            pieces.append(Piece(segment.text))
            continue
        ink = style.color.triplet.hex if style.color and style.color.triplet else "ink"
        ground = style.bgcolor.triplet.hex if style.bgcolor and style.bgcolor.triplet else ""
        if style.reverse:
            pieces.append(Piece(segment.text, "on_harm on harm_fill"))
            continue
        tone = f"{'*' if style.bold else ''}{ink}{f' on {ground}' if ground else ''}"
        pieces.append(Piece(segment.text, tone))
    return Row(tuple(pieces))


if __name__ == "__main__":
    os.environ["COLORTERM"], os.environ["TERM"] = "truecolor", "xterm-256color"
    for name, (keys, size, look) in PAGES.items():
        asyncio.run(page(name, keys, size, look))
    garden = open_almanac(ROOT / "demo_garden", STORY_DAY)
    for name in DRAWN:
        assert name in PICTURES
        (OUT / f"{name}.svg").write_text(drawn(garden, name, "light", 100), encoding="utf-8")
