"""The old tree and its neighbours from the south: crowns and stems to scale, in half cells or in dots."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise

from leafturn.base import quantities
from leafturn.base.value import Value
from leafturn.canopy.model import PlantYears
from leafturn.garden.model import Path
from leafturn_tui.charts.braille import ACROSS, DOWN, Dots
from leafturn_tui.charts.crowns import crown_token, in_halves
from leafturn_tui.charts.field import PER_CELL
from leafturn_tui.charts.heights import Cell, pieces, placed
from leafturn_tui.text.layout import Piece, Row

AXIS = 5  # cells of the heights at the left
FEET = 2  # rows under the picture: names, and the reach along the ground
LEAST_ABOUT_M = 6.0
DEAD = "crown_old~30~ground"


class SideView(Value):
    """What is seen from the south in one year.

    Parameters
    ----------
    near : tuple of PlantYears
        What is drawn, the old tree among it while it stands.
    tree : PlantYears
        The old tree: the picture goes as far to either side as it reaches.
    reach_m : float [m]
        Its height.
    paths : tuple of Path
    year : int
    names : mapping of plant id to str
        Two letters for each plant.
    """

    near: tuple[PlantYears, ...]
    tree: PlantYears
    reach_m: float
    paths: tuple[Path, ...]
    year: int
    names: Mapping[str, str]


def near_in_depth(
    plants: Sequence[PlantYears], tree: PlantYears, reach_m: float, year: int
) -> list[PlantYears]:
    """Plants that stand in a year no farther off the old tree than it is high, to the side and in depth."""
    about = max(reach_m, LEAST_ABOUT_M)
    return [
        p
        for p in plants
        if abs(p.east - tree.east) <= about and abs(p.north - tree.north) <= about and p.stands(year)
    ]


def side_rows(view: SideView, columns: int, rows: int, *, colour: bool) -> list[Row]:
    """The picture with heights at its left; who stands in front hides who is behind.

    Parameters
    ----------
    view : SideView
    columns, rows : int [cells]
    colour : bool
        Half cells in colours, or dots: outlines, and what lives of the old tree filled.
    """
    room, high = columns - AXIS, max(3, rows - FEET)
    top = max([p.sizes[view.year][0] for p in view.near] + [2.0])
    about = max(view.reach_m, LEAST_ABOUT_M)
    metre = max(2 * about / room, top / (high * PER_CELL))
    high = min(high, math.ceil(top / metre / PER_CELL) + 1)
    west = view.tree.east - metre * room / 2
    cells = _coloured(view, west, metre, room, high) if colour else _dotted(view, west, metre, room, high)
    drawn = []
    for n, line in enumerate(cells):
        height = quantities.bare_metres((high - n) * metre * PER_CELL, 0) if n % 2 == 0 else ""
        drawn.append(Row((Piece(f"{height:>{AXIS - 2}}  ", "dim"), *pieces(line))))
    return [*drawn, _names_row(view, west, metre, room), _ground_row(view, west, metre, room)]


def _half_width(plant: PlantYears, up: float, year: int) -> float:
    """Half the crown's width [m] at a height; 0 below the crown and above it."""
    tall, wide = plant.sizes[year]
    base = plant.base_share * tall
    if not base <= up <= tall or tall <= base:
        return 0.0
    share = (up - base) / (tall - base)
    shape = {
        "cone": 1 - share,
        "vase": share,
        "column": 1.0,
        "ellipsoid": math.sqrt(max(0.0, 1 - (2 * share - 1) ** 2)),
    }
    return wide * shape[plant.solid]


def _lives(live: float, column: int, line: int) -> bool:
    """Whether a place of a crown is alive: so large a share of all places, evenly strewn."""
    return (0.7548776662 * column + 0.5698402910 * line) % 1 < live  # low-discrepancy sequence of the plane


def _coloured(view: SideView, west: float, metre: float, room: int, high: int) -> list[list[Cell]]:
    tokens = [[""] * room for _ in range(high * PER_CELL)]
    for plant in sorted(view.near, key=lambda p: -p.north):
        token = crown_token(plant.sizes[view.year][0], failing=plant is view.tree)
        for x, y, in_crown in _places(plant, view.year, west, metre, room, high * PER_CELL):
            alive = _lives(plant.live.get(view.year, 1.0), x, y)
            tokens[y][x] = "heap" if not in_crown else token if alive else DEAD
    return in_halves(tokens)


def _places(
    plant: PlantYears, year: int, west: float, metre: float, room: int, pixels: int
) -> Iterator[tuple[int, int, bool]]:
    """Column and line of each place that a plant covers, and whether it is crown rather than stem."""
    tall = plant.sizes[year][0]
    for y in range(pixels):
        up = (pixels - y - 0.5) * metre
        if up > max(tall, metre):
            continue
        half = _half_width(plant, up, year)
        for x in range(room):
            aside = abs(west + (x + 0.5) * metre - plant.east)
            if aside <= max(half, metre / 2):
                yield x, y, half > 0


def _dotted(view: SideView, west: float, metre: float, room: int, high: int) -> list[list[Cell]]:
    """Outlines, what is in front before what is behind; the old tree is filled where it lives."""
    dots, fine = Dots(room, high), metre / ACROSS
    hidden: set[tuple[int, int]] = set()
    for plant in sorted(view.near, key=lambda p: p.north):
        places = {(x, y) for x, y, _ in _places(plant, view.year, west, fine, room * ACROSS, high * DOWN)}
        live = plant.live.get(view.year, 1.0)
        for x, y in places - hidden:
            edge = not {(x - 1, y), (x + 1, y), (x, y - 1), (x, y + 1)} <= places
            if edge or (plant is view.tree and _lives(live / 2, x, y)):
                dots.set(x, y)
        hidden |= places
    return [[(dots.cell(n, r), "") for n in range(room)] for r in range(high)]


def _names_row(view: SideView, west: float, metre: float, room: int) -> Row:
    words = [
        (int((plant.east - west) / metre), view.names[plant.plant], "*ink")
        for plant in sorted(view.near, key=lambda p: -p.sizes[view.year][0])
    ]
    return Row((Piece(" " * AXIS), *pieces(placed(words, room))))


def _ground_row(view: SideView, west: float, metre: float, room: int) -> Row:
    """As far as the tree is high to either side, and where paths cross that line."""
    line: list[Cell] = [
        ("─", "harm") if abs(west + (n + 0.5) * metre - view.tree.east) <= view.reach_m else (" ", "")
        for n in range(room)
    ]
    for path in view.paths:
        for (a, b), (c, d) in pairwise(path.line):
            if b != d and min(b, d) <= view.tree.north <= max(b, d):
                column = int((a + (c - a) * (view.tree.north - b) / (d - b) - west) / metre)
                if 0 <= column < room:
                    line[column] = ("┃", "*harm" if line[column][0] == "─" else "path")
    said = f" {quantities.metres(view.reach_m, 0)} to each side "
    first = next((n for n, cell in enumerate(line) if cell[0] == "─"), 0) + 2
    if first + len(said) <= room // 2:
        line[first : first + len(said)] = [(letter, "dim") for letter in said]
    return Row((Piece(" " * AXIS), *pieces(line)))
