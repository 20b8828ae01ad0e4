"""How far a tree reaches that may come down: its surroundings from above, the ring and the path within it."""

from __future__ import annotations

from collections.abc import Mapping

from leafturn.answers.garden_plan import GardenPlan
from leafturn.garden.model import Point
from leafturn_tui.charts.crowns import Reach
from leafturn_tui.charts.field import PER_CELL, Field
from leafturn_tui.charts.garden_plan import plan_rows
from leafturn_tui.text.layout import Row

AROUND = 1.1  # the ground shown, in lengths of the reach to each side


def reach_rows(
    plan: GardenPlan,
    names: Mapping[str, str],
    tree: Point,
    reach_m: float,
    columns: int,
    rows: int,
    *,
    colour: bool,
) -> list[Row]:
    """The plan round a tree, with the ring of its reach.

    Parameters
    ----------
    plan : GardenPlan
    names : mapping of plant id to str
        Two letters for each plant.
    tree : Point
    reach_m : float [m]
    columns, rows : int [cells]
    colour : bool
    """
    metre = 2 * AROUND * max(reach_m, 1.0) / min(columns, PER_CELL * rows)
    field = Field.around(tree.east, tree.north, metre, columns, rows)
    return plan_rows(plan, field, names, colour=colour, reach=Reach(tree, reach_m))
