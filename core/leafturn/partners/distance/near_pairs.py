"""Which donors may reach which recipients: from a grid of squares, and of places not known a few of each."""

from __future__ import annotations

import numpy as np

from leafturn.base.arrays import BoolArray, FloatArray, IndexArray
from leafturn.base.tunables import Numbers
from leafturn.garden.model import Point
from leafturn.partners.chance.pollen_plants import PollenPlant
from leafturn.partners.distance.pollen_distance import (
    nearness,
    nearness_over_the_fence,
    nearness_unplaced,
    pairs_within,
    with_wind,
)

UNPLACED_OF_A_CLONE = 3  # of many plants without a place, so many of each genotype are looked at

Pairs = tuple[IndexArray, IndexArray, FloatArray, FloatArray]


def near_pairs(
    recipients: list[PollenPlant],
    donors: list[PollenPlant],
    halves: FloatArray,
    numbers: Numbers,
    wind: Point | None,
) -> Pairs:
    """The pairs of a recipient with a donor near enough to count, and how near they are.

    Parameters
    ----------
    recipients, donors : list of PollenPlant
    halves : (recipients,) [m]
        The distance at which a partner counts half.
    numbers : Numbers
        `partner_reach_halves`, `partner_wind_lean` and what is taken of places not given.
    wind : Point or None
        Downwind, one metre long; None where no wind prevails.

    Returns
    -------
    recipient, donor : (pairs,)
        Their numbers in the lists.
    metres : (pairs,) [m]
    near : (3, pairs)
        What the donor counts, 0 to 1: at least, likely, at most. Pairs whose distance is not measured come
        last.
    """
    measured = _measured_pairs(recipients, donors, halves, numbers, wind)
    loose = _loose_pairs(recipients, donors, halves, numbers)
    if not loose:
        return measured
    recipient, donor, metres, near = measured
    loose_near = np.array([row[3] for row in loose]).T
    return (
        np.concatenate([recipient, np.array([row[0] for row in loose], dtype=np.intp)]),
        np.concatenate([donor, np.array([row[1] for row in loose], dtype=np.intp)]),
        np.concatenate([metres, np.array([row[2] for row in loose])]),
        np.concatenate([near, loose_near], axis=1),
    )


def _measured_pairs(
    recipients: list[PollenPlant],
    donors: list[PollenPlant],
    halves: FloatArray,
    numbers: Numbers,
    wind: Point | None,
) -> Pairs:
    """The pairs of plants whose places are known."""
    placed_recipients, placed_donors = (
        {i: b.point for i, b in enumerate(plants) if b.point is not None} for plants in (recipients, donors)
    )
    blown = (
        np.array([recipient.kind.pollination.carried_by == "wind" for recipient in recipients])
        if wind is not None
        else np.zeros(len(recipients))
    )
    farthest = halves * (1.0 + blown * numbers["partner_wind_lean"]) * numbers["partner_reach_halves"]
    radius = float(farthest.max(initial=0.0))
    at, of, metres = pairs_within([*placed_recipients.values()], [*placed_donors.values()], radius)
    recipient = np.array([*placed_recipients], dtype=np.intp)[at]
    donor = np.array([*placed_donors], dtype=np.intp)[of]
    places = [_places(plants) for plants in (recipients, donors)]
    half = halves[recipient]
    if blown.any():
        away = places[0][recipient] - places[1][donor]
        half = with_wind(half, away, metres, wind, numbers["partner_wind_lean"] * blown[recipient])
    keep = (metres <= half * numbers["partner_reach_halves"]) & _different(
        recipients, donors, recipient, donor
    )
    recipient, donor, metres = recipient[keep], donor[keep], metres[keep]
    near = nearness(metres, half[keep])
    part = np.array([b.fellows or b.branch for b in donors], dtype=bool)
    together = part[donor] & (metres == 0)
    near[:, together] = 1.0
    return recipient, donor, metres, near


def _places(plants: list[PollenPlant]) -> FloatArray:
    nowhere = (np.nan, np.nan)
    return np.array([nowhere if b.point is None else b.point for b in plants], dtype=float).reshape(-1, 2)


def _different(
    recipients: list[PollenPlant], donors: list[PollenPlant], recipient: IndexArray, donor: IndexArray
) -> BoolArray:
    """Pairs that are not a crown with itself, nor a crown with the fellows of another plant."""
    ids = {id(b.plant): n for n, b in enumerate(recipients)}
    own = np.array([ids.get(id(b.plant), -1) for b in donors], dtype=np.intp)
    same = own[donor] == recipient
    part = np.array([b.branch or b.fellows for b in donors], dtype=bool)[donor]
    fellows = np.array([b.fellows for b in donors], dtype=bool)[donor]
    return np.asarray((~same | part) & ~(fellows & ~same))


def _loose_pairs(
    recipients: list[PollenPlant], donors: list[PollenPlant], halves: FloatArray, numbers: Numbers
) -> list[tuple[int, int, float, tuple[float, float, float]]]:
    """Pairs whose distance is not measured: places not given, and plants over the fence known by a guess."""
    unplaced = nearness_unplaced(numbers)
    fence = [n for n, b in enumerate(donors) if b.plant is None and b.point is None]
    any_fence = [n for n, b in enumerate(donors) if b.plant is None]
    loose_donors = _few_of_each(donors, [n for n, b in enumerate(donors) if b.plant and b.point is None])
    some_donors = _few_of_each(donors, [n for n, b in enumerate(donors) if b.plant])
    parts: dict[int, list[int]] = {}
    for g, donor in enumerate(donors):
        if donor.branch or donor.fellows:
            parts.setdefault(id(donor.plant), []).append(g)
    pairs: list[tuple[int, int, float, tuple[float, float, float]]] = []
    for n, recipient in enumerate(recipients):
        for g in any_fence if recipient.point is None else fence:
            metres = donors[g].metres
            assert metres is not None
            pairs.append((n, g, metres, nearness_over_the_fence(metres, float(halves[n]))))
        if recipient.point is None:
            pairs.extend((n, g, 0.0, (1.0, 1.0, 1.0)) for g in parts.get(id(recipient.plant), ()))
        for g in some_donors if recipient.point is None else loose_donors:
            if donors[g].plant is not recipient.plant and not donors[g].fellows:
                pairs.append((n, g, np.nan, unplaced))
    return pairs


def _few_of_each(donors: list[PollenPlant], which: list[int]) -> list[int]:
    """The donors likeliest to flower, a few of each genotype."""
    taken: dict[int, int] = {}
    chosen = []
    for n in sorted(which, key=lambda n: -float(donors[n].flowering[1, 0])):
        key = id(donors[n].genotype)
        taken[key] = taken.get(key, 0) + 1
        if taken[key] <= UNPLACED_OF_A_CLONE:
            chosen.append(n)
    return chosen
