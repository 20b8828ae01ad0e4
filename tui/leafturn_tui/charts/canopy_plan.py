"""The canopy's plan in characters: shades of light or points gained, paths, plants, and a key beside it."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Mapping, Sequence
from typing import Literal

from leafturn.base.value import Value
from leafturn.canopy.model import Canopy, OldTree, PlantYears
from leafturn.garden.model import Garden
from leafturn_tui.charts.canopy import CELL_IS_TALL, KEY_FROM, KEY_WIDTH, beside, codes
from leafturn_tui.safe_text import safe_text
from leafturn_tui.text.layout import MARGINS, fit

# Light on the ground [% of open] from which a shade is used, lightest first.
SHADES = ((90, " "), (75, "."), (60, ":"), (45, "+"), (0, "#"))
GAINED_FROM = 2.5  # points of light; less is left blank
WHOLE_FROM = 100  # width from which the whole garden is drawn
_LEAST_METRES = 0.5

Mode = Literal["as foreseen", "without it", "gained"]
MODES: tuple[Mode, ...] = ("as foreseen", "without it", "gained")
GroundLight = Callable[[int, Sequence[tuple[float, float]], "str | None"], list[float]]


class Ground:
    """A piece of ground as a grid of characters, north up.

    Parameters
    ----------
    west, south : float [m]
        Its corner.
    metre : float [m]
        Width of a character; it is twice as high.
    """

    def __init__(self, west: float, south: float, metre: float, width: int, rows: int) -> None:
        self.west, self.south, self.metre, self.width, self.rows = west, south, metre, width, rows
        self.grid = [[" "] * width for _ in range(rows)]

    def middles(self) -> list[tuple[float, float]]:
        """The place under the middle of each character, line by line from the north."""
        return [
            (
                self.west + (column + 0.5) * self.metre,
                self.south + (self.rows - line - 0.5) * self.metre * CELL_IS_TALL,
            )
            for line in range(self.rows)
            for column in range(self.width)
        ]

    def fill(self, signs: Sequence[str]) -> None:
        """A sign for every character."""
        self.grid = [list(signs[line * self.width : (line + 1) * self.width]) for line in range(self.rows)]

    def put(self, east: float, north: float, text: str) -> bool:
        """Write at a place; False where it lies outside."""
        column = math.floor((east - self.west) / self.metre)
        line = self.rows - 1 - math.floor((north - self.south) / (self.metre * CELL_IS_TALL))
        inside = 0 <= line < self.rows and 0 <= column <= self.width - len(text)
        if inside:
            self.grid[line][column : column + len(text)] = text
        return inside

    def line(self, points: Sequence[tuple[float, float]], sign: str) -> None:
        """A sign all along a line of straight pieces."""
        for (a, b), (c, d) in itertools.pairwise(points):
            steps = max(1, math.ceil(math.hypot(c - a, d - b) / (self.metre / 2)))
            for step in range(steps + 1):
                self.put(a + (c - a) * step / steps, b + (d - b) * step / steps, sign)


class View(Value):
    """What a plan shows, and how large it may be.

    Parameters
    ----------
    width, height : int
        Characters to fit into; the last two lines say what the signs mean.
    whole : bool
        Show all of the garden instead of a cut round the old tree.
    mode : str
        The light as foreseen, without the old tree, or the points gained as it goes.
    """

    year: int
    width: int
    height: int
    whole: bool = False
    mode: Mode = "as foreseen"

    @property
    def rows(self) -> int:
        """Lines of ground."""
        return max(self.height - 3, 4)

    @property
    def with_key(self) -> bool:
        """Whether there is room for a key beside it."""
        return self.width >= KEY_FROM

    @property
    def gone(self) -> bool:
        """Whether the old tree is left out."""
        return self.mode != "as foreseen"


def plan(canopy: Canopy, garden: Garden, light: GroundLight, old_tree: OldTree, view: View) -> list[str]:
    """The garden from above, north up: shades of light, paths, plants by two letters, and what they are.

    Parameters
    ----------
    canopy : Canopy
    garden : Garden
        For its paths, seats and roofs.
    light : callable
        Light on the ground in a year, for places, without a plant if one is named.
    old_tree : OldTree
        The old tree: the cut goes round it, and a ring of `o` shows one height of it.
    view : View
    """
    year, rows, mode = view.year, view.rows, view.mode
    tree = next(p for p in canopy.plants if p.plant == old_tree.plant)
    wide = view.width - KEY_WIDTH if view.with_key else view.width
    ground = Ground(*_cut(canopy.plants, wide, rows, None if view.whole else tree, old_tree), wide, rows)
    now = light(year, ground.middles(), None)
    without = light(year, ground.middles(), old_tree.plant) if view.gone else now
    if mode == "gained":
        ground.fill([_gain_sign(b - a) for a, b in zip(now, without, strict=True)])
    else:
        ground.fill([_shade(percent) for percent in without])
    _draw_uses(ground, garden, tree, old_tree.falling.reach_m)
    names = codes([p.plant for p in canopy.plants])
    trees_drawn = [p for p in canopy.plants if p.stands(year) and not (view.gone and p is tree)]
    inside = [
        plant
        for plant in sorted(trees_drawn, key=lambda p: (p is tree, p.sizes[year][0]))  # the tallest on top
        if ground.put(plant.east, plant.north, _code(names, plant, year))
    ]
    drawn = ["".join(line).rstrip() for line in ground.grid]
    if view.with_key:
        drawn = beside(drawn, _plan_key(inside, names, year, tree, old_tree, mode, rows), ground.width)
    rest = _rest(len(trees_drawn) - len(inside), view)
    title = _plan_title(year, old_tree, mode, tree, ground.metre)
    return [title + rest, *drawn, _plan_signs(mode), _USES]


_USES = "= path, ^ roof, % seat, o one height of the old tree, CAPITALS over 4 m"


def _rest(outside: int, view: View) -> str:
    """How to see the plants that stand outside a cut; nothing where all are drawn."""
    if not outside or view.whole:
        return ""
    return f"; {outside} outside: 0 lists, {WHOLE_FROM + MARGINS} columns show them"


def _plan_title(year: int, old_tree: OldTree, mode: Mode, tree: PlantYears, metre: float) -> str:
    said = {
        "as foreseen": "" if tree.stands(year) else f"{old_tree.plant} is down by then",
        "without it": f"without {old_tree.plant}",
        "gained": f"light gained if {old_tree.plant} goes",
    }[mode]
    bar = f"|{'-' * max(1, round(10 / metre))}| 10 m, north up"
    return f"{year}  {bar}{'; ' + said if said else ''}"


def _plan_signs(mode: Mode) -> str:
    if mode == "gained":
        return "points of light gained on the ground: . under 5, 1 about 10, 2 about 20"
    meant = ", ".join(f"'{sign}' {least}+" for least, sign in SHADES)
    return f"light on the ground, % of open: {meant}"


def _shade(percent: float) -> str:
    return next(sign for least, sign in SHADES if percent >= least)


def _gain_sign(points: float) -> str:
    if points < GAINED_FROM:
        return " "
    return "." if points < 5 else str(min(9, round(points / 10)) or 1)


def _draw_uses(ground: Ground, garden: Garden, tree: PlantYears, reach: float) -> None:
    """The ring of one height, roofs, paths and seats."""
    for step in range(360):
        angle = math.radians(step)
        ground.put(tree.east + reach * math.sin(angle), tree.north + reach * math.cos(angle), "o")
    for roof in garden.roofs:
        if roof.point is not None:
            wide, deep = roof.size_m
            for share in (i / 8 - 0.5 for i in range(9)):
                west, east = roof.point.east - wide / 2, roof.point.east + wide / 2
                ground.line(
                    [(west, roof.point.north + share * deep), (east, roof.point.north + share * deep)], "^"
                )
    for path in garden.paths:
        ground.line(path.line, "=")
    for seat in garden.seats:
        if seat.point is not None:
            ground.put(seat.point.east, seat.point.north, "%")


def _code(names: Mapping[str, str], plant: PlantYears, year: int) -> str:
    return names[plant.plant].upper() if plant.sizes[year][0] > 4 else names[plant.plant]


def _plan_key(
    inside: Sequence[PlantYears],
    names: Mapping[str, str],
    year: int,
    tree: PlantYears,
    old_tree: OldTree,
    mode: Mode,
    rows: int,
) -> list[str]:
    """Letters, names and light, the nearest to the old tree first; as many as fit."""
    others = [p for p in inside if p is not tree]
    near = sorted(others, key=lambda p: math.hypot(p.east - tree.east, p.north - tree.north))
    rises = {r.plant: r.gone - r.now for r in old_tree.releases}
    lines = []
    for plant in near:
        told = f"{plant.light[year]:3.0f} %"
        if mode != "as foreseen":
            told = f"{rises[plant.plant]:+5.0f}" if plant.plant in rises else ""
        name = fit(safe_text(plant.plant, limit=60), 16)
        lines.append(f"{_code(names, plant, year)} {name} {told}".rstrip())
    if len(lines) > rows:
        lines = [*lines[: rows - 1], f"and {len(lines) - rows + 1} more, on page 0"]
    return lines


def _cut(
    plants: Sequence[PlantYears], width: int, rows: int, tree: PlantYears | None, old_tree: OldTree
) -> tuple[float, float, float]:
    """West and south edge [m] and metres a character: of all plants, or of the old tree's surroundings."""
    easts, norths = [p.east for p in plants], [p.north for p in plants]
    if tree is not None:
        about = max(0.6 * old_tree.height_m, 6.0)
        easts, norths = [tree.east - about, tree.east + about], [tree.north - about, tree.north + about]
    wide, tall = max(easts) - min(easts) + 4, max(norths) - min(norths) + 4
    metre = max(wide / width, tall / (rows * CELL_IS_TALL), _LEAST_METRES)
    west = (max(easts) + min(easts)) / 2 - metre * width / 2
    south = (max(norths) + min(norths)) / 2 - metre * rows * CELL_IS_TALL / 2
    return west, south, metre
