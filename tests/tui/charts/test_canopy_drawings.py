"""The pictures of the canopy: what stands where, in which year, with which sign."""

from __future__ import annotations

import dataclasses

import msgspec
import pytest
from fake_canopy import YEARS, fake_canopy, fake_ground_light
from fake_garden import GARDEN

from leafturn.garden.model import Path, Point, Roof, Seat
from leafturn_tui.charts.canopy import KEY_WIDTH, codes, curves, side
from leafturn_tui.charts.canopy_plan import SHADES, Mode, View, plan

CANOPY = fake_canopy(GARDEN)
ELDER = CANOPY.old_trees[0]
USED = msgspec.structs.replace(
    GARDEN,
    paths=(Path(line=((-20, -8), (20, -8))),),
    seats=(Seat(at=(6, 8), point=Point(6, 8)),),
    roofs=(Roof(at=(-12, 6), point=Point(-12, 6), size_m=(4, 4)),),
)


def ground(year: int, at, without=None) -> list[float]:
    """Full light once the old tree is left out."""
    return [100.0] * len(at) if without else fake_ground_light(at)


def drawn(year: int = 2027, width: int = 60, mode: Mode = "as foreseen", garden=GARDEN) -> list[str]:
    return plan(CANOPY, garden, ground, ELDER, View(year=year, width=width, height=17, mode=mode))


def test_every_plant_has_letters_of_its_own() -> None:
    found = codes([p.plant for p in CANOPY.plants])
    assert len(set(found.values())) == len(CANOPY.plants)
    assert all(len(letters) == 2 for letters in found.values())


def test_the_plan_has_north_up_and_the_old_tree_in_its_middle() -> None:
    lines = drawn()[1:-2]
    at = {
        code: (n, line.index(code))
        for code in ("EP", "c1", "C2", "qu")
        for n, line in enumerate(lines)
        if code in line
    }
    assert at["C2"][0] < at["EP"][0] < at["qu"][0]  # north of it, itself, south of it
    assert at["c1"][1] < at["EP"][1] < at["C2"][1]  # west of it, itself, east of it
    assert abs(at["EP"][1] - 30) <= 2


def test_the_plan_is_to_scale() -> None:
    """The bar of 10 m against 5 m from the old tree to the plant west of it."""
    lines = drawn()
    bar = lines[0].split("|")[1]
    row = next(line for line in lines if "EP" in line)
    assert abs((row.index("EP") - row.index("c1")) - len(bar) / 2) <= 1.5


def test_the_old_tree_is_gone_after_its_year() -> None:
    assert any("EP" in line for line in drawn(2031)[1:-2])
    assert not any("EP" in line for line in drawn(2032)[1:-2])
    assert "is down by then" in drawn(2032)[0]
    assert "is down by then" in side(CANOPY, GARDEN, ELDER, 2032, 77, 13)[0]
    assert "is down by then" not in side(CANOPY, GARDEN, ELDER, 2031, 77, 13)[0]


def test_shades_follow_the_light_and_the_legend_has_their_numbers() -> None:
    lines = drawn()
    assert any("+" in line for line in lines[1:-2])  # 50 % is between 45 and 60
    assert all(str(least) in lines[-2] for least, _ in SHADES)
    bare = drawn(mode="without it")
    assert not any("+" in line for line in bare[1:-2])
    assert "without early-plum" in bare[0]
    assert not any("EP" in line for line in bare[1:-2])


def test_what_is_gained_stands_as_tens_of_points() -> None:
    """Half the light under the crown is taken, so fifty points come back there and none elsewhere."""
    lines = drawn(mode="gained")
    assert "light gained if early-plum goes" in lines[0]
    middle = "".join(lines[1:-2])
    assert "5" in middle
    assert not set("12346789").intersection(middle.replace("c1", "").replace("C2", ""))


def test_paths_seats_roofs_and_one_height_are_marked() -> None:
    lines = drawn(garden=USED)[1:-2]
    text = "\n".join(lines)
    for sign in "=%^o":
        assert sign in text
        assert sign in drawn(garden=USED)[-1]
    south = next(n for n, line in enumerate(lines) if "==" in line)
    seat = next(n for n, line in enumerate(lines) if "%" in line)
    assert seat < south  # north is up


