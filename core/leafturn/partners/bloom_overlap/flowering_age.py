"""Whether a plant is old enough to flower usefully in a given year.

Notes
-----
The chance rises as a logistic curve in the logarithm of age: half of all plants flower by the middle
age, none at age nought, and late ones straggle. The steepness is set so that the curve's spread equals
the library's. A plant with less light than its kind needs flowers later.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Set
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from leafturn.base.arrays import FloatArray
from leafturn.base.tunables import USUAL, Numbers
from leafturn.base.value import Value
from leafturn.garden.model import Plant, Raised
from leafturn.kinds.fact import value_of
from leafturn.kinds.model import Fact, Kind
from leafturn.kinds.specimen import Specimen
from leafturn.partners.genetics.genotype import raised_how, usual_raising

# Guesses, for kinds whose ages the library lacks.
YEARS_BY_HABIT: Mapping[str, float] = {"tree": 6.0, "shrub": 3.0, "climber": 4.0}
YEARS_OTHERWISE = 2.0
SPREAD_SHARE = 0.3  # guess: spread as a share of the middle age where none is given
SEEN_FLOWERING = 0.95  # guess: low value for a year after the first flowers were noted
MAY_FLOWER = 0.1  # chance of flowering below which a plant is left out of what flowers may suffer; guess
OLD_ENOUGH = 0.5  # chance from which a plant counts as one that flowers: as likely as not
RESTS = 0.1  # guess: share of years in which a plant of flowering age has no flowers to speak of
LOGISTIC_SD = math.pi / math.sqrt(3)  # standard deviation of the standard logistic distribution


class FloweringAge(Value):
    """Years from planting to useful flowers, and how the plant was raised.

    `assumed` tells that `raised` is not noted, `guessed` that the years are. `shaded` are the years that
    want of light puts it off, already in `middle`.
    """

    middle: float
    spread: float
    raised: Raised
    assumed: bool
    guessed: bool
    shaded: float = 0.0


def shade_delay(kind: Kind, light_percent: float | None, numbers: Numbers = USUAL) -> float:
    """Years that shade puts off the first useful flowers.

    Parameters
    ----------
    kind : Kind
        Its need of light decides; a kind whose need is not known is not put off.
    light_percent : float or None [%]
        Light at the plant from May to September as a share of open light; None where not known.
    numbers : Numbers
    """
    need = kind.light.need_percent
    if need is None or light_percent is None:
        return 0.0
    short = max(need.value - light_percent, 0.0)
    return min(short / numbers["partner_shade_points_a_year"], numbers["partner_shade_years_most"])


def flowering_age(specimen: Specimen, shaded: float = 0.0) -> FloweringAge:
    """The age at which half of such plants flower, and its spread [years].

    Parameters
    ----------
    specimen : Specimen
        Its rootstock decides for grafted trees.
    shaded : float [years]
        What want of light adds, see `shade_delay`.
    """
    kind = specimen.kind
    raised, assumed = raised_how(specimen.plant, kind)
    stock = specimen.rootstock if raised == "graft" else None
    middle = (stock.flower_years if stock else None) or _years(kind, raised)
    years = value_of(middle, YEARS_BY_HABIT.get(kind.habit, YEARS_OTHERWISE))
    on_stock = stock.spread_years if stock and stock.flower_years else None
    spread = on_stock.value if on_stock else _spread(kind, years)
    guessed = middle is None or middle.sure == "guess"
    return FloweringAge(
        middle=years + shaded, spread=spread, raised=raised, assumed=assumed, guessed=guessed, shaded=shaded
    )


def flowering_age_of_bought(kind: Kind) -> FloweringAge | None:
    """The flowering age of a plant bought now, raised the usual way for a named one; None if not known."""
    raised = usual_raising(kind, "named")
    years = kind.age.cutting_years if raised == "cutting" else kind.age.grafted_years
    years = years or kind.age.cutting_years or kind.age.seedling_years
    if years is None:
        return None
    spread = kind.age.spread_years
    return FloweringAge(
        middle=years.value, spread=value_of(spread, SPREAD_SHARE * years.value),
        raised=raised, assumed=True, guessed=True,
    )  # fmt: skip


def share_flowering(age: FloatArray, middle: float, spread: float) -> FloatArray:
    """Share of plants of this age that flower usefully.

    Parameters
    ----------
    age : array [years]
    middle : float [years]
        Age by which half flower.
    spread : float [years]
        Standard deviation about it.

    Returns
    -------
    array, same shape, 0 to 1
    """
    ages = np.maximum(np.asarray(age, dtype=float), 0.0)
    steep = LOGISTIC_SD * max(middle, 0.25) / max(spread, 0.05)
    with np.errstate(divide="ignore", over="ignore"):
        return np.asarray(1.0 / (1.0 + np.power(max(middle, 0.25) / ages, steep)))


def age_reached(chance: float, middle: float, spread: float) -> float:
    """Age [years] at which the chance of flowering reaches `chance` (between 0 and 1, not either)."""
    steep = LOGISTIC_SD * max(middle, 0.25) / max(spread, 0.05)
    return float(max(middle, 0.25) * (chance / (1.0 - chance)) ** (1.0 / steep))


def flowering_chance(
    plant: Plant,
    facts: FloweringAge,
    years: NDArray[np.int64],
    *,
    first_bloom: int | None = None,
    no_bloom: Set[int] = frozenset(),
    numbers: Numbers = USUAL,
) -> FloatArray:
    """Low, likely and high chance that a plant flowers usefully in each year.

    Parameters
    ----------
    plant : Plant
    facts : FloweringAge
    years : (years,) [calendar years]
    first_bloom : int or None
        First year in which flowers were noted: that settles it from then on.
    no_bloom : set of int
        Years noted as without flowers. A plant that may have been too young then is so much the later.
    numbers : Numbers

    Returns
    -------
    (3, years) array
        Low and high move the middle age by its spread, later and earlier.
    """
    barren = np.isin(years, sorted(no_bloom)) if no_bloom else np.zeros(len(years), dtype=bool)
    if first_bloom is not None:
        after = years >= first_bloom
        chances = np.stack([np.where(after, share, 0.0) for share in (SEEN_FLOWERING, 1.0, 1.0)])
    elif plant.year is None:
        likely = numbers["partner_unknown_age"]
        chances = np.repeat([[0.0], [likely], [1.0]], len(years), axis=1)
    else:
        chances = _by_age(plant, facts, years, no_bloom)
    chances[:, barren] = 0.0
    return chances


def year_flowering(plant: Plant, facts: FloweringAge, chance: float = OLD_ENOUGH) -> int | None:
    """First year in which the chance of flowering is at least `chance`; None if no planting year is noted."""
    if plant.year is None:
        return None
    age = age_reached(chance, facts.middle, facts.spread)
    return plant.year + math.ceil(age - plant.age_when_planted - 1e-9)


class FirstFlowers(NamedTuple):
    """Calendar years by which one in ten, half and nine in ten of such plants flower."""

    early: int
    likely: int
    late: int


def first_flowers(plant: Plant, facts: FloweringAge) -> FirstFlowers | None:
    """The years in which a plant may first flower usefully; None if no planting year is noted."""
    early, likely, late = (year_flowering(plant, facts, chance) for chance in (0.1, OLD_ENOUGH, 0.9))
    return None if early is None or likely is None or late is None else FirstFlowers(early, likely, late)


def _by_age(plant: Plant, facts: FloweringAge, years: NDArray[np.int64], no_bloom: Set[int]) -> FloatArray:
    ages = (years - (plant.year or 0) + plant.age_when_planted).astype(float)
    middles = (facts.middle + facts.spread, facts.middle, max(facts.middle - facts.spread, 0.25))
    # The spread goes with the middle, so that the three curves never cross.
    curves = [(middle, facts.spread * middle / facts.middle) for middle in middles]
    chances = np.stack([share_flowering(ages, *curve) for curve in curves])
    if no_bloom:
        last = max(no_bloom)
        age_then = np.array([last - (plant.year or 0) + plant.age_when_planted], dtype=float)
        for row, curve in zip(chances, curves, strict=True):
            by_then = float(share_flowering(age_then, *curve)[0])
            row[years > last] = _after_a_year_without(row[years > last], by_then)
        chances.sort(axis=0)
    return chances


def _after_a_year_without(chances: FloatArray, by_then: float) -> FloatArray:
    """Chances of flowering once a year was seen without: the plant was too young, or only rested.

    Parameters
    ----------
    chances : (years,)
        By age alone, for later years.
    by_then : float
        The chance, by age alone, that it was old enough in the year without.
    """
    rested = by_then * RESTS / (by_then * RESTS + 1.0 - by_then)
    since = (chances - by_then) / max(1.0 - by_then, 1e-9)
    return np.asarray(np.clip(rested + (1.0 - rested) * since, 0.0, 1.0))


def _years(kind: Kind, raised: Raised) -> Fact[float] | None:
    ages = kind.age
    if raised == "seedling":
        return ages.seedling_years
    if raised == "graft":
        return ages.grafted_years or ages.cutting_years
    return ages.cutting_years or ages.grafted_years


def _spread(kind: Kind, years: float) -> float:
    """The kind's spread, stretched or shrunk with the middle age."""
    usual = kind.age.grafted_years or kind.age.cutting_years or kind.age.seedling_years
    if kind.age.spread_years is None or usual is None:
        return SPREAD_SHARE * years
    return kind.age.spread_years.value * years / max(usual.value, 0.25)
