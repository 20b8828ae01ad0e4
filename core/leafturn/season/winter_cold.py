"""The coldest nights of the usual years, and which kinds they are too cold for."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from leafturn.base.arrays import FloatArray
from leafturn.base.units import fahrenheit_to_celsius
from leafturn.kinds.model import Cultivar, Kind
from leafturn.season.ensemble import Ensemble

TOO_OFTEN = 0.2  # from so many years on with a killing night a plant is called too tender; guess
HALF_A_ZONE_C = 2.8  # a zone spans 10 degF, and sources differ by half of one


def coldest_nights(usual: Ensemble, pocket_c: float) -> FloatArray:
    """The coldest night of each usual year in the garden [degC], (members,), its frost pocket included."""
    nights: FloatArray = usual.tmin.min(axis=1) + pocket_c
    return nights


def zone_bears_c(zone: int) -> float:
    """The lowest mean of yearly coldest nights [degC] in a USDA zone, 1 to 13.

    Source: the 2023 map of the Agricultural Research Service; zones of 10 degF from -60 degF up (recalled).
    """
    return fahrenheit_to_celsius(-70.0 + 10.0 * zone)


@dataclass(frozen=True)
class WinterCold:
    """The cold a kind or cultivar bears against the coldest nights of the years.

    `killing_years` is the share of them with a night that kills it; None where only its zone is known.
    """

    cold_c: float
    zone: int | None
    killing_years: float | None
    too_tender: bool

    @classmethod
    def of(cls, kind: Kind, cultivar: Cultivar | None, nights: FloatArray) -> WinterCold | None:
        killed = (cultivar and cultivar.killed_c) or kind.hardiness.killed_c
        if killed is not None:
            share = float(np.mean(nights < killed.value))
            return cls(killed.value, None, share, share >= TOO_OFTEN)
        zone = (cultivar and cultivar.zone) or kind.hardiness.zone
        if zone is None:
            return None
        bears = zone_bears_c(zone.value)
        return cls(bears, zone.value, None, bool(nights.mean() < bears - HALF_A_ZONE_C))


def is_too_tender(kind: Kind, nights: FloatArray) -> bool:
    """Whether a kind is too tender for a place by its coldest nights [degC], (years,); False if not known."""
    bears = WinterCold.of(kind, None, nights)
    return bears is not None and bears.too_tender
