"""The pictures of the canopy: what stands where, in which year, with which sign."""

from __future__ import annotations

from fake_almanac import GARDEN
from fake_canopy import YEARS, fake_canopy, fake_ground_light

from leafturn_tui.canopy_drawings import SHADES, codes, curves, plan, side

CANOPY = fake_canopy(GARDEN)


def drawn(year: int = 2027, width: int = 60) -> list[str]:
    return plan(CANOPY, GARDEN, lambda _, at: fake_ground_light(at), year, width, 16, CANOPY.elders[0])


def test_every_plant_has_letters_of_its_own() -> None:
    found = codes(CANOPY.plants)
    assert len(set(found.values())) == len(CANOPY.plants)
    assert all(len(letters) == 2 for letters in found.values())


def test_the_plan_has_north_up_and_the_old_tree_in_its_middle() -> None:
    lines = drawn()[1:-1]
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
    assert any("EP" in line for line in drawn(2031)[1:-1])
    assert not any("EP" in line for line in drawn(2032)[1:-1])
    assert "is down by then" in side(CANOPY, CANOPY.elders[0], 2032, 77, 11)[0]
    assert "is down by then" not in side(CANOPY, CANOPY.elders[0], 2031, 77, 11)[0]


def test_shades_follow_the_light_and_the_legend_has_their_numbers() -> None:
    lines = drawn()
    assert any("+" in line for line in lines[1:-1])  # 50 % is between 45 and 60
    assert all(str(least) in lines[-1] for least, _ in SHADES)


def test_the_side_view_has_heights_and_fits() -> None:
    lines = side(CANOPY, CANOPY.elders[0], 2027, 77, 11)
    assert len(lines) <= 11
    assert all(len(line) <= 77 for line in lines)
    assert int(lines[1].split("|")[0]) >= 20
    assert "e" in lines[1]  # the crown of the tallest reaches the top


def test_curves_have_a_figure_at_both_ends_and_mark_want() -> None:
    rows = CANOPY.elders[0].releases
    lines = curves(rows, list(YEARS), 77)
    assert f"{rows[0].later[2027]:.0f} %" in lines[0]
    assert lines[0].endswith(f"{rows[0].later[2057]:.0f} %")
    assert "2027" in lines[-2]
    assert lines[-2].endswith("2057")
    assert all(len(line) <= 77 for line in lines[:-1])
    assert curves((), list(YEARS), 77) == ["No plant here loses light to this tree."]
