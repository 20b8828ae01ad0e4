"""How tall a plant stands: as measured, or grown by its age."""

from __future__ import annotations

import math

from leafturn.canopy.stand.growth import stock_share
from leafturn.kinds.specimen import Specimen

GROWTH_POWER = 1.3  # of the height curve; guess


def height_of(specimen: Specimen, year: int) -> float | None:
    """Height [m] as measured, else mature height on its stock, grown by age where age and pace are known."""
    plant, kind = specimen.plant, specimen.kind
    if plant.height_m is not None:
        return plant.height_m
    mature, pace = kind.size.height_m, kind.size.growth_k
    if mature is None:
        return None
    share = stock_share(specimen)
    age = plant.age(year)
    if age is None or pace is None:
        return mature.value * share
    grown: float = (1.0 - math.exp(-max(pace.value * age, 0.0))) ** GROWTH_POWER
    return mature.value * share * grown