def test_a_key_with_names_and_light_stands_beside_a_wide_plan() -> None:
    lines = drawn(width=77)
    assert all(len(line) <= 77 for line in lines)
    assert any(line.endswith("comice-1          80 %") for line in lines)
    assert not any("early-plum" in line[77 - KEY_WIDTH :] for line in lines[1:-2])  # it stands in the title
    gained = drawn(width=77, mode="gained")
    assert any("comice-1" in line and line.endswith("+15") for line in gained)


def test_more_plants_than_lines_are_counted() -> None:
    lines = plan(CANOPY, GARDEN, ground, ELDER, View(year=2027, width=77, height=7))
    assert any("more" in line for line in lines) or len(CANOPY.plants) <= 5


def test_the_side_view_has_heights_a_key_and_fits() -> None:
    lines = side(CANOPY, USED, ELDER, 2027, 77, 13)
    assert len(lines) == 13
    assert all(len(line) <= 80 for line in lines)
    assert int(lines[1].split("|")[0]) >= 20
    assert "ep early-plum 20 m, 33 % alive" in "\n".join(lines)
    assert "one height, 20 m" in lines[-1]
    assert "taken away" in side(CANOPY, USED, ELDER, 2027, 77, 13, gone=True)[0]


def test_a_crown_thins_as_its_trend_has_it() -> None:
    def letters(year: int) -> float:
        picture = "".join(line[5:48] for line in side(CANOPY, GARDEN, ELDER, year, 77, 26)[1:-2])
        return picture.count("e") / (picture.count("e") + picture.count("'"))

    assert letters(2027) == pytest.approx(0.33, abs=0.08)
    assert letters(2030) < letters(2028) < letters(2027)


def test_years_have_a_figure_at_both_ends_and_the_old_tree_s_own_lines_first() -> None:
    rows = ELDER.releases
    lines = curves(ELDER, rows, list(YEARS), 77)
    assert "2027" in lines[0]
    assert lines[0].endswith("2057")
    crown, down, gap = lines[1:4]
    assert crown.startswith("its crown alive, %  33")
    assert crown.endswith("  0")
    assert down.startswith("chance it is down   12")
    assert gap.startswith("its gap covered, %   0")
    assert lines[4] == "light, % of open"
    assert f"{rows[0].later[2027]:.0f}" in lines[5]
    assert lines[5].endswith(f"{rows[0].later[2057]:.0f}")
    assert all(len(line) <= 77 for line in lines[:-1])


def test_a_tree_that_shades_nobody_still_has_its_own_years() -> None:
    assert curves(ELDER, (), list(YEARS), 77)[-1] == "No plant here loses light to this tree."
    assert curves(ELDER, (), [], 77) == ["Nothing stands here whose years could be drawn."]


def test_a_plan_that_is_cut_says_how_many_stand_outside_and_how_to_see_them() -> None:
    far = dataclasses.replace(CANOPY.plants[1], plant="far", east=900.0)
    canopy = dataclasses.replace(CANOPY, plants=(*CANOPY.plants, far))
    cut = plan(canopy, GARDEN, ground, ELDER, View(year=2027, width=77, height=17))
    assert cut[0].endswith(" outside: 0 lists, 103 columns show them")
    whole = plan(canopy, GARDEN, ground, ELDER, View(year=2027, width=77, height=17, whole=True))
    assert "outside" not in whole[0]


def test_what_the_key_has_no_room_for_is_counted_and_it_is_said_where_it_stands() -> None:
    one = CANOPY.plants[1]
    many = [dataclasses.replace(one, plant=f"more-{n}", east=one.east + n) for n in range(12)]
    canopy = dataclasses.replace(CANOPY, plants=(*CANOPY.plants, *many))
    lines = plan(canopy, GARDEN, ground, ELDER, View(year=2027, width=77, height=7))
    assert any("more, on page 0" in line for line in lines)
