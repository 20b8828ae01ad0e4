"""The coldest nights of the usual years, and which kinds they are too cold for."""

from __future__ import annotations

from typing import Literal

import numpy as np

from leafturn.base.arrays import FloatArray
from leafturn.base.kept import kept
from leafturn.base.units import fahrenheit_to_celsius
from leafturn.base.value import Value
from leafturn.kinds.fact import value_of
from leafturn.kinds.model import Cultivar, Kind
from leafturn.season.ensemble import Ensemble

TOO_OFTEN = 0.2  # from so many years on with a killing night a plant is called too tender; guess
COLDEST_BELOW_C = (
    9.0  # the year's coldest nights below the mean minimum of its coldest month; guess, near a sea
)
NOW_AND_THEN = 0.03  # of the years: below it a killing night is not spoken of; guess
A_ZONE_C = 5.6  # a zone spans 10 degF; sources, and cultivars of one kind, differ by one

Standing = Literal["too tender", "at its limit", "bears it"]


@kept  # asked for plant by plant
def coldest_nights(usual: Ensemble, pocket_c: float) -> FloatArray:
    """The coldest night of each usual year in the garden [degC], (members,), its frost pocket included."""
    nights: FloatArray = usual.tmin.min(axis=1) + pocket_c
    return nights


def zone_bears_c(zone: int) -> float:
    """The lowest mean of yearly coldest nights [degC] in a USDA zone, 1 to 13.

    Source: the 2023 map of the Agricultural Research Service; zones of 10 degF from -60 degF up (recalled).
    """
    return fahrenheit_to_celsius(-70.0 + 10.0 * zone)


class WinterCold(Value, kw_only=False):
    """The cold a kind or cultivar bears against the coldest nights of the years.

    `killing_years` is the share of them with a night that kills it; None where only its zone is known: then
    half a zone short is the limit, and a whole one too tender.
    """

    cold_c: float
    zone: int | None
    killing_years: float | None
    standing: Standing

    @classmethod
    def of(cls, kind: Kind, cultivar: Cultivar | None, nights: FloatArray) -> WinterCold | None:
        """By the temperature that kills it, else by its zone; None where neither is known.

        Parameters
        ----------
        kind : Kind
        cultivar : Cultivar or None
            Goes before the kind where it states either.
        nights : (years,) [degC]
            The coldest night of each year.
        """
        killed = (cultivar and cultivar.killed_c) or kind.hardiness.killed_c
        if killed is not None:
            share = float(np.mean(nights < killed.value))
            limit: Standing = "at its limit" if share >= NOW_AND_THEN else "bears it"
            return cls(killed.value, None, share, "too tender" if share >= TOO_OFTEN else limit)
        zone = (cultivar and cultivar.zone) or kind.hardiness.zone
        if zone is None:
            return None
        bears = zone_bears_c(zone.value)
        short = bears - float(nights.mean())
        edge: Standing = "at its limit" if short > A_ZONE_C / 2 else "bears it"
        return cls(bears, zone.value, None, "too tender" if short > A_ZONE_C else edge)


def is_too_tender(kind: Kind, nights: FloatArray) -> bool:
    """Whether a kind is too tender for a place by its coldest nights [degC], (years,); False if not known."""
    bears = WinterCold.of(kind, None, nights)
    return bears is not None and bears.standing == "too tender"


def coldest_month(usual: Ensemble) -> float:
    """The mean minimum of the usual year's coldest thirty days [degC]."""
    nights = np.nanmean(usual.tmin, axis=0)
    return float(np.convolve(nights, np.full(30, 1 / 30), "valid").min())


def is_harmed_in_winter(kind: Kind, own: Cultivar, coldest_month_c: float) -> bool:
    """Whether nights that harm a kind come here, by the coldest month; True if not known.

    `own` is what its cultivar does otherwise: one killed by another cold than its kind is harmed by as much
    another.
    """
    harmed, killed = kind.hardiness.harmed_c, kind.hardiness.killed_c
    if harmed is None:
        return True
    hardier = killed.value - value_of(own.killed_c, killed.value) if killed is not None else 0.0
    return coldest_month_c - COLDEST_BELOW_C < harmed.value - hardier
