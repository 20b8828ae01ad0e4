"""Makes the pictures in docs/pictures from the real program on the demo garden's story day.

Run from the project's root: `python -m docs.make_pictures`. Whole pages are drawn as the terminal shows them,
cell by cell, with the program's own writer of SVG; look at them rendered before they are committed.
"""

from __future__ import annotations

import asyncio
import datetime as dt
import os
from collections.abc import Iterator, Sequence
from pathlib import Path

from tests.tui.every_screen import ALL, BEGINNING, typed
from tests.tui.screens import send_keys, settled
from textual.app import App
from textual.strip import Strip

from leafturn.almanac import Almanac, open_almanac
from leafturn_tui.app import BeginningApp, LeafturnApp
from leafturn_tui.cli.picture import PICTURES, drawn
from leafturn_tui.host import shown_key
from leafturn_tui.text.layout import Piece, Row
from leafturn_tui.text.styles import Look
from leafturn_tui.text.svg import svg_of

ROOT = Path(__file__).parent.parent
OUT = ROOT / "docs" / "pictures"
SCREENS = OUT / "screens"
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
GROUNDS = {"dark": "", "light": "on a light ground", "none": "without colour"}
SIZES = ((80, 24), (120, 40), (200, 50))
GALLERY = """# Every page and every dialog

Weir Meadow, the invented garden that `leafturn demo` copies for you, on 19 April 2027, in a window of 80
columns and 24 lines, with links to wider ones, to a light ground and to a terminal without colour.
[guide.md](guide.md#how-to-read-each-page) tells how to read the pages, [words.md](words.md) what their words
mean. This page and its pictures are made by `python -m docs.make_pictures`.
"""
DRAWN = ("plan", "light", "heat", "year")


# Each page and dialog, by what stands at the end of the picture's name: "80x24", "120x40-light".
WAYS = {
    f"{size[0]}x{size[1]}{'' if look == 'dark' else '-' + look}": (size, look)
    for look in GROUNDS
    for size in SIZES
}


def picture(app: App[None], keys: Sequence[str], size: tuple[int, int], look: str, title: str) -> str:
    """A whole screen as SVG, after some keys."""

    async def run() -> list[Row]:
        async with app.run_test(size=size) as pilot:
            await settled(pilot)
            for key in keys:
                await send_keys(app, [key])
                await settled(pilot)
            return [_row(strip) for strip in app.screen._compositor.render_strips(app.size)]

    return svg_of(asyncio.run(run()), Look(look), size[0], title)


def desk(almanac: Almanac, look: str) -> LeafturnApp:
    """The pages of the demo garden in some look."""
    os.environ["LEAFTURN_LOOK"] = look
    return LeafturnApp(almanac, clock=lambda: dt.datetime(2027, 4, 19, 8, 0))


def every_screen(almanac: Almanac) -> Iterator[tuple[str, str]]:
    """The name and the picture of every page and dialog, in every way."""
    for way, (size, look) in WAYS.items():
        for name, keys in ALL.items():
            title = f"{in_words(name)}, in the demo garden"
            yield f"{name}-{way}", picture(desk(almanac, look), keys, size, look, title)
        for name, given in BEGINNING.items():
            os.environ["LEAFTURN_LOOK"] = look
            app = BeginningApp(Path("weir-meadow"))
            yield f"{name}-{way}", picture(app, typed(given), size, look, in_words(name))


def in_words(name: str) -> str:
    """What a picture is of, from its name: "canopy, plan later"."""
    page, _, what = name.partition("-")
    return f"{page}, {what.replace('-', ' ')}" if what else page


def gallery() -> str:
    """The document that shows them."""
    lines = [GALLERY]
    for name in [*ALL, *BEGINNING]:
        keys = " ".join(f"`{shown_key(key)}`" for key in ALL.get(name, ())) or "as it opens"
        ways = " · ".join(_links(name, look) for look in GROUNDS)
        picture = f"![{in_words(name)}](pictures/screens/{name}-80x24.svg)"
        lines.append(f"## {in_words(name).capitalize()}\n\n{keys} · {ways}\n\n{picture}\n")
    return "\n".join(lines)


def _links(name: str, look: str) -> str:
    """Links to a page's pictures in one look, size by size."""
    of_look = {way: size for way, (size, its) in WAYS.items() if its == look}
    links = ", ".join(
        f"[{columns} x {lines}](pictures/screens/{name}-{way}.svg)"
        for way, (columns, lines) in of_look.items()
    )
    return f"{GROUNDS[look]} {links}".strip()


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
            pieces.append(Piece(segment.text, "ground on ink"))
            continue
        tone = f"{'*' if style.bold else ''}{ink}{f' on {ground}' if ground else ''}"
        pieces.append(Piece(segment.text, tone))
    return Row(tuple(pieces))


def write_all() -> None:
    """All pictures, and the document of the screens."""
    os.environ["COLORTERM"], os.environ["TERM"] = "truecolor", "xterm-256color"
    garden = open_almanac(ROOT / "demo_garden", STORY_DAY)
    for name, (keys, size, look) in PAGES.items():
        drawing = picture(desk(garden, look), keys, size, look, f"The page {name} of the demo garden")
        (OUT / f"{name}.svg").write_text(drawing, encoding="utf-8")
    for name in DRAWN:
        assert name in PICTURES
        (OUT / f"{name}.svg").write_text(drawn(garden, name, "light", 100), encoding="utf-8")
    SCREENS.mkdir(exist_ok=True)
    for old in SCREENS.iterdir():
        old.unlink()
    for name, drawing in every_screen(garden):
        (SCREENS / f"{name}.svg").write_text(drawing, encoding="utf-8")
    (ROOT / "docs" / "screens.md").write_text(gallery(), encoding="utf-8")


if __name__ == "__main__":
    write_all()
