"""A piece of ground as a picture shows it: where it lies, how much a pixel is, what is written on it."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from leafturn.answers.garden_plan import GardenPlan
from leafturn.base import quantities
from leafturn.base.units import METRES_IN_A_FOOT
from leafturn.base.value import Value
from leafturn_tui.charts.heights import Cell

PER_CELL = 2  # pixels one above the other
EDGE_M = 4.0  # round the outermost plant


class Field(Value, kw_only=False):
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


DIGITS_OF_NAMES = "0123456789-"  # of names, which are bold or dim; figures of the ground are neither


def write(cells: list[list[Cell]], row: int, at: int, text: str, tone: str, *, apart: int = 0) -> bool:
    """Letters on the ground that is there; False, and nothing, where others stand or the field ends.

    Figures of the ground itself give way. `apart` is how many cells on either side must
    be free of other letters too.
    """
    if not 0 <= row < len(cells) or not at >= 0 or at + len(text) > len(cells[row]):
        return False
    near = cells[row][max(0, at - apart) : at + len(text) + apart]
    if any(
        sign.isalpha() or (sign in DIGITS_OF_NAMES and tone.startswith(("*", "dim"))) for sign, tone in near
    ):
        return False
    under = cells[row][at : at + len(text)]
    for n, letter in enumerate(text):
        cells[row][at + n] = _lettered(under[n], letter, tone)
    return True


def _lettered(cell: Cell, letter: str, tone: str) -> Cell:
    """A letter on the ground of a cell; on light and on crowns dim would not be read."""
    front, _, ground = cell[1].partition(" on ")
    ground = front if cell[0] == "▀" and front else ground
    if " on " in tone or not ground:
        return letter, tone or "*ink"
    own = "letters" if tone == "dim" and ground.startswith(("light", "crown")) else tone
    return letter, f"{own or '*letters'} on {ground}"


def write_scale(cells: list[list[Cell]], field: Field) -> None:
    """Where north is, at the top right, and a bar of some metres at the bottom left."""
    north = "N ▸" if field.turned else "N"
    write(cells, 0, field.columns - len(north) - 1, north, "dim")
    unit = METRES_IN_A_FOOT if quantities.spoken() == "us" else 1.0
    long, middling, short = (60, 30, 6) if quantities.spoken() == "us" else (20, 10, 2)
    number = (
        long
        if long * unit / field.metre <= field.columns / 3
        else middling
        if middling * unit / field.metre <= field.columns / 2
        else short
    )
    wide = max(2, round(number * unit / field.metre))
    bar = f"├{'─' * (wide - 2)}┤ {number} {quantities.metres_unit()}"
    for n, sign in enumerate(bar[: field.columns]):
        cells[-1][n] = _lettered(cells[-1][n], sign, "dim")
