"""Makes the pictures in docs/pictures from the real program on the demo garden's story day.

Run from the project's root: `python docs/make_pictures.py`.
"""

from __future__ import annotations

import asyncio
import datetime as dt
import re
from pathlib import Path

from leafturn.almanac import open_almanac
from leafturn_tui.app import LeafturnApp

ROOT = Path(__file__).parent.parent
STORY_DAY = dt.date(2027, 4, 19)
PAGES = {
    "round": ["1"],
    "season": ["2"],
    "partners": ["3"],
    "canopy": ["4"],
    "canopy-gained": ["4", "v", "x", "x"],
}


async def draw(page: str, keys: list[str]) -> None:
    """Save one page, 96 columns by 30 lines, as an SVG without any outside font."""
    almanac = open_almanac(ROOT / "demo_garden", STORY_DAY)
    app = LeafturnApp(almanac, clock=lambda: dt.datetime(2027, 4, 19, 8, 0))
    async with app.run_test(size=(96, 30)) as pilot:
        for key in keys:
            await pilot.press(key)
            await pilot.pause(0.5)
        picture = app.export_screenshot(title="leafturn")
    plain = re.sub(r"@font-face \{.*?\}", "", picture, flags=re.DOTALL)
    (ROOT / "docs" / "pictures" / f"{page}.svg").write_text(plain, encoding="utf-8")


if __name__ == "__main__":
    for name, pressed in PAGES.items():
        asyncio.run(draw(name, pressed))
