"""The keys of the canopy page."""

from __future__ import annotations

import asyncio
from dataclasses import replace

import msgspec
from fake_almanac import GARDEN, FakeAlmanac
from screens import screen_text

from leafturn_tui.app import LeafturnApp


def press(*keys: str, almanac: FakeAlmanac | None = None) -> str:
    async def run() -> str:
        app = LeafturnApp(almanac or FakeAlmanac())
        async with app.run_test(size=(80, 24)) as pilot:
            for key in ("4", *keys):
                await pilot.press(key)
            await pilot.pause()
            return screen_text(app)

    return asyncio.run(run())


def test_left_and_right_go_round_the_old_trees() -> None:
    first, second = press(), press("right")
    assert "early-plum, common ash" in first
    assert "comice-1, common ash" in second
    assert "early-plum, common ash" in press("right", "right")
    assert "comice-1, common ash" in press("left")


def test_years_stop_at_both_ends() -> None:
    assert "2027  |" in press("v", "comma")
    assert "2037  |" in press("v", "full_stop", "full_stop")
    assert "2057  |" in press("v", *["full_stop"] * 9)
    assert "now show 2032" in press("full_stop")


def test_the_pictures_go_round() -> None:
    assert "seen from the south" in press("v", "v")
    assert "tenths of open light" in press("v", "v", "v")
    assert "May-Sep, % of open" in press("v", "v", "v", "v")


def test_what_if_stands_side_by_side_with_its_caution() -> None:
    told = press("y")
    assert "leave it" in told
    assert "a stem of 5 m" in told
    assert "inspector" in told


def test_one_garden_without_an_old_tree_and_one_without_plants() -> None:
    few = replace(FakeAlmanac(), garden=msgspec.structs.replace(GARDEN, plants=GARDEN.plants[:2]))
    assert "give one in the garden file" in press(almanac=few)
    assert "There is no tree to ask about" in press("y", almanac=few)
    assert "no other old tree" in press("right", almanac=few)
    none = replace(FakeAlmanac(), garden=msgspec.structs.replace(GARDEN, plants=()))
    assert "[[plant]]" in press(almanac=none)
