"""How far the roots of walnut kin reach, by age, and who stands within.

Notes
-----
Roots of a young tree spread about twice its height across (Ohio State University Extension HYG-1148, read in
a copy). Field lists of who suffers are observations, and landscape evidence is contested (Chalker-Scott 2019,
WSU FS325E, recalled): what is told here warns and never forbids.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Literal

import numpy as np

from leafturn.base import quantities
from leafturn.base.arrays import FloatArray
from leafturn.base.value import Value
from leafturn.canopy.stand.growth import Growth, growth_of
from leafturn.garden.model import Plant, Point
from leafturn.kinds.juglone_reach import AVERAGE_M, FARTHEST_M
from leafturn.kinds.specimen import Specimen
from leafturn.season.garden_day import GardenDay

AHEAD_YEARS = 60  # guess: further off nobody plans by roots

Suffers = Literal["sensitive", "disputed", "not known"]
Where = Literal["within reach now", "within reach later", "in the outer band"]


class JugloneLine(Value):
    """A plant and a tree whose roots give off juglone.

    `metres` lie between them, `reach_m` is how far the roots go this year, `year` when they get there
    (None: not within sixty years, or now).
    """

    tree: str
    plant: str
    metres: float
    reach_m: float
    suffers: Suffers
    where: Where
    year: int | None
    says: str


def root_reach(growth: Growth, years: FloatArray) -> FloatArray:
    """Root radius [m] by year.

    As far as the tree is high (twice its height across), and no less than the crown; a tree of a kind that
    stays low comes to the usual reach as it is grown (square of its share of height, a guess).
    """
    heights = growth.heights(years)
    share = AVERAGE_M * np.minimum(heights / growth.top_m, 1.0) ** 2
    return np.asarray(np.maximum(growth.radii(years), np.maximum(np.minimum(heights, AVERAGE_M), share)))


def juglone_lines(day: GardenDay) -> tuple[JugloneLine, ...]:
    """Every pair of a giver and a plant that is not known to bear it, nearest first.

    Plants that are listed as sensitive count to the farthest, others as far as the roots come within sixty
    years.
    """
    here = [plant for plant in day.garden.plants if plant.state != "gone"]
    listed = ((plant, plant.point, _suffers(day.specimen(plant))) for plant in here)
    others = [(plant, point, suffers) for plant, point, suffers in listed if point and suffers]
    lines = [
        line
        for tree in here
        if tree.point is not None and day.specimen(tree).juglone == "producer"
        for line in _of(tree, tree.point, others, day)
    ]
    return tuple(sorted(lines, key=lambda line: (_rank(line), line.metres)))


def _rank(line: JugloneLine) -> int:
    return ("sensitive", "disputed", "not known").index(line.suffers)


def _of(
    tree: Plant, at: Point, others: Sequence[tuple[Plant, Point, Suffers]], day: GardenDay
) -> Iterator[JugloneLine]:
    year = day.axis.year
    years = np.arange(year, year + AHEAD_YEARS + 1, dtype=float)
    reach = root_reach(growth_of(day.specimen(tree), day.numbers, year), years)
    for plant, point, suffers in others:
        metres = at.metres_to(point)
        if plant.id == tree.id or metres > FARTHEST_M:
            continue
        inside = np.flatnonzero(reach >= metres)
        if not inside.size and suffers != "sensitive":
            continue
        where: Where = "in the outer band"
        when = None
        if inside.size:
            when = int(years[inside[0]])
            where = "within reach now" if when == year else "within reach later"
        yield JugloneLine(
            tree=tree.id,
            plant=plant.id,
            metres=metres,
            reach_m=float(reach[0]),
            suffers=suffers,
            where=where,
            year=when if where == "within reach later" else None,
            says=_says(tree.id, plant.id, metres, float(reach[0]), suffers, where, when),
        )


def _suffers(specimen: Specimen) -> Suffers | None:
    """How it is listed; None for plants said to bear it and for givers themselves."""
    match specimen.juglone:
        case None:
            return "not known"
        case "sensitive" | "disputed" as listed:
            return listed
        case "producer" | "tolerant":
            return None


def _says(
    tree: str, plant: str, metres: float, reach: float, suffers: Suffers, where: Where, year: int | None
) -> str:
    listed = {
        "sensitive": "it is listed as one that suffers from juglone",
        "disputed": "lists disagree whether it suffers",
        "not known": "it is not known to bear or to suffer juglone",
    }[suffers]
    now = quantities.metres(reach)
    reached = {
        "within reach now": f"within the {now} its roots are guessed to reach",
        "within reach later": f"its roots are guessed to come there about {year} (now {now})",
        "in the outer band": f"beyond the usual {quantities.metres(AVERAGE_M, 0)} of roots, "
        f"within {quantities.metres(FARTHEST_M, 0)}",
    }[where]
    return f"{plant} stands {quantities.metres(metres)} from {tree}: {reached}; {listed}."
