"""The garden from above, to scale: crowns as discs or rings, or the light on the ground."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from leafturn.answers.garden_plan import GardenPlan, Standing
from leafturn_tui.charts.braille import ACROSS, DOWN, Dots
from leafturn_tui.charts.heights import Cell, lay, pieces
from leafturn_tui.text.layout import Piece, Row, fit, piece

PER_CELL = 2  # pixels one above the other
EDGE_M = 4.0  # round the outermost plant
TALL_M, MID_M = 7.0, 3.0
COVERED = ((0.7, 1.0), (0.4, 0.6), (0.15, 0.3))  # how strong a crown is where so much of a pixel is under it
NAMED_FROM = 1.6  # pixels of radius from which a name stands on its crown
LIGHT = ((95, "light1"), (85, "light2"), (70, "light3"), (50, "light4"), (0, "light5"))
OPEN = 90  # % of open light from which nothing is written where there is no colour
RING_DOTS = 14  # dots of a ring for each dot of its radius
GroundLight = Callable[[Sequence[tuple[float, float]]], list[float]]


@dataclass(frozen=True)
class Field:
    """A piece of ground: west edge, north edge [m], metres a pixel, size in cells.

    `turned` lays north to the right; its edges are then those of the ground as it lies on the page.
    """

    west: float
    north: float
    metre: float
    columns: int
    rows: int
    turned: bool = False

    @classmethod
    def whole(cls, plan: GardenPlan, columns: int, rows: int) -> Field:
        """All plants, paths and spots, with an edge."""
        return cls._round(_places_of(plan), columns, rows)

    @classmethod
    def along(cls, plan: GardenPlan, columns: int, rows: int) -> Field:
        """The same, turned where the garden's long side would stand up."""
        places = _places_of(plan)
        easts, norths = zip(*places, strict=True) if places else ((0.0,), (0.0,))
        if max(norths) - min(norths) <= max(easts) - min(easts):
            return cls._round(places, columns, rows)
        return replace(cls._round([(n, -e) for e, n in places], columns, rows), turned=True)

    @classmethod
    def _round(cls, places: Sequence[tuple[float, float]], columns: int, rows: int) -> Field:
        east, north = [p[0] for p in places] or [0.0], [p[1] for p in places] or [0.0]
        wide, tall = max(east) - min(east) + 2 * EDGE_M, max(north) - min(north) + 2 * EDGE_M
        metre = max(wide / columns, tall / (PER_CELL * rows))
        middle = (max(east) + min(east)) / 2, (max(north) + min(north)) / 2
        return cls.around(*middle, metre, columns, rows)

    @classmethod
    def around(cls, east: float, north: float, metre: float, columns: int, rows: int) -> Field:
        """So many metres a pixel round a place."""
        return cls(east - metre * columns / 2, north + metre * rows, metre, columns, rows)

    def nearer(self, times: float, east: float = 0.0, north: float = 0.0) -> Field:
        """The same looked at from nearer, moved by shares of its own width and height."""
        middle_east = self.west + self.metre * self.columns * (0.5 + east)
        middle_north = self.north - self.metre * self.rows * (1 - 2 * north)
        return self.around(middle_east, middle_north, self.metre / times, self.columns, self.rows)

    def pixel(self, east: float, north: float) -> tuple[float, float]:
        """Where a place lies, in pixels from the left and from the top."""
        if self.turned:
            east, north = north, -east
        return (east - self.west) / self.metre, (self.north - north) / self.metre

    def places(self) -> list[tuple[float, float]]:
        """The middle of every cell, row by row."""
        return [
            (self.west + (n + 0.5) * self.metre, self.north - (r + 0.5) * self.metre * PER_CELL)
            for r in range(self.rows)
            for n in range(self.columns)
        ]


def _places_of(plan: GardenPlan) -> list[tuple[float, float]]:
    """Plants, spots and the corners of paths [m]."""
    places = [(p.east, p.north) for p in (*(s.point for s in plan.plants), *(p for _, p in plan.spots))]
    return places + [place for path in plan.paths for place in path.line]


def plan_rows(
    plan: GardenPlan,
    field: Field,
    names: Mapping[str, str],
    *,
    colour: bool,
    light: GroundLight | None = None,
) -> list[Row]:
    """The plan as rows of cells.

    Parameters
    ----------
    plan : GardenPlan
    field : Field
    names : mapping of plant id to str
        Two letters for each plant.
    colour : bool
        Half cells in colours, or rings of braille.
    light : callable, optional
        Gives the light on the ground [% of open] at places; it is then shown instead of the crowns.
    """
    if light is not None:
        cells = _light(light(field.places()), field, colour)
    elif colour:
        cells = discs(plan, field)
    else:
        cells = _rings(plan, field)
    _write_names(cells, plan, field, names)
    write(cells, 0, field.columns - 2, "N", "dim")
    _scale(cells, field)
    return [Row(pieces(row)) for row in cells]


