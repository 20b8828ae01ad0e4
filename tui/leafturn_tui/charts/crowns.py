"""Crowns, paths and roofs on a piece of ground: discs in half cells of colour, or rings of dots."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from leafturn.answers.garden_plan import GardenPlan, Standing
from leafturn.garden.model import Path, Point
from leafturn_tui.charts.braille import ACROSS, DOWN, Dots
from leafturn_tui.charts.field import PER_CELL, Field
from leafturn_tui.charts.heights import Cell

TALL_M, MID_M = 7.0, 3.0
COVERED = ((0.7, 1.0), (0.4, 0.6), (0.15, 0.3))  # how strong a crown is where so much of a pixel is under it
RING_DOTS = 14  # dots of a ring for each dot of its radius
PATH_EVERY = 3  # of the dots of a path one in so many is set; within reach all are
REACH_EVERY = 1.5  # pixels from one piece of the ring of reach to the next


class Reach(NamedTuple):
    """A tree that may come down: where it stands, and how far it reaches [m]."""

    point: Point
    metres: float


def crown(plant: Standing) -> str:
    """The token of a plant's crown."""
    return crown_token(plant.height_m, failing=plant.failing)


def crown_token(height_m: float, *, failing: bool) -> str:
    """The token of a crown: by its height, or as failing."""
    if failing:
        return "crown_old"
    return "crown_tall" if height_m >= TALL_M else "crown_mid" if height_m >= MID_M else "crown_low"


def discs(
    plan: GardenPlan, field: Field, strength: float = 1.0, reach: Reach | None = None
) -> list[list[Cell]]:
    """Crowns as discs over paths and roofs, in cells of two pixels; a ring of reach lies over them.

    Parameters
    ----------
    plan : GardenPlan
    field : Field
    strength : float
        Less than 1 lets crowns stand back.
    reach : Reach, optional
        The ring, and pieces of path within it, are drawn as harm.
    """
    pixels = _Pixels(field)
    for path in plan.paths:
        for east, north in _along(path, field):
            pixels.set(*field.pixel(east, north), "path")
    for roof in plan.roofs:
        if roof.point is not None:
            pixels.rectangle(roof.point, roof.size_m, "faint")
    for plant in plan.plants:
        pixels.disc(plant, strength)
    if reach is not None:
        for path in plan.paths:
            for east, north in _along(path, field):
                if reach.point.metres_to(Point(east, north)) <= reach.metres:
                    pixels.set(*field.pixel(east, north), "harm")
        for x, y in _ring(reach, field):
            pixels.set(x, y, "harm")
    return pixels.cells()


def rings(plan: GardenPlan, field: Field, reach: Reach | None = None) -> list[list[Cell]]:
    """Rings of braille dots, failing trees filled; paths dotted, closer within reach."""
    dots = Dots(field.columns, field.rows)
    for path in plan.paths:
        places = [field.pixel(*place) for place in path.line]
        dots.line([_dot(x, y) for x, y in places], every=PATH_EVERY)
        for east, north in _along(path, field) if reach is not None else ():
            if reach is not None and reach.point.metres_to(Point(east, north)) <= reach.metres:
                dots.set(*_dot(*field.pixel(east, north)))
    for plant in plan.plants:
        _ring_of(dots, plant, field)
    if reach is not None:
        for x, y in _ring(reach, field):
            dots.set(*_dot(x, y))
    return [[(dots.cell(n, r), "") for n in range(field.columns)] for r in range(field.rows)]


