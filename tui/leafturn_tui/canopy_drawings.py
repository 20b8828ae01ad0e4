"""The canopy drawn in characters: the plan, the view from the side, light by year. Legible in one colour."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from leafturn.canopy.model import Canopy, Elder, PlantYears, Release
from leafturn.garden.model import Garden

# Light on the ground [% of open] from which a shade is used, lightest first.
SHADES = ((90, " "), (75, "."), (60, ":"), (45, "+"), (0, "#"))
_CELL_IS_TALL = 2  # a character is about twice as high as wide
_LEAST_METRES = 0.5

GroundLight = Callable[[int, Sequence[tuple[float, float]]], list[float]]


def codes(plants: Sequence[PlantYears]) -> dict[str, str]:
    """Two letters for each plant, each pair once: the first letters of its words if they can be had."""
    taken: dict[str, str] = {}
    for plant in plants:
        letters = [c for c in plant.plant.lower() if c.isascii() and c.isalnum()] or ["p"]
        words = [w for w in plant.plant.lower().split("-") if w and w[0].isascii() and w[0].isalnum()]
        wished = [words[0][0] + words[1][0]] if len(words) > 1 else []
        wished += [letters[0] + later for later in letters[1:]]
        wished += [letters[0] + c for c in "123456789abcdefghijklmnopqrstuvwxyz"]
        taken[plant.plant] = next((w for w in wished if w not in taken.values()), "??")
    return taken


def plan(
    canopy: Canopy,
    garden: Garden,
    light: GroundLight,
    year: int,
    width: int,
    height: int,
    centre: Elder | None,
) -> list[str]:
    """The garden from above, north up: shades of light, paths, plants by two letters.

    Parameters
    ----------
    canopy : Canopy
    garden : Garden
        For its paths.
    light : callable
        Light on the ground in a year, for places.
    year : int
    width, height : int
        Characters to fit into; the last lines are the scale and what the signs mean.
    centre : Elder or None
        The old tree the cut goes round, where the garden is too wide for its letters to be told apart.
    """
    standing = [p for p in canopy.plants if p.falls_after is None or year <= p.falls_after]
    rows = max(height - 2, 4)
    west, south, metre = _cut(canopy.plants, width, rows, centre)
    middles = [
        (west + (column + 0.5) * metre, south + (rows - line - 0.5) * metre * _CELL_IS_TALL)
        for line in range(rows)
        for column in range(width)
    ]
    shades = [next(sign for least, sign in SHADES if percent >= least) for percent in light(year, middles)]
    grid = [shades[line * width : (line + 1) * width] for line in range(rows)]

    def put(east: float, north: float, text: str) -> None:
        column = math.floor((east - west) / metre)
        line = rows - 1 - math.floor((north - south) / (metre * _CELL_IS_TALL))
        if 0 <= line < rows and 0 <= column <= width - len(text):
            grid[line][column : column + len(text)] = text

    for path in garden.paths:
        for (a, b), (c, d) in zip(path.line, path.line[1:], strict=False):
            steps = max(1, math.ceil(math.hypot(c - a, d - b) / (metre / 2)))
            for step in range(steps + 1):
                put(a + (c - a) * step / steps, b + (d - b) * step / steps, "=")
    names = codes(canopy.plants)
    for plant in sorted(standing, key=lambda p: p.sizes[year][0]):  # the tallest lies on top
        put(
            plant.east,
            plant.north,
            names[plant.plant].upper() if _is_tall(plant, year) else names[plant.plant],
        )
    bar = max(1, round(10 / metre))
    meant = ", ".join(f"'{sign}' {least}+" for least, sign in SHADES)
    return [
        f"{year}  |{'-' * bar}| 10 m, north up; = path; CAPITALS over 4 m",
        *("".join(line).rstrip() for line in grid),
        f"light on the ground, % of open: {meant}",
    ]


def _is_tall(plant: PlantYears, year: int) -> bool:
    return plant.sizes[year][0] > 4


def _cut(
    plants: Sequence[PlantYears], width: int, rows: int, centre: Elder | None
) -> tuple[float, float, float]:
    """West and south edge [m] and metres a character: of all plants, or of the old tree's surroundings."""
    easts, norths = [p.east for p in plants], [p.north for p in plants]
    if centre is not None:
        tree = next(p for p in plants if p.plant == centre.plant)
        about = max(0.6 * centre.height_m, 6.0)
        easts, norths = [tree.east - about, tree.east + about], [tree.north - about, tree.north + about]
    wide, tall = max(easts) - min(easts) + 4, max(norths) - min(norths) + 4
    metre = max(wide / width, tall / (rows * _CELL_IS_TALL), _LEAST_METRES)
    west = (max(easts) + min(easts)) / 2 - metre * width / 2
    south = (max(norths) + min(norths)) / 2 - metre * rows * _CELL_IS_TALL / 2
    return west, south, metre


