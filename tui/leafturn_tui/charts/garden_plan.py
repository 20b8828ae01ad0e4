"""The garden from above, to scale: crowns as discs or rings, or the light on the ground."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from leafturn.answers.garden_plan import GardenPlan
from leafturn_tui.charts.crowns import MID_M, TALL_M, Reach, crown, discs, rings
from leafturn_tui.charts.field import PER_CELL, Field, write, write_scale
from leafturn_tui.charts.heights import Cell, pieces
from leafturn_tui.text.layout import Piece, Row, fit, piece

NAMED_FROM = 1.6  # pixels of radius from which a name stands on its crown
LIGHT = ((95, "light1"), (85, "light2"), (70, "light3"), (50, "light4"), (0, "light5"))
OPEN = 90  # % of open light from which nothing is written where there is no colour
GroundLight = Callable[[Sequence[tuple[float, float]]], list[float]]


def plan_rows(
    plan: GardenPlan,
    field: Field,
    names: Mapping[str, str],
    *,
    colour: bool,
    light: GroundLight | None = None,
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
    light : callable, optional
        Gives the light on the ground [% of open] at places; it is then shown instead of the crowns.
    reach : Reach, optional
        A tree that may come down: how far it reaches is drawn over the crowns.
    """
    if light is not None:
        cells = _light(light(field.places()), field, colour)
    elif colour:
        cells = discs(plan, field, reach=reach)
    else:
        cells = rings(plan, field, reach)
    _write_names(cells, plan, field, names)
    write_scale(cells, field)
    return [Row(pieces(row)) for row in cells]


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
