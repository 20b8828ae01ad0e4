"""The garden from above, to scale: crowns as discs or rings, or the light on the ground."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import NamedTuple

from msgspec.structs import replace

from leafturn.answers.garden_plan import GardenPlan
from leafturn.base import quantities
from leafturn_tui.charts.crowns import MID_M, TALL_M, Reach, crown, discs, rings
from leafturn_tui.charts.field import PER_CELL, Field, write, write_scale
from leafturn_tui.charts.heights import Cell, pieces
from leafturn_tui.text.layout import Piece, Row, fit, piece

NAMED_FROM = 1.6  # pixels of radius from which a name stands on its crown
OPEN = 90  # % of open light from which nothing is written where there is no colour
LEAST_GAIN = 5  # points of light; less is nothing
MOVED = ((0, 0), (1, 0), (-1, 0), (0, -1), (0, 1))  # cells and rows by which a name may be moved
GroundLight = Callable[[Sequence[tuple[float, float]]], list[float]]


class Shade(NamedTuple):
    """What is shown of the ground instead of crowns.

    Parameters
    ----------
    at : callable
        Gives its figure at places.
    steps : sequence of (float, str)
        The least figure of each step with its colour, the highest first.
    sign : callable
        What is written for a figure where there is no colour.
    """

    at: GroundLight
    steps: Sequence[tuple[float, str]]
    sign: Callable[[float], str]


def light_shade(at: GroundLight) -> Shade:
    """Light on the ground [% of open]: as tens where there is no colour, blank where it is open."""
    steps = ((95, "light1"), (85, "light2"), (70, "light3"), (50, "light4"), (0, "light5"))
    return Shade(at, steps, lambda percent: " " if percent >= OPEN else str(int(percent // 10)))


def gain_shade(at: GroundLight) -> Shade:
    """Points of light gained: as tens where there is no colour, blank where there are next to none."""
    steps = ((25, "light1"), (15, "light2"), (LEAST_GAIN, "light3"), (-101, "meadow"))
    return Shade(at, steps, lambda points: " " if points < LEAST_GAIN else str(max(1, round(points / 10))))


def plan_rows(
    plan: GardenPlan,
    field: Field,
    names: Mapping[str, str],
    *,
    colour: bool,
    shade: Shade | None = None,
    reach: Reach | None = None,
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
    shade : Shade, optional
        What is shown instead of the crowns.
    reach : Reach, optional
        A tree that may come down: how far it reaches is drawn over the crowns.
    """
    if shade is not None:
        cells = _shaded(shade, field, colour)
    elif colour:
        cells = discs(plan, field, reach=reach)
    else:
        cells = rings(plan, field, reach)
    _write_names(cells, plan, field, names)
    write_scale(cells, field)
    return [Row(pieces(row)) for row in cells]


def _shaded(shade: Shade, field: Field, colour: bool) -> list[list[Cell]]:
    cells: list[Cell] = []
    for figure in shade.at(field.places()):
        token = next(token for least, token in shade.steps if figure >= least)
        cells.append((" " if colour else shade.sign(figure), f"letters on {token}"))
    return [cells[r * field.columns : (r + 1) * field.columns] for r in range(field.rows)]


def _write_names(cells: list[list[Cell]], plan: GardenPlan, field: Field, names: Mapping[str, str]) -> None:
    """Two letters on each crown, or beside it where it is small, the tallest first; spots in words.

    Where others stand they are moved by a cell or a row. What finds no room is seen from nearer.
    """
    for plant in reversed(plan.plants):
        x, y = field.pixel(plant.point.east, plant.point.north)
        beside = 0 if plant.radius_m / field.metre >= NAMED_FROM else 1
        at = int(x) + (beside or -1)
        _write_near(cells, int(y // PER_CELL), at, names[plant.plant], "")
    for name, point in plan.spots:
        x, y = field.pixel(point.east, point.north)
        _write_near(cells, int(y // PER_CELL), int(x), piece(name).text, "dim")


def _write_near(cells: list[list[Cell]], row: int, at: int, text: str, tone: str) -> None:
    for aside, down in MOVED:
        if write(cells, row + down, at + aside, text, tone, apart=1):
            return


def legend_rows(plan: GardenPlan, names: Mapping[str, str], width: int) -> list[Row]:
    """The plants by height under a patch of their colour, in two columns where there is room."""
    tall = quantities.metres(TALL_M, 0)
    groups = (
        ("failing", [p for p in plan.plants if p.failing]),
        (f"{tall} and taller", [p for p in plan.plants if not p.failing and p.height_m >= TALL_M]),
        (
            f"{quantities.bare_metres(MID_M, 0)} to {tall}",
            [p for p in plan.plants if not p.failing and MID_M <= p.height_m < TALL_M],
        ),
        (
            f"under {quantities.metres(MID_M, 0)}",
            [p for p in plan.plants if not p.failing and p.height_m < MID_M],
        ),
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
