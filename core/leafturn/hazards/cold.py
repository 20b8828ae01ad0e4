"""Plants too tender for the winters of the garden, by the coldest nights of its usual years."""

from __future__ import annotations

from collections.abc import Iterator

from leafturn.base import prose, quantities
from leafturn.base.arrays import FloatArray
from leafturn.base.value import Value
from leafturn.garden.model import Plant
from leafturn.kinds.specimen import Specimen, named
from leafturn.season.ensemble import Ensemble
from leafturn.season.garden_day import GardenDay
from leafturn.season.winter_cold import Standing, WinterCold, coldest_nights

LONG_STANDING_YEARS = 10  # who has stood so long has lived through what comes; guess
# Habits whose buds lie at the ground, under snow if there is any.
_SOFT = ("perennial", "bulb", "ground", "fern")


class Tender(Value):
    """A plant and the cold of the usual years: what it bears, what comes.

    Parameters
    ----------
    plant, kind : str
    standing : str
        "too tender" or "at its limit".
    long_here : bool
        Whether it has stood here for long all the same.
    bears_c : float [degC]
        The cold that kills it, or the mean of yearly coldest nights in its coldest zone.
    killing_years : float or None
        Share of the years with a night that kills it, 0 to 1; None where only its zone is known.
    says : str
    """

    plant: str
    kind: str
    standing: Standing
    long_here: bool
    bears_c: float
    killing_years: float | None
    says: str


def tender_plants(day: GardenDay, usual: Ensemble) -> Iterator[Tender]:
    """Every plant for which the winters here are, or at times may be, too cold, in the order of the file.

    Parameters
    ----------
    usual : Ensemble
        The same season before anything of it was known: the years of the record, or made-up ones.
    """
    nights = coldest_nights(usual, day.garden.place.frost_pocket_c)
    guessed = usual.made_of.made_up
    for plant in day.garden.plants:
        if plant.state not in ("gone", "dead standing"):
            found = _tender(day.specimen(plant), nights, day.axis.year, guessed)
            if found is not None:
                yield found


def _tender(specimen: Specimen, nights: FloatArray, year: int, guessed: bool) -> Tender | None:
    plant, kind = specimen.plant, specimen.kind
    bears = WinterCold.of(kind, specimen.own, nights)
    stood = _years_stood(plant, year)
    if bears is None or bears.standing == "bears it" or (stood and bears.standing == "at its limit"):
        return None
    more = ""
    if bears.standing == "too tender":
        mild = kind.hardiness.where_mild
        snow = " Lying snow or mulch may carry it through." if kind.habit in _SOFT else ""
        more = f"{snow}{f' {mild.value}' if mild else ''}"
    here = _here_words(float(nights.mean()), guessed)
    says = f"{named(plant.id, kind.name)}: {_verdict(bears.standing, stood)}. {_limit(bears)} {here}"
    return Tender(
        plant=plant.id,
        kind=kind.name,
        standing=bears.standing,
        long_here=stood > 0,
        bears_c=bears.cold_c,
        killing_years=bears.killing_years,
        says=f"{says}{more}",
    )


def _verdict(standing: Standing, stood: int) -> str:
    all_the_same = f" by the book, and has stood {stood} years all the same" if stood else ""
    return f"{standing} here{all_the_same}"


def _limit(bears: WinterCold) -> str:
    if bears.killing_years is None:
        return (
            f"As a rule it is grown to zone {bears.zone}, where the coldest night of a year is "
            f"{quantities.celsius(bears.cold_c, 0)} or milder on the mean."
        )
    return (
        f"Below {quantities.celsius(bears.cold_c, None)} it dies or is killed to the ground. "
        f"Nights so cold come {prose.in_ten(bears.killing_years)}."
    )


def _here_words(coldest: float, guessed: bool) -> str:
    of = "made-up years round the usual months, a guess" if guessed else "the record"
    return f"The coldest night of a year here is {quantities.celsius(coldest, 0)} on the mean ({of})."


def _years_stood(plant: Plant, year: int) -> int:
    """How many years a plant has stood here, 0 if too few to tell or not known."""
    years = year - plant.year if plant.year else 0
    return years if years >= LONG_STANDING_YEARS else 0
