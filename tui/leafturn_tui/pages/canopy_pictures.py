"""The canopy's pictures: its plan in a year, and the old tree with its neighbours from the side."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Literal

from msgspec.structs import replace

from leafturn.answers.garden_plan import GardenPlan, Standing
from leafturn.base import quantities
from leafturn.base.value import Value
from leafturn.canopy.model import OldTree, PlantYears
from leafturn.garden.model import Point
from leafturn_tui.charts.crowns import Reach
from leafturn_tui.charts.field import PER_CELL, Field
from leafturn_tui.charts.garden_plan import Shade, beside, gain_shade, light_shade, plan_rows
from leafturn_tui.charts.letters import codes
from leafturn_tui.charts.side_view import SideView, near_in_depth, side_rows
from leafturn_tui.text.layout import Piece, Row, fit, name_cells, piece

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

Mode = Literal["as foreseen", "without it", "light", "gained"]
MODES: tuple[Mode, ...] = ("as foreseen", "without it", "light", "gained")
LEGEND = 30  # cells beside a picture
BESIDE_NAME = 10  # cells of those for letters and a figure
WITH_LEGEND = 66  # width from which there is one
OF_LEGEND = {
    "as foreseen": "; % of open light",
    "without it": "; + is light gained",
}  # in the legend, by mode
AROUND = 1.2  # the ground shown round the old tree, in its heights to each side
LEAST_REACH_M = 6.0


class View(Value):
    """What of the canopy is looked at: an old tree, a year, and what is shown of it."""

    old_tree: OldTree
    year: int
    mode: Mode = "as foreseen"

    @property
    def without(self) -> bool:
        """Whether the old tree is left out."""
        return self.mode == "without it"


def plan_picture(almanac: AlmanacFace, chosen: View, columns: int, rows: int, *, colour: bool) -> list[Row]:
    """The garden round the old tree from above in a year, with letters and names beside it.

    Parameters
    ----------
    almanac : AlmanacFace
    chosen : View
    columns, rows : int [cells]
    colour : bool
    """
    canopy, old_tree, year = almanac.canopy(), chosen.old_tree, chosen.year
    tree = next(p for p in canopy.plants if p.plant == old_tree.plant)
    standing = [p for p in canopy.plants if p.stands(year) and not (chosen.without and p is tree)]
    plan = _plan_of(almanac.garden_plan(), standing, year)
    reach = max(old_tree.falling.reach_m, LEAST_REACH_M)
    across = columns - LEGEND - 2 if columns >= WITH_LEGEND else columns
    metre = 2 * AROUND * reach / min(across, PER_CELL * rows)
    field = Field.around(tree.east, tree.north, metre, across, rows)
    names = codes([p.plant for p in canopy.plants])
    ring = Reach(Point(tree.east, tree.north), reach) if tree in standing else None
    drawn = plan_rows(plan, field, names, colour=colour, shade=_shade(almanac, chosen), reach=ring)
    if across == columns:
        return drawn
    inside = [p for p in standing if p is not tree and _is_inside(p, field)]
    near = sorted(inside, key=lambda p: math.hypot(p.east - tree.east, p.north - tree.north))
    return beside(drawn, _legend(near, names, chosen, rows), across)


def side_picture(almanac: AlmanacFace, chosen: View, columns: int, rows: int, *, colour: bool) -> list[Row]:
    """The old tree and what stands near it from the south in a year, heights beside it."""
    canopy, old_tree, year = almanac.canopy(), chosen.old_tree, chosen.year
    tree = next(p for p in canopy.plants if p.plant == old_tree.plant)
    names = codes([p.plant for p in canopy.plants])
    near = near_in_depth(canopy.plants, tree, old_tree.height_m, year)
    shown = tuple(p for p in near if not (chosen.without and p is tree))
    across = columns - LEGEND - 2 if columns >= WITH_LEGEND else columns
    view = SideView(
        near=shown,
        tree=tree,
        reach_m=old_tree.falling.reach_m,
        paths=almanac.garden.paths,
        year=year,
        names=names,
    )
    drawn = side_rows(view, across, rows, colour=colour)
    if across == columns:
        return drawn
    tall = sorted(shown, key=lambda p: (p is not tree, -p.sizes[year][0]))
    told = [(names[p.plant], p.plant, quantities.metres(p.sizes[year][0], 0)) for p in tall]
    return beside(drawn, _list_rows(told, rows), across)


def plan_words(chosen: View, season: str, *, stands: bool) -> str:
    """The year, and what its plan shows; `season` is that of light, in words."""
    name = chosen.old_tree.plant
    what = {
        "as foreseen": f"the ring is as far as {name} is high" if stands else f"{name} is down by then",
        "without it": f"without {name}",
        "light": f"light on the ground, {season}",
        "gained": f"light gained if {name} goes",
    }[chosen.mode]
    return f"{chosen.year}: {what}"


def side_words(chosen: View, *, stands: bool) -> str:
    """The year, and what the view from the side shows; `stands` is whether the old tree is foreseen to."""
    name, live = chosen.old_tree.plant, chosen.old_tree.live.get(chosen.year)
    said = "without it" if chosen.without else "" if stands else f"{name} is down by then"
    alive = f"{100 * live:.0f} % of its crown alive" if live and not said else ""
    told = (f"{chosen.year}: seen from the south, heights in metres", said, alive)
    return "; ".join(part for part in told if part)


def _plan_of(base: GardenPlan, plants: Sequence[PlantYears], year: int) -> GardenPlan:
    """The plan with plants as they are foreseen in a year, the lowest first."""
    failing = {s.plant for s in base.plants if s.failing}
    standing = [
        Standing(
            plant=p.plant,
            point=Point(p.east, p.north),
            height_m=p.sizes[year][0],
            radius_m=0.0 if p.habit == "climber" else p.sizes[year][1],
            failing=p.plant in failing,
        )
        for p in plants
    ]
    ordered = tuple(sorted(standing, key=lambda s: (s.height_m, s.plant)))
    return replace(base, year=year, plants=ordered)


def _shade(almanac: AlmanacFace, chosen: View) -> Shade | None:
    year, name = chosen.year, chosen.old_tree.plant

    def light(at: Sequence[tuple[float, float]]) -> list[float]:
        return almanac.ground_light(year, at, None)

    def gained(at: Sequence[tuple[float, float]]) -> list[float]:
        without = almanac.ground_light(year, at, name)
        return [b - a for a, b in zip(light(at), without, strict=True)]

    if chosen.mode == "light":
        return light_shade(light)
    return gain_shade(gained) if chosen.mode == "gained" else None


def _is_inside(plant: PlantYears, field: Field) -> bool:
    x, y = field.pixel(plant.east, plant.north)
    return 0 <= x < field.columns and 0 <= y < field.rows * PER_CELL


def _legend(near: Sequence[PlantYears], names: Mapping[str, str], chosen: View, rows: int) -> list[Row]:
    """Letters, names and light, the nearest to the old tree first."""
    rises = {r.plant: r.gone - r.now for r in chosen.old_tree.releases}
    told = []
    for plant in near:
        light = f"{plant.light[chosen.year]:.0f} %"
        if chosen.mode in ("without it", "gained"):
            light = f"{rises[plant.plant]:+.0f}" if plant.plant in rises else ""
        told.append((names[plant.plant], plant.plant, light))
    return _list_rows(told, rows)


def _list_rows(told: Sequence[tuple[str, str, str]], rows: int) -> list[Row]:
    """Letters, name and figure a line; as many as fit, and how many more there are."""
    shown = told if len(told) <= rows else told[: rows - 1]
    wide = min(name_cells((name for _, name, _ in shown), 4 * LEGEND), LEGEND - BESIDE_NAME)
    lines = [
        Row(
            (Piece(f"{letters} ", "*ink"), Piece(fit(piece(name).text, wide - 1) + " "), Piece(figure, "dim"))
        )
        for letters, name, figure in shown
    ]
    left_out = len(told) - len(shown)
    return [*lines, Row((Piece(f"{left_out} more: 0 lists them", "dim"),))] if left_out else lines
