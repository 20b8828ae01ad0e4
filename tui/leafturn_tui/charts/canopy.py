"""The canopy drawn in characters: the view from the side, and light by year. Legible in one colour."""

from __future__ import annotations

import itertools
import math
from collections.abc import Mapping, Sequence

from leafturn.canopy.model import Canopy, OldTree, PlantYears, Release
from leafturn.garden.model import Garden
from leafturn_tui.safe_text import safe_text
from leafturn_tui.text.layout import cut, fit

KEY_FROM, KEY_WIDTH = 66, 27  # width from which a key stands beside a picture, and its own
_SIDE_KEY_WIDTH = 30  # beside the view from the side, which tells more of each tree
CELL_IS_TALL = 2  # a character is about twice as high as wide


def codes(plants: Sequence[str]) -> dict[str, str]:
    """Two letters for each plant, each pair once: the first letters of its words if they can be had."""
    taken: dict[str, str] = {}
    for plant in plants:
        letters = [c for c in plant.lower() if c.isascii() and c.isalnum()] or ["p"]
        words = [w for w in plant.lower().split("-") if w and w[0].isascii() and w[0].isalnum()]
        wished = [words[0][0] + words[1][0]] if len(words) > 1 else []
        wished += [letters[0] + later for later in letters[1:]]
        wished += [letters[0] + c for c in "123456789abcdefghijklmnopqrstuvwxyz"]
        taken[plant] = next((w for w in wished if w not in taken.values()), "??")
    return taken


def beside(left: Sequence[str], right: Sequence[str], width: int) -> list[str]:
    """Two columns of lines side by side."""
    return [f"{a.ljust(width)}  {b}".rstrip() for a, b in itertools.zip_longest(left, right, fillvalue="")]


# ---- from the side -------------------------------------------------------------------------------


def side(
    canopy: Canopy,
    garden: Garden,
    old_tree: OldTree,
    year: int,
    width: int,
    height: int,
    *,
    gone: bool = False,
) -> list[str]:
    """The old tree and its neighbours seen from the south, in a year: crowns, stems, paths, metres.

    Only those as near in depth as the old tree is high are drawn; who stands in front hides who is behind.
    The dead part of the old tree's crown is drawn as twigs.
    """
    tree = next(p for p in canopy.plants if p.plant == old_tree.plant)
    about = max(old_tree.height_m, 6.0)
    near = [
        p
        for p in canopy.plants
        if abs(p.east - tree.east) <= about
        and abs(p.north - tree.north) <= about
        and p.stands(year)
        and not (gone and p is tree)
    ]
    rows = max(height - 3, 4)
    room = width - (_SIDE_KEY_WIDTH + 2 if width >= KEY_FROM else 0) - 5
    top = max([p.sizes[year][0] for p in near] + [2.0])
    metre = max(2 * about / room, top / rows / CELL_IS_TALL)
    west = tree.east - metre * room / 2
    grid = [[" "] * room for _ in range(rows)]
    names = codes([p.plant for p in canopy.plants])
    for plant in sorted(near, key=lambda p: -p.north):
        _stand_up(grid, plant, names[plant.plant][0], year, west, metre)
    lines = [
        f"{(rows - n) * metre * CELL_IS_TALL:3.0f} |{''.join(line)}".rstrip() for n, line in enumerate(grid)
    ]
    if width >= KEY_FROM:
        lines = beside(lines, _side_key(near, names, year, tree, rows), room + 5)
    said = (
        "; ' are dead twigs"
        if tree in near
        else f"; {old_tree.plant} is {'taken away' if gone else 'down by then'}"
    )
    return [
        f"{year}  seen from the south, in metres{said}",
        *lines,
        "     " + _feet(near, names, year, west, metre, room),
        "     " + _ground_line(garden, old_tree, tree, west, metre, room),
    ]


def _side_key(
    near: Sequence[PlantYears], names: Mapping[str, str], year: int, tree: PlantYears, rows: int
) -> list[str]:
    """Letters, names and heights, the tallest first; as many as fit."""
    tall = sorted(near, key=lambda p: (p is not tree, -p.sizes[year][0]))
    lines = []
    for plant in tall:
        alive = f", {100 * plant.live[year]:.0f} % alive" if plant is tree and plant.live else ""
        name = cut(safe_text(plant.plant, limit=60), 14)
        told = f"{names[plant.plant]} {name} {plant.sizes[year][0]:.0f} m{alive}"
        lines.append(cut(told, _SIDE_KEY_WIDTH))
    if len(lines) > rows:
        lines = [*lines[: rows - 1], f"and {len(lines) - rows + 1} more"]
    return lines


