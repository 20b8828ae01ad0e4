"""How tall a plant stands: as measured, or grown by its age."""

from __future__ import annotations

import math

from leafturn.garden.model import Plant
from leafturn.kinds.library import Library
from leafturn.kinds.model import Kind

GROWTH_POWER = 1.3  # of the height curve; guess


def height_of(plant: Plant, kind: Kind, library: Library, year: int) -> float | None:
    """Height [m] as measured, else mature height on its stock, grown by age where age and pace are known."""
    if plant.height_m is not None:
        return plant.height_m
    mature, pace = kind.size.height_m, kind.size.growth_k
    if mature is None:
        return None
    stock = library.rootstock(plant.rootstock, kind) if plant.rootstock else None
    share = stock.height_share.value if stock is not None and stock.height_share is not None else 1.0
    age = plant.age(year)
    if age is None or pace is None:
        return mature.value * share
    grown: float = (1.0 - math.exp(-max(pace.value * age, 0.0))) ** GROWTH_POWER
    return mature.value * share * grown