def side(canopy: Canopy, elder: Elder, year: int, width: int, height: int) -> list[str]:
    """The old tree and its neighbours seen from the south, in a year: crowns, stems, metres.

    Only those as near in depth as the old tree is high are drawn; who stands in front hides who is behind.
    """
    tree = next(p for p in canopy.plants if p.plant == elder.plant)
    about = max(elder.height_m, 6.0)
    near = [
        p
        for p in canopy.plants
        if abs(p.east - tree.east) <= about
        and abs(p.north - tree.north) <= about
        and (p.falls_after is None or year <= p.falls_after)
    ]
    rows = max(height - 2, 4)
    top = max([p.sizes[year][0] for p in near] + [2.0])
    metre = max(2 * about / (width - 5), top / rows / _CELL_IS_TALL)
    west = tree.east - metre * (width - 5) / 2
    grid = [[" "] * (width - 5) for _ in range(rows)]
    names = codes(canopy.plants)
    for plant in sorted(near, key=lambda p: -p.north):
        _stand_up(grid, plant, names[plant.plant][0], year, west, metre)
    feet = [" "] * (width - 5)
    for plant in sorted(near, key=lambda p: p.sizes[year][0]):
        column = int((plant.east - west) / metre)
        if 0 <= column < len(feet) - 1:
            feet[column : column + 2] = names[plant.plant]
    lines = [
        f"{(rows - n) * metre * _CELL_IS_TALL:3.0f} |{''.join(line)}".rstrip() for n, line in enumerate(grid)
    ]
    gone = "" if tree in near else f"; {elder.plant} is down by then"
    return [
        f"{year}  seen from the south, metres; a crown by its first letter{gone}",
        *lines,
        "     " + "".join(feet).rstrip(),
    ]


def _stand_up(
    grid: list[list[str]], plant: PlantYears, sign: str, year: int, west: float, metre: float
) -> None:
    tall, wide = plant.sizes[year]
    base = plant.base_share * tall
    for n, line in enumerate(grid):
        up = (len(grid) - n - 0.5) * metre * _CELL_IS_TALL
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
                line[column] = sign


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


def curves(rows: Sequence[Release], years: Sequence[int], width: int) -> list[str]:
    """Light by year as a line of figures a plant: a letter tells the level, numbers stand at both ends."""
    if not rows or not years:
        return ["No plant here loses light to this tree."]
    room = max(10, width - 34)
    shown = [years[round(i * (len(years) - 1) / (room - 1))] for i in range(room)]
    lines = []
    for row in rows:
        levels = "".join(_level(row.later[year], row.need) for year in shown)
        first, last = row.later[years[0]], row.later[years[-1]]
        lines.append(f"{row.plant[:18]:18} {first:3.0f} % {levels} {last:3.0f} %")
    ends = f"{shown[0]}{' ' * max(1, room - 8)}{shown[-1]}"
    return [
        *lines,
        f"{'':18}       {ends}",
        "figures are tenths of open light, * is full light, ! less than the kind wants",
    ]


def _level(percent: float, need: float | None) -> str:
    if need is not None and percent < need:
        return "!"
    return "*" if percent >= 95 else str(min(9, int(percent / 10)))