def _feet(
    near: Sequence[PlantYears], names: Mapping[str, str], year: int, west: float, metre: float, room: int
) -> str:
    feet = [" "] * room
    for plant in sorted(near, key=lambda p: p.sizes[year][0]):
        column = int((plant.east - west) / metre)
        if 0 <= column < len(feet) - 1:
            feet[column : column + 2] = names[plant.plant]
    return "".join(feet).rstrip()


def _ground_line(
    garden: Garden, old_tree: OldTree, tree: PlantYears, west: float, metre: float, room: int
) -> str:
    """One height to either side as a line, and where paths cross it at the tree's own north."""
    line = [" "] * room

    def put(east: float, sign: str) -> None:
        column = int((east - west) / metre)
        if 0 <= column < room:
            line[column] = sign

    reach = old_tree.falling.reach_m
    for column in range(room):
        if abs(west + (column + 0.5) * metre - tree.east) <= reach:
            line[column] = "-"
    for path in garden.paths:
        for (a, b), (c, d) in itertools.pairwise(path.line):
            if min(b, d) <= tree.north <= max(b, d) and b != d:
                put(a + (c - a) * (tree.north - b) / (d - b), "=")
    words = f" one height, {reach:.0f} m; = path"
    return ("".join(line).rstrip() + words)[: room + _SIDE_KEY_WIDTH]


def _stand_up(
    grid: list[list[str]], plant: PlantYears, sign: str, year: int, west: float, metre: float
) -> None:
    tall, wide = plant.sizes[year]
    base = plant.base_share * tall
    live = plant.live.get(year, 1.0)
    for n, line in enumerate(grid):
        up = (len(grid) - n - 0.5) * metre * CELL_IS_TALL
        if up > max(tall, metre):
            continue
        half = _half_width(plant.solid, up, base, tall, wide)
        stem = int((plant.east - west) / metre)
        if half <= 0:
            if 0 <= stem < len(line):
                line[stem] = "|"
            continue
        for column in range(len(line)):
            if abs(west + (column + 0.5) * metre - plant.east) <= max(half, metre / 2):
                line[column] = _leaf(sign, live, n, column)


def _leaf(sign: str, live: float, line: int, column: int) -> str:
    """The crown's letter where it lives, a twig where it does not: evenly strewn, always the same."""
    if live >= 1:
        return sign
    strewn = (0.7548776662 * column + 0.5698402910 * line) % 1  # low-discrepancy sequence of the plane
    return sign if strewn < live else "'"


def _half_width(solid: str, up: float, base: float, top: float, wide: float) -> float:
    """Half the crown's width [m] at a height; 0 below the crown."""
    if not base <= up <= top or top <= base:
        return 0.0
    share = (up - base) / (top - base)
    return (
        wide
        * {
            "cone": 1 - share,
            "vase": share,
            "column": 1.0,
            "ellipsoid": math.sqrt(max(0.0, 1 - (2 * share - 1) ** 2)),
        }[solid]
    )


# ---- by year -------------------------------------------------------------------------------------


def curves(old_tree: OldTree, rows: Sequence[Release], years: Sequence[int], width: int) -> list[str]:
    """The old tree's going and everyone's light by year, a line of figures each, numbers at both ends."""
    if not years:
        return ["Nothing stands here whose years could be drawn."]
    room = max(10, width - 30)
    shown = [years[round(i * (len(years) - 1) / (room - 1))] for i in range(room)]
    ends = f"{'':18}      {shown[0]}{' ' * max(1, room - 8)}{shown[-1]}"
    lines = [ends]

    def line(name: str, by_year: Mapping[int, float], need: float | None = None) -> None:
        figures = "".join(_level(by_year[year], need) for year in shown)
        first, last = by_year[shown[0]], by_year[shown[-1]]
        lines.append(f"{fit(safe_text(name, limit=60), 18)} {first:3.0f}  {figures} {last:3.0f}")

    if old_tree.live:
        line("its crown alive, %", {year: 100 * old_tree.live[year] for year in years})
    down = dict(old_tree.down_by)
    if all(year in down for year in years):
        line("chance it is down", {year: 100 * down[year] for year in years})
    if old_tree.succession.covered:
        line("its gap covered, %", {year: 100 * old_tree.succession.covered[year] for year in years})
    if not rows:
        return [*lines, "No plant here loses light to this tree."]
    lines.append("light, % of open")
    for row in rows:
        line(row.plant, row.later, row.need)
    return [*lines, "a figure is tens of percent, - is under 5, * is 95 or more, ! less than the kind wants"]


def _level(percent: float, need: float | None) -> str:
    if need is not None and percent < need:
        return "!"
    if percent < 5:
        return "-"
    return "*" if percent >= 95 else str(min(9, int(percent / 10)))