def crown(plant: Standing) -> str:
    """The token of a crown: by its height, or as failing."""
    if plant.failing:
        return "crown_old"
    height = plant.height_m
    return "crown_tall" if height >= TALL_M else "crown_mid" if height >= MID_M else "crown_low"


def discs(plan: GardenPlan, field: Field, strength: float = 1.0) -> list[list[Cell]]:
    """Crowns as discs over paths and roofs, in cells of two pixels; `strength` lets crowns stand back."""
    pixels = [["meadow"] * field.columns for _ in range(field.rows * PER_CELL)]
    for path in plan.paths:
        for (a, b), (c, d) in pairwise(path.line):
            steps = max(1, math.ceil(math.hypot(c - a, d - b) / (field.metre / 2)))
            for step in range(steps + 1):
                x, y = field.pixel(a + (c - a) * step / steps, b + (d - b) * step / steps)
                _set(pixels, int(x // 1), int(y // 1), "path")
    for roof in plan.roofs:
        if roof.point is not None:
            wide, deep = reversed(roof.size_m) if field.turned else roof.size_m
            x, y = field.pixel(roof.point.east, roof.point.north)
            half_wide, half_deep = wide / field.metre / 2, deep / field.metre / 2
            for row in range(math.floor(y - half_deep), math.ceil(y + half_deep)):
                for column in range(math.floor(x - half_wide), math.ceil(x + half_wide)):
                    _set(pixels, column, row, "faint")
    for plant in plan.plants:
        _disc(pixels, plant, field, strength)
    return [
        [_half(pixels[PER_CELL * r][n], pixels[PER_CELL * r + 1][n]) for n in range(field.columns)]
        for r in range(field.rows)
    ]


def _disc(pixels: list[list[str]], plant: Standing, field: Field, strength: float) -> None:
    """A disc with a soft edge; a small plant fills a pixel at the least."""
    x0, y0 = field.pixel(plant.point.east, plant.point.north)
    radius = max(0.6, plant.radius_m / field.metre)
    if plant.radius_m <= 0:
        return
    token = crown(plant)
    for y in range(math.floor(y0 - radius - 1), math.ceil(y0 + radius + 1)):
        for x in range(math.floor(x0 - radius - 1), math.ceil(x0 + radius + 1)):
            covered = min(1.0, max(0.0, radius - math.hypot(x + 0.5 - x0, y + 0.5 - y0) + 0.5))
            share = next((share for least, share in COVERED if covered >= least), 0.0)
            if share == 1 or (share and _get(pixels, x, y) == "meadow"):
                strong = round(100 * share * strength)
                _set(pixels, x, y, token if strong == 100 else f"{token}~{strong}~meadow")


def _half(upper: str, lower: str) -> Cell:
    return (" ", f"ink on {upper}") if upper == lower else ("▀", f"{upper} on {lower}")


def _rings(plan: GardenPlan, field: Field) -> list[list[Cell]]:
    """Rings of braille dots, failing trees filled, paths dotted."""
    dots = Dots(field.columns, field.rows)
    for path in plan.paths:
        places = [field.pixel(*place) for place in path.line]
        dots.line([(x * ACROSS, y * DOWN / PER_CELL) for x, y in places], every=3)
    for plant in plan.plants:
        x0, y0 = (v * 2 for v in field.pixel(plant.point.east, plant.point.north))
        radius = max(1.0, 2 * plant.radius_m / field.metre)
        if plant.radius_m <= 0:
            continue
        count = max(8, round(RING_DOTS * radius / 2))
        for n in range(count):
            angle = 2 * math.pi * n / count
            dots.set(x0 + radius * math.cos(angle), y0 + radius * math.sin(angle))
        if plant.failing:
            reach = math.ceil(radius)
            for dy in range(-reach, reach + 1):
                for dx in range(-reach, reach + 1):
                    if math.hypot(dx, dy) < radius and (round(x0) + dx + round(y0) + dy) % 2 == 0:
                        dots.set(x0 + dx, y0 + dy)
    return [[(dots.cell(n, r), "") for n in range(field.columns)] for r in range(field.rows)]


def _light(percents: Sequence[float], field: Field, colour: bool) -> list[list[Cell]]:
    cells: list[Cell] = []
    for percent in percents:
        token = next(token for least, token in LIGHT if percent >= least)
        digit = " " if colour or percent >= OPEN else str(int(percent // 10))
        cells.append((digit, f"letters on {token}"))
    return [cells[r * field.columns : (r + 1) * field.columns] for r in range(field.rows)]


def _write_names(cells: list[list[Cell]], plan: GardenPlan, field: Field, names: Mapping[str, str]) -> None:
    """Two letters on each crown, or beside it where it is small; the tallest first. Spots in words."""
    for plant in reversed(plan.plants):
        x, y = field.pixel(plant.point.east, plant.point.north)
        beside = 0 if plant.radius_m / field.metre >= NAMED_FROM else 1
        at = int(x) + (beside or -1)
        write(cells, int(y // PER_CELL), at, names[plant.plant], "")
    for name, point in plan.spots:
        x, y = field.pixel(point.east, point.north)
        write(cells, int(y // PER_CELL), int(x), piece(name).text, "dim")


def write(cells: list[list[Cell]], row: int, at: int, text: str, tone: str) -> bool:
    """Letters on the ground that is there; False, and nothing, where others stand or the field ends."""
    if not 0 <= row < len(cells) or not at >= 0 or at + len(text) > len(cells[row]):
        return False
    under = cells[row][at : at + len(text)]
    if any(sign.isalnum() for sign, _ in under):
        return False
    for n, letter in enumerate(text):
        front, _, ground = under[n][1].partition(" on ")
        ground = front if under[n][0] == "▀" and front else ground
        if " on " in tone or not ground:
            cells[row][at + n] = letter, tone or "*ink"
        else:
            cells[row][at + n] = letter, f"{tone or '*letters'} on {ground}"
    return True


def _scale(cells: list[list[Cell]], field: Field) -> None:
    """A bar of ten or twenty metres at the bottom left."""
    metres = (
        20 if 20 / field.metre <= field.columns / 3 else 10 if 10 / field.metre <= field.columns / 2 else 2
    )
    wide = max(2, round(metres / field.metre))
    lay(cells[-1], 0, f"├{'─' * (wide - 2)}┤ {metres} m"[: field.columns], "dim")


def _set(pixels: list[list[str]], x: int, y: int, token: str) -> None:
    if 0 <= y < len(pixels) and 0 <= x < len(pixels[y]):
        pixels[y][x] = token


def _get(pixels: list[list[str]], x: int, y: int) -> str:
    return pixels[y][x] if 0 <= y < len(pixels) and 0 <= x < len(pixels[y]) else ""


def legend_rows(plan: GardenPlan, names: Mapping[str, str], width: int) -> list[Row]:
    """The plants by height under a patch of their colour, in two columns where there is room."""
    groups = (
        ("failing", [p for p in plan.plants if p.failing]),
        ("7 m and taller", [p for p in plan.plants if not p.failing and p.height_m >= TALL_M]),
        ("3 to 7 m", [p for p in plan.plants if not p.failing and MID_M <= p.height_m < TALL_M]),
        ("under 3 m", [p for p in plan.plants if not p.failing and p.height_m < MID_M]),
    )
    across = 2 if width >= 30 else 1
    room = width // across
    rows: list[Row] = []
    for title, plants in groups:
        if not plants:
            continue
        rows.append(Row((Piece("  ", f"ink on {crown(plants[0])}"), Piece(f" {title}", "dim"))))
        ordered = sorted(plants, key=lambda p: (-p.height_m, p.plant))
        for n in range(0, len(ordered), across):
            line: list[Piece] = []
            for plant in ordered[n : n + across]:
                name = fit(piece(plant.plant).text, room - 4)
                line += [Piece(f"{names[plant.plant]} ", "*ink"), Piece(f"{name} ")]
            rows.append(Row(tuple(line)))
    return rows


def beside(left: Sequence[Row], right: Sequence[Row], width: int) -> list[Row]:
    """Rows of `width` cells with others to their right."""
    blank = Row((Piece(" " * width),))
    count = max(len(left), len(right))
    lefts = [*left, *[blank] * (count - len(left))]
    rights = [*right, *[Row(())] * (count - len(right))]
    return [
        replace(a, pieces=(*a.pieces, Piece("  "), *b.pieces)) for a, b in zip(lefts, rights, strict=True)
    ]
