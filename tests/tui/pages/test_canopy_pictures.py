"""The canopy's plan: which plants of which year, the ring of the old tree, light and what is gained."""

from __future__ import annotations

from collections.abc import Sequence

import msgspec
import pytest
from fake_almanac import FakeAlmanac
from fake_garden import GARDEN
from screens import shown_after

from leafturn.garden.model import Path
from leafturn_tui.charts.letters import codes
from leafturn_tui.pages.canopy_pictures import LEGEND, Mode, View, plan_picture, side_picture
from leafturn_tui.text.layout import Row

ALMANAC = FakeAlmanac()
ELDER = ALMANAC.canopy().old_trees[0]
NAMES = codes([p.plant for p in ALMANAC.canopy().plants])
OLD = NAMES[ELDER.plant]


def plan(
    year: int = 2027, mode: Mode = "as foreseen", *, colour: bool = False, columns: int = 60
) -> list[Row]:
    view = View(old_tree=ELDER, year=year, mode=mode)
    return plan_picture(ALMANAC, view, columns, 18, colour=colour)


def has_tone(rows: Sequence[Row], token: str) -> bool:
    return any(token in piece.tone for row in rows for piece in row.pieces)


def places(rows: Sequence[Row]) -> dict[str, tuple[int, int]]:
    return {
        plant: (n, row.text.index(letters))
        for plant, letters in NAMES.items()
        for n, row in enumerate(rows)
        if letters in row.text
    }


def test_the_plan_has_north_up_and_the_old_tree_in_its_middle() -> None:
    at = {NAMES[plant]: place for plant, place in places(plan()).items()}
    assert at["c2"][0] < at[OLD][0] < at["qu"][0]
    assert at["c1"][1] < at[OLD][1] < at["c2"][1]
    assert abs(at[OLD][1] - 30) <= 2


@pytest.mark.parametrize("colour", [True, False])
def test_the_ring_is_there_while_the_tree_stands(colour: bool) -> None:
    standing, down = plan(2031, colour=colour), plan(2032, colour=colour)
    assert ELDER.plant in places(standing)
    assert ELDER.plant not in places(down)
    assert has_tone(standing, "harm") == colour
    assert not has_tone(down, "harm")


def test_without_it_the_crown_and_its_ring_are_left_out() -> None:
    assert has_tone(plan(colour=True), "crown_old")
    bare = plan(mode="without it", colour=True)
    assert not has_tone(bare, "crown_old")
    assert not has_tone(bare, "harm")


def test_light_is_tens_of_percent_and_what_is_gained_tens_of_points() -> None:
    """Half the light under the crown is taken; without the tree it comes back there and nowhere else."""
    light = "".join(row.text for row in plan(mode="light"))
    assert "555" in light
    gained = "".join(row.text for row in plan(mode="gained"))
    assert "555" in gained
    assert gained.count("5") == light.count("5")
    assert has_tone(plan(mode="gained", colour=True), "light1")


def test_a_wide_plan_has_names_and_light_beside_it_the_nearest_first() -> None:
    beside = [row.text[77 - LEGEND :].strip() for row in plan(columns=77)]
    told = [line for line in beside if line]
    assert told[0].startswith(f"{NAMES['comice-1']} comice-1")
    assert told[0].endswith("80 %")
    assert not any(ELDER.plant in line for line in told)
    gained = [row.text for row in plan(columns=77, mode="gained")]
    assert any("comice-1" in line and line.rstrip().endswith("+15") for line in gained)


def test_what_finds_no_room_beside_it_is_counted() -> None:
    view = View(old_tree=ELDER, year=2027)
    few = [row.text for row in plan_picture(ALMANAC, view, 77, 3, colour=False)]
    assert "more: 0 lists them" in few[-1]
    tall = [row.text for row in side_picture(ALMANAC, view, 77, 20, colour=False)]
    assert any(line.rstrip().endswith(f"{OLD} early-plum     20 m") for line in tall)


def test_below_the_table_of_light_the_plan_stands_where_there_is_room() -> None:
    roomy, low = ("\n".join(shown_after(ALMANAC, size, "4")) for size in ((80, 50), (80, 24)))
    assert "chance it stands" in roomy
    assert "├" in roomy
    assert "├" not in low


@pytest.mark.sweep(each=4)
@pytest.mark.parametrize("keys", [("4", "v"), ("4", "v", "x", "x"), ("4", "v", "v"), ("0", "v")])
@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
def test_no_picture_is_drawn_with_signs_of_old_games(keys: tuple[str, ...], size: tuple[int, int]) -> None:
    way = Path(line=((-20.0, -8.0), (20.0, -8.0)))
    almanac = FakeAlmanac(garden=msgspec.structs.replace(GARDEN, paths=(way,)))
    body = "\n".join(shown_after(almanac, size, *keys)[5:-4])
    assert not set("#+:^=").intersection(body)
    assert "No figure here is an assurance" in "\n".join(shown_after(almanac, size, *keys)) or keys[0] == "0"


@pytest.mark.parametrize("size", [(60, 20), (45, 18)])
def test_a_caution_below_the_list_is_told_whole_or_says_that_it_goes_on(size: tuple[int, int]) -> None:
    """It was cut after its first line in a low window, in the middle of what to have seen to."""
    for keys in (("4",), ("4", "y")):
        foot = " ".join(" ".join(shown_after(FakeAlmanac(), size, *keys)[-7:]).split())
        told = foot.partition("ave a competent")[2]
        assert "old or failing." in told or "…" in told or "protected-tree rules." in told