class _Pixels:
    """The ground in pixels, each the token of a colour."""

    def __init__(self, field: Field) -> None:
        self._field = field
        self._tokens = [["meadow"] * field.columns for _ in range(field.rows * PER_CELL)]

    def set(self, x: float, y: float, token: str) -> None:
        """Colour one pixel; outside of the field nothing happens."""
        column, row = math.floor(x), math.floor(y)
        if 0 <= row < len(self._tokens) and 0 <= column < self._field.columns:
            self._tokens[row][column] = token

    def is_meadow(self, x: int, y: int) -> bool:
        """Whether nothing stands on a pixel."""
        inside = 0 <= y < len(self._tokens) and 0 <= x < self._field.columns
        return inside and self._tokens[y][x] == "meadow"

    def rectangle(self, middle: Point, size_m: tuple[float, float], token: str) -> None:
        """A piece of ground by its middle and how far it goes from west to east and from south to north."""
        metre, turned = self._field.metre, self._field.turned
        wide, deep = (size_m[1], size_m[0]) if turned else size_m
        x, y = self._field.pixel(middle.east, middle.north)
        for row in range(math.floor(y - deep / metre / 2), math.ceil(y + deep / metre / 2)):
            for column in range(math.floor(x - wide / metre / 2), math.ceil(x + wide / metre / 2)):
                self.set(column, row, token)

    def disc(self, plant: Standing, strength: float) -> None:
        """A crown with a soft edge; a small plant fills a pixel at the least, a climber none."""
        if plant.radius_m <= 0:
            return
        x0, y0 = self._field.pixel(plant.point.east, plant.point.north)
        radius = max(0.6, plant.radius_m / self._field.metre)
        token = crown(plant)
        for y in range(math.floor(y0 - radius - 1), math.ceil(y0 + radius + 1)):
            for x in range(math.floor(x0 - radius - 1), math.ceil(x0 + radius + 1)):
                covered = min(1.0, max(0.0, radius - math.hypot(x + 0.5 - x0, y + 0.5 - y0) + 0.5))
                share = next((share for least, share in COVERED if covered >= least), 0.0)
                if share == 1 or (share and self.is_meadow(x, y)):
                    strong = round(100 * share * strength)
                    self.set(x, y, token if strong == 100 else f"{token}~{strong}~meadow")

    def cells(self) -> list[list[Cell]]:
        """Two pixels, one above the other, as one cell."""
        return in_halves(self._tokens)


def in_halves(pixels: Sequence[Sequence[str]]) -> list[list[Cell]]:
    """Rows of pixels, two of which one above the other make a cell, by their tokens; "" shows the ground."""
    pairs = zip(pixels[::PER_CELL], pixels[1::PER_CELL], strict=True)
    return [[_half(*both) for both in zip(upper, lower, strict=True)] for upper, lower in pairs]


def _half(upper: str, lower: str) -> Cell:
    if upper and lower:
        return (" ", f"ink on {upper}") if upper == lower else ("▀", f"{upper} on {lower}")
    return ("▀", upper) if upper else ("▄", lower) if lower else (" ", "")


def _dot(x: float, y: float) -> tuple[float, float]:
    """A pixel's place in dots."""
    return x * ACROSS, y * DOWN / PER_CELL


def _along(path: Path, field: Field) -> Iterator[tuple[float, float]]:
    """Places of a path, less than a pixel apart."""
    for (a, b), (c, d) in pairwise(path.line):
        steps = max(1, math.ceil(math.hypot(c - a, d - b) / (field.metre / 2)))
        for step in range(steps + 1):
            yield a + (c - a) * step / steps, b + (d - b) * step / steps


def _ring(reach: Reach, field: Field) -> Sequence[tuple[float, float]]:
    """Pixels of a ring, with gaps between, so that it is told from a path."""
    x, y = field.pixel(reach.point.east, reach.point.north)
    radius = reach.metres / field.metre
    count = max(16, round(2 * math.pi * radius / REACH_EVERY))
    angles = (2 * math.pi * n / count for n in range(count))
    return [(x + radius * math.cos(angle), y + radius * math.sin(angle)) for angle in angles]


def _ring_of(dots: Dots, plant: Standing, field: Field) -> None:
    """A crown's ring, filled with every second dot where it is failing."""
    if plant.radius_m <= 0:
        return
    x0, y0 = _dot(*field.pixel(plant.point.east, plant.point.north))
    radius = max(1.0, ACROSS * plant.radius_m / field.metre)
    count = max(8, round(RING_DOTS * radius / ACROSS))
    for n in range(count):
        angle = 2 * math.pi * n / count
        dots.set(x0 + radius * math.cos(angle), y0 + radius * math.sin(angle))
    if plant.failing:
        reach = math.ceil(radius)
        for dy in range(-reach, reach + 1):
            for dx in range(-reach, reach + 1):
                if math.hypot(dx, dy) < radius and (round(x0) + dx + round(y0) + dy) % 2 == 0:
                    dots.set(x0 + dx, y0 + dy)
