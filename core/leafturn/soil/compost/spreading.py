"""Where ripe compost goes: to plants of great demand before those that are near."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from msgspec.structs import replace

from leafturn.base import prose, quantities
from leafturn.base.closed_words import LASTING_WOOD
from leafturn.base.value import Value
from leafturn.garden.model import DEAD, Garden, Heap, Plant
from leafturn.kinds.model import Kind
from leafturn.season.garden_day import GardenDay

HALF_METRES = 25.0  # guess: so far away a plant must be twice as needy to come before one beside the heap
LAYER_MM = 10.0  # a centimetre, under the mulch: common practice, no source; 1 mm on 1 m2 is 1 litre
BARROW_LITRES = 80.0  # common practice, no source: a builder's barrow, level
RING_M = 0.15  # kept bare round the bark (extension mulching advice: 8 to 15 cm)
MOST_RING_M = 1.0  # guess: further out a tree's roots share with everything else
YOUNG_YEARS = 6.0

# Demand, 0 to 3. Guesses; the order is common practice: heavy feeders, soft fruit, young fruit trees,
# grown fruit trees; what fixes its own nitrogen or lives on leaf litter last or not at all.
HUNGRY_KINDS = {"rhubarb": 3.0, "asparagus": 2.0, "globe artichoke": 2.0, "blackcurrant": 2.5}


class Spread(Value):
    """So many litres to one plant; `reach` names helpers of short reach who get to heap and plant."""

    plant: str
    litres: float
    need: float
    metres: float | None
    reach: tuple[str, ...] = ()


def nutrient_demand(plant: Plant, kind: Kind, year: int) -> float:
    """How much a plant gains from compost, 0 (nothing) to 3 (a heavy feeder)."""
    if kind.name in HUNGRY_KINDS:
        return HUNGRY_KINDS[kind.name]
    if kind.has("nitrogen fixer") or kind.has("conifer") or plant.plan in ("remove", "undecided", "move"):
        return 0.0
    age = plant.age(year)
    young = age is not None and age < YOUNG_YEARS
    if kind.has("soft fruit bush") or kind.has("cane fruit"):
        return 2.0
    if not kind.harvest.is_food:
        return 0.5 if young and kind.habit == "tree" else 0.0
    if kind.habit in LASTING_WOOD:
        return 1.5 if young else 1.0
    return 0.0 if kind.has("shade lover") else 0.5


def area_m2(plant: Plant, kind: Kind) -> float:
    """Ground [m2] worth covering at a plant: its patch, or a ring a metre wide round each stem."""
    if plant.patch_m2 is not None:
        return plant.patch_m2
    crown = plant.crown_m or kind.size.grown_radius
    ring = min(max(crown, 0.35), MOST_RING_M)
    return plant.count * math.pi * max(ring**2 - RING_M**2, 0.05)


def amount_words(area: float, layer_cm: float | None, water_mm: float | None) -> str:
    """Litres and barrows for a depth on so much ground, in a sentence; empty if there is nothing to say.

    Parameters
    ----------
    area : float [m2]
    layer_cm : float or None [cm]
        Depth of what is spread: a centimetre on a square metre is ten litres.
    water_mm : float or None [mm]
        Depth of water: a millimetre on a square metre is one litre.
    """
    if layer_cm is not None and area > 0:
        litres = area * layer_cm * 10.0
        barrows = prose.count(max(litres / BARROW_LITRES, 1.0), "barrow")
        ring = f"a ring of {quantities.centimetres(RING_M * 100)} kept bare round each stem"
        ground = quantities.square_metres(area, 1)
        deep = quantities.centimetres(layer_cm, None)
        return f"{deep} on {ground} are {quantities.litres(litres)}, about {barrows}; {ring}."
    if water_mm is not None and area > 0:
        deep, ground = quantities.millimetres(water_mm, None), quantities.square_metres(area, 1)
        return f"{deep} on {ground} are {quantities.litres(area * water_mm)} of water."
    return ""


def where_compost_goes(heap: Heap, litres: float, day: GardenDay, year: int) -> tuple[Spread, ...]:
    """Share out a heap: the plants by need and nearness, each with a centimetre, until it is used up.

    Parameters
    ----------
    heap : Heap
    litres : float [l]
        What there is to spread.
    day : GardenDay
    year : int
        The season, for ages.

    Notes
    -----
    Plants come in the order of need x 0.5 ** (metres / 25). A guess: nothing published weighs the carry.
    """
    shares = []
    for line in _asking(heap, day, year):
        given = min(line.litres, litres)
        if given < 1.0:
            break
        litres -= given
        shares.append(replace(line, litres=given))
    return tuple(shares)


def _asking(heap: Heap, day: GardenDay, year: int) -> Iterator[Spread]:
    found = []
    for plant in day.garden.plants:
        kind = day.kind(plant)
        need = nutrient_demand(plant, kind, year) if plant.state not in DEAD else 0.0
        if need <= 0:
            continue
        metres = heap.point.metres_to(plant.point) if heap.point and plant.point else None
        found.append(
            Spread(
                plant=plant.id,
                litres=LAYER_MM * area_m2(plant, kind),
                need=need,
                metres=metres,
                reach=tuple(_within_reach(day.garden, heap, plant)),
            )
        )
    found.sort(key=lambda s: -s.need * 0.5 ** ((60.0 if s.metres is None else s.metres) / HALF_METRES))
    yield from found


def _within_reach(garden: Garden, heap: Heap, plant: Plant) -> Iterable[str]:
    for helper in garden.helpers:
        if helper.reach_m is None or helper.reach_point is None or heap.point is None or plant.point is None:
            continue
        if max(helper.reach_point.metres_to(p) for p in (heap.point, plant.point)) <= helper.reach_m:
            yield helper.name
