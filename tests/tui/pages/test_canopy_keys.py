"""The keys of the canopy page."""

from __future__ import annotations

import asyncio
from dataclasses import replace

import msgspec
from fake_almanac import FakeAlmanac
from fake_garden import GARDEN
from screens import screen_text, send_keys, settled

from leafturn_tui.app import LeafturnApp


def press(*keys: str, almanac: FakeAlmanac | None = None) -> str:
    async def run() -> str:
        app = LeafturnApp(almanac or FakeAlmanac())
        async with app.run_test(size=(80, 24)) as pilot:
            for key in ("4", *keys):
                await send_keys(app, [key])
            await settled(pilot)
            return screen_text(app)

    return asyncio.run(run())


def test_left_and_right_go_round_the_old_trees() -> None:
    first, second = press(), press("right")
    assert "early-plum: down about" in first
    assert "comice-1: down about" in second
    assert "early-plum: down about" in press("right", "right")
    assert "comice-1: down about" in press("left")


def test_years_stop_at_both_ends() -> None:
    assert "2027: the ring is as far as early-plum is high" in press("v", "comma")
    assert "2037: early-plum is down by then" in press("v", "full_stop", "full_stop")
    assert "2057: " in press("v", *["full_stop"] * 9)
    assert "now show 2032" in press("full_stop")


def test_the_pictures_go_round() -> None:
    assert "seen from the south" in press("v", "v")
    assert "What does a warmer climate change here?" in press("v", "v", "v")
    assert "chance it stands" in press("v", "v", "v", "v")


def test_the_plan_without_the_tree_and_what_is_gained() -> None:
    assert "without early-plum" in press("v", "x")
    assert "light on the ground, May to September" in press("v", "x", "x")
    assert "light gained if early-plum goes" in press("v", "x", "x", "x")
    assert "the ring is as far as" in press("v", "x", "x", "x", "x")
    assert "without it" in press("v", "v", "x").split("x without it")[0]


def test_why_of_what_if_is_what_stands_behind_the_tree() -> None:
    assert "early-plum: what is behind this?" in press("y", "w")


def test_what_if_stands_side_by_side_with_its_caution() -> None:
    told = press("y")
    head = next(line for line in told.splitlines() if "leave it" in line)
    assert "a stem of 5 m" in head
    assert "the bench" in told
    assert "inspector" in told
    assert "chance it stands" in press("y", "escape")


def test_a_look_is_noted_with_one_key() -> None:
    almanac = FakeAlmanac()
    asked = press("r", almanac=almanac)
    assert "How much of the crown of early-plum is alive?" in asked
    told = press("r", *"28", "percent_sign", "enter", almanac=almanac)
    assert "noted: early-plum: 28 % of the crown alive" in told
    assert almanac.log[-1].live_percent == 28
    assert "0% to 100%" in press("r", *"128", "enter", almanac=almanac)
    assert len(almanac.log) == 1


def test_why_over_a_climate_is_headed_by_what_the_line_is_about() -> None:
    climate = ("v", "v", "v")
    assert "How does the climate here change?" in press(*climate, "down", "w")
    assert "comice-1, comice-2: what changes?" in press(*climate, "end", "up", "up", "up", "w")


def test_the_climates_to_come_are_told_line_by_line() -> None:
    told = press("v", "v", "v")
    assert "If it warms by 0.4 C a decade" in told
    assert "2042" in told
    assert "2057" in told
    assert "a look" not in told  # the keys of the tree are not those of the climate
    assert "days without frost" in press("v", "v", "v", "w")


def test_one_garden_without_an_old_tree_and_one_without_plants() -> None:
    few = replace(FakeAlmanac(), garden=msgspec.structs.replace(GARDEN, plants=GARDEN.plants[:2]))
    assert "give one in the garden file" in press(almanac=few)
    assert "There is no tree to ask about" in press("y", almanac=few)
    assert "There is no tree to look at" in press("r", almanac=few)
    assert "No other tree here is old or failing" in press("right", almanac=few)
    none = replace(FakeAlmanac(), garden=msgspec.structs.replace(GARDEN, plants=()))
    assert "[[plant]]" in press(almanac=none)
