"""The view from the side: heights to scale, crowns in their places, what lives of the old tree."""

from __future__ import annotations

import pytest
from fake_canopy import fake_canopy
from fake_garden import GARDEN

from leafturn.garden.model import Path
from leafturn_tui.charts.letters import codes
from leafturn_tui.charts.side_view import AXIS, DEAD, SideView, near_in_depth, side_rows

CANOPY = fake_canopy(GARDEN)
ELDER = CANOPY.old_trees[0]
TREE = next(p for p in CANOPY.plants if p.plant == ELDER.plant)
NAMES = codes([p.plant for p in CANOPY.plants])
CROSSING = Path(line=((9.0, -30.0), (9.0, 30.0)))


def view(year: int = 2027) -> SideView:
    near = near_in_depth(CANOPY.plants, TREE, ELDER.height_m, year)
    return SideView(near=tuple(near), tree=TREE, reach_m=20.0, paths=(CROSSING,), year=year, names=NAMES)


def text(year: int = 2027, columns: int = 77, rows: int = 24, *, colour: bool = False) -> list[str]:
    return [row.text for row in side_rows(view(year), columns, rows, colour=colour)]


def test_every_plant_has_letters_of_its_own() -> None:
    assert len(set(NAMES.values())) == len(CANOPY.plants)
    assert all(len(letters) == 2 for letters in NAMES.values())


@pytest.mark.parametrize("colour", [True, False])
@pytest.mark.parametrize(("columns", "rows"), [(77, 24), (40, 12), (115, 30)])
def test_it_fits_and_the_tree_is_as_high_as_its_figures_say(colour: bool, columns: int, rows: int) -> None:
    lines = text(columns=columns, rows=rows, colour=colour)
    assert len(lines) <= rows
    assert all(len(line) == columns for line in lines)
    drawn = [line for line in lines[:-2] if line[AXIS:].strip()]
    labelled = [int(line[:AXIS]) for line in lines if line[:AXIS].strip()]
    per_row = labelled[0] / (len(lines) - 2)
    assert len(drawn) * per_row == pytest.approx(20, abs=1.5 * per_row)


def test_names_stand_under_their_stems_from_west_to_east() -> None:
    feet = text()[-2]
    west_to_east = sorted(view().near, key=lambda p: p.east)
    places = [feet.index(NAMES[p.plant]) for p in west_to_east if NAMES[p.plant] in feet]
    assert len(places) >= 3
    assert places == sorted(places)


def test_the_ground_tells_the_reach_and_where_a_path_crosses_it() -> None:
    ground = text()[-1]
    assert "20 m to each side" in ground
    middle = AXIS + (77 - AXIS) / 2
    reach = (len(ground.rstrip()) - ground.index("─")) / 2
    assert (ground.index("┃") - middle) / reach == pytest.approx(9 / 20, abs=0.06)


def test_a_crown_thins_as_its_trend_has_it() -> None:
    def lives(year: int) -> float:
        pieces = [p for row in side_rows(view(year), 77, 30, colour=True)[:-2] for p in row.pieces]
        living = sum(len(p.text) * p.tone.count("crown_old") for p in pieces)
        dead = sum(len(p.text) * p.tone.count(DEAD) for p in pieces)
        return (living - dead) / living

    assert lives(2027) == pytest.approx(0.33, abs=0.08)
    assert lives(2030) < lives(2028) < lives(2027)


def test_the_old_tree_is_gone_after_its_year() -> None:
    letters = NAMES[ELDER.plant]
    assert letters in text(2031)[-2]
    assert letters not in text(2032)[-2]
