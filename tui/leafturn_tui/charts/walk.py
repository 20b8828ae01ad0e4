"""The walk of a round over the garden from above, the garden's long side along the page."""

from __future__ import annotations

from leafturn.answers.garden_plan import GardenPlan
from leafturn.tasks.week.model import Stop, Walk
from leafturn_tui.charts.braille import ACROSS, DOWN, Dots
from leafturn_tui.charts.crowns import discs
from leafturn_tui.charts.field import PER_CELL, Field, write
from leafturn_tui.charts.heights import Cell, lay_dots, pieces
from leafturn_tui.text.layout import Row, piece

BACK = 0.55  # how strong crowns are behind the way
EVERY = 3  # of the dots of the way one in so many is set
ASIDE = ((0, 0), (0, 1), (0, -1), (1, 0), (-1, 0))  # rows and cells off, in which a number is tried in turn


def walk_rows(plan: GardenPlan, walk: Walk, columns: int, rows: int, *, colour: bool) -> list[Row]:
    """The way from the gate on as dots, its stops numbered in their order, names beside them.

    Parameters
    ----------
    plan : GardenPlan
    walk : Walk
    columns, rows : int [cells]
    colour : bool
        Crowns behind the way; without colour there is the way alone.
    """
    field = Field.along(plan, columns, rows)
    blank: list[list[Cell]] = [[(" ", "")] * columns for _ in range(rows)]
    cells = discs(plan, field, BACK) if colour else blank
    dots = Dots(columns, rows)
    places = [field.pixel(stop.point.east, stop.point.north) for stop in walk.way]
    dots.line([(x * ACROSS, y * DOWN / PER_CELL) for x, y in places], every=EVERY)
    lay_dots(cells, dots, "accent")
    north = "N ▸" if field.turned else "N"
    write(cells, 0, columns - len(north) - 1, north, "dim")
    _write_stops(cells, field, walk.way)
    return [Row(pieces(row)) for row in cells]


def _write_stops(cells: list[list[Cell]], field: Field, way: tuple[Stop, ...]) -> None:
    """All numbers before any name, which stands where it finds room; the gate has its name alone."""
    first = {stop.name: stop for stop in reversed(way)}
    stops = [first[name] for name in dict.fromkeys(stop.name for stop in way)]
    written = []
    for n, stop in enumerate(stops):
        x, y = field.pixel(stop.point.east, stop.point.north)
        row, at, number = int(y // PER_CELL), int(x), str(n) if n else ""
        for down, aside in ASIDE:
            if not number or write(cells, row + down, at + aside, number, "*ground on accent"):
                written.append((row + down, at + aside, number, piece(stop.name).text))
                break
    for row, at, number, name in written:
        beside = at + (len(number) + 1 if number else 0)
        for down, start in ((0, beside), (0, at - 1 - len(name)), (1, at), (-1, at)):
            if write(cells, row + down, start, name, "ink" if number else "dim"):
                break
