"""Names that have harmed terminals elsewhere, in the canopy's pictures and tables."""

from __future__ import annotations

import asyncio

import msgspec
import pytest
from fake_almanac import FakeAlmanac
from fake_garden import GARDEN
from hostile import HOSTILE
from rich.cells import cell_len
from screens import screen_lines, send_keys, settled

from leafturn_tui.app import LeafturnApp

VIEWS = ("4", "4v", "4vxx", "4vv", "4vvv", "4y", "4r", "4w")
GARDENS = [HOSTILE[n : n + 5] for n in range(0, len(HOSTILE), 5)]


@pytest.mark.sweep(each=12)
@pytest.mark.parametrize("size", [(80, 24), (45, 16)])
@pytest.mark.parametrize("bad", GARDENS, ids=range(len(GARDENS)))
def test_every_view_keeps_its_width(bad: tuple[str, ...], size: tuple[int, int]) -> None:
    names = (*bad, *(p.id for p in GARDEN.plants[len(bad) :]))
    plants = tuple(
        msgspec.structs.replace(plant, id=name) for plant, name in zip(GARDEN.plants, names, strict=True)
    )
    almanac = FakeAlmanac(garden=msgspec.structs.replace(GARDEN, plants=plants))

    async def run() -> None:
        for keys in VIEWS:
            app = LeafturnApp(almanac)
            async with app.run_test(size=size) as pilot:
                await send_keys(app, keys)
                await settled(pilot)
                lines = screen_lines(app)
                assert len(lines) == size[1]
                assert all(cell_len(line) <= size[0] for line in lines)
                assert not any(ord(c) < 32 or 0x7F <= ord(c) < 0xA0 for c in "".join(lines))
                for row in app.screen._list.rows:  # type: ignore[attr-defined]
                    assert cell_len(row.text) <= size[0] - 2

    asyncio.run(run())
