"""The garden from above: where every plant stands, how tall and wide it is in a year, paths and roofs."""

from __future__ import annotations

from leafturn.base.value import Value
from leafturn.canopy.stand.growth import growth_of
from leafturn.garden.model import FAILING, Path, Point, Roof
from leafturn.season.garden_day import GardenDay


class Standing(Value):
    """One plant on the plan: its place, height and crown radius [m], and whether it is failing.

    A climber has no crown of its own: its radius is 0.
    """

    plant: str
    point: Point
    height_m: float
    radius_m: float
    failing: bool


class GardenPlan(Value):
    """What a plan of the garden shows; `spots` are named places: the gate, heaps, seats."""

    year: int
    plants: tuple[Standing, ...]
    paths: tuple[Path, ...]
    roofs: tuple[Roof, ...]
    spots: tuple[tuple[str, Point], ...]


def garden_plan(day: GardenDay, year: int) -> GardenPlan:
    """The garden as it stands in a year, the lowest plants first.

    Parameters
    ----------
    day : GardenDay
    year : int
        Plants planted later are left out.
    """
    garden = day.garden
    standing = []
    for plant in garden.plants:
        if plant.state == "gone" or plant.point is None or (plant.year or year) > year:
            continue
        growth = growth_of(day.specimen(plant), day.numbers, day.axis.year)
        climbs = day.kind(plant).habit == "climber"
        standing.append(
            Standing(
                plant=plant.id,
                point=plant.point,
                height_m=float(growth.heights(year)),
                radius_m=0.0 if climbs else float(growth.radii(year)),
                failing=plant.state in FAILING,
            )
        )
    spots = [("gate", Point(0.0, 0.0))]
    spots += [(heap.name or heap.id, heap.point) for heap in garden.heaps if heap.point is not None]
    spots += [
        (seat.name.split(",")[0] or "seat", seat.point) for seat in garden.seats if seat.point is not None
    ]
    return GardenPlan(
        year=year,
        plants=tuple(sorted(standing, key=lambda s: (s.height_m, s.plant))),
        paths=garden.paths,
        roofs=garden.roofs,
        spots=tuple(spots),
    )
