"""What to add to a heap so that carbon to nitrogen and water come right together: one small exact search.

Notes
-----
With x the kilograms added, "C:N at least a and at most b" and "water at least c and at most d" are four
conditions linear in x (Rynk 1992, NRAES-54, recalled), and what is sought is the lightest x. A lightest
mix holds no more things than it touches bounds, and touches at most one bound of C:N and one of water: so
every thing alone and every two together are tried at every bound, and the lightest that holds is taken.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

import numpy as np

from leafturn.base.value import Value
from leafturn.soil.compost import mix
from leafturn.soil.compost.mix import Material, Part

# Within what may be by one, so that whole kilograms leave nothing wanting.
MAY_C_TO_N = (mix.FAIR_C_TO_N[0] + 1, mix.FAIR_C_TO_N[1] - 1)
MAY_WATER = (mix.FAIR_WATER[0] + 1, mix.FAIR_WATER[1] - 1)

# What most gardens have or can have, and how dearly a kilogram of it is come by beside one of grass.
# Guesses: chips rot slowly and lend little of their carbon; water comes from the tap. Of kitchen scraps a
# household makes 0.1 to 0.4 kg a head and day (extension advice, read).
WITHIN_REACH = {
    "grass clippings": 1.0, "leaves": 1.0, "straw": 1.0, "horse manure": 1.0, "wood chips": 2.0,
    "kitchen scraps": 4.0,
}  # fmt: skip
WATER_DEAR = 0.1
SHORT_OF_BEST = 1.5  # guess: a C:N that does rather than the best is taken where it spares a third
WATER = Material(name="water", nitrogen=0.0, carbon=0.0, water=100.0, source="itself")
SLACK = 1e-9


class Recipe(Value):
    """What to add [kg fresh; of water litres], and the C:N and water [%] the mix then comes to."""

    added: tuple[Part, ...]
    c_to_n: float
    water_percent: float


def faults_of(c_to_n: float, water: float) -> tuple[str, ...]:
    """What is wrong with a mix: "too wet" or "too dry", "too rich" or "too lean"; nothing for a fair one."""
    (driest, wettest), (richest, leanest) = mix.FAIR_WATER, mix.FAIR_C_TO_N
    wet = "too wet" if water > wettest else "too dry" if water < driest else ""
    rich = "too rich" if c_to_n < richest else "too lean" if c_to_n > leanest else ""
    return tuple(fault for fault in (wet, rich) if fault)


def recipe_for(parts: Sequence[Part], at_hand: Iterable[Material] = ()) -> Recipe | None:
    """The least that brings a mix right in both at once.

    Parameters
    ----------
    parts : sequence of Part
        What the heap holds.
    at_hand : iterable of Material
        What else the garden has, beside what most gardens can have.

    Returns
    -------
    Recipe or None
        None for an empty heap, and where nothing helps. Water is brought to what is best where it can be;
        C:N to what is best or, where that spares a third, to what does.
    """
    if not parts:
        return None
    known = mix.materials()
    dear = {known[name]: cost for name, cost in WITHIN_REACH.items()}
    dear = dict.fromkeys(at_hand, 1.0) | dear | {WATER: WATER_DEAR}
    for water in (mix.BEST_WATER, MAY_WATER):
        best = _lightest(parts, dear, mix.BEST_C_TO_N, water)
        fair = _lightest(parts, dear, MAY_C_TO_N, water)
        added = best or fair
        if best is not None and fair is not None and _cost(fair, dear) * SHORT_OF_BEST < _cost(best, dear):
            added = fair
        if added is not None:
            whole = [*parts, *added]
            return Recipe(added=added, c_to_n=mix.c_to_n(whole), water_percent=mix.water_percent(whole))
    return None


Addition = tuple[Part, ...]
Range = tuple[float, float]
Bound = Callable[[Material], float]


def _lightest(
    parts: Sequence[Part], dear: Mapping[Material, float], ratio: Range, water: Range
) -> Addition | None:
    """The addition come by most cheaply of all that bring a mix within two ranges; None if none does."""
    able = [
        added for added in _at_the_bounds(parts, tuple(dear), ratio, water)
        if _holds([*parts, *added], ratio, water)
    ]  # fmt: skip
    return min(able, key=lambda added: _cost(added, dear), default=None)


def _cost(added: Addition, dear: Mapping[Material, float]) -> float:
    return sum(part.kg * dear[part.material] for part in added)


def _at_the_bounds(
    parts: Sequence[Part], known: Sequence[Material], ratio: Range, water: Range
) -> Iterator[Addition]:
    """Every addition of one thing or two that lies on as many bounds; amounts above 0 only."""
    ratios, waters = [_ratio_bound(r) for r in ratio], [_water_bound(w) for w in water]
    sets = [*((bound,) for bound in (*ratios, *waters)), *itertools.product(ratios, waters)]
    yield ()
    for on in sets:
        lacking = np.array([-sum(part.kg * bound(part.material) for part in parts) for bound in on])
        for things in itertools.combinations(known, len(on)):
            gives = np.array([[bound(thing) for thing in things] for bound in on])
            if abs(np.linalg.det(gives)) < SLACK:
                continue
            kg = np.linalg.solve(gives, lacking)
            if (kg > 0).all():
                yield tuple(Part(material=m, kg=float(x)) for m, x in zip(things, kg, strict=True))


def _ratio_bound(ratio: float) -> Bound:
    """What is 0 on a bound of C:N, of a kilogram: carbon less so many times nitrogen."""
    return lambda thing: thing.dry * (thing.carbon - ratio * thing.nitrogen)


def _water_bound(percent: float) -> Bound:
    """What is 0 on a bound of water, of a kilogram: its water less that share."""
    return lambda thing: thing.water - percent


def _holds(parts: Sequence[Part], ratio: Range, water: Range) -> bool:
    return _within(mix.c_to_n(parts), ratio) and _within(mix.water_percent(parts), water)


def _within(value: float, bounds: Range) -> bool:
    return bounds[0] - SLACK <= value <= bounds[1] + SLACK and not math.isinf(value)
