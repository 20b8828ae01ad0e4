"""How far pollen is carried, and which plants are near enough to matter.

Notes
-----
Nearby a partner counts nearly whole: growers' pages give one greatest distance within which pairs serve,
not a loss by the metre. So its worth is 1 / (1 + (metres / half) ** 3): 0.8 at 0.63 of the half
distance, half there, little at twice it. Half distances are set so that 0.8 falls on the published
planting distance of the kind, and are else guesses; low and high values halve and double them. Where the
garden's prevailing wind is known, pollen of wind kinds goes farther with it than against it; how much
farther is a guess.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

import numpy as np

from leafturn.base.arrays import FloatArray, IndexArray
from leafturn.base.tunables import HALF_METRES, NUMBERS, USUAL, Numbers
from leafturn.garden.model import Point
from leafturn.garden.reading.place_phrases import COMPASS
from leafturn.kinds.model import Kind
from leafturn.partners.chance.shares import Share

STEEP = 3.0  # guess: how sharply a partner's worth falls about the half distance
FARTHEST_SQUARE = 2**30  # beyond it all share a square, so that keys stay whole numbers of 64 bits


def half_metres(kind: Kind, numbers: Numbers = USUAL) -> float:
    """Distance [m] at which a partner of this kind counts half.

    The steward's rule for the kind comes first, then their rule for its carrier, then the library,
    then the carrier's usual value (insects where the carrier is not known).
    """
    carrier = kind.pollination.carried_by
    for name in (kind.name.replace(" ", "_"), carrier):
        own = numbers.own(HALF_METRES + name)
        if own is not None:
            return own
    stated = kind.pollination.half_metres
    return stated.value if stated else NUMBERS[HALF_METRES + carrier].value


def nearness(metres: FloatArray, half: FloatArray | float) -> FloatArray:
    """What a partner counts at a distance, low, likely and high.

    Parameters
    ----------
    metres : (pairs,) [m]
    half : float or (pairs,) [m]

    Returns
    -------
    (3, pairs) array, 0 to 1
    """
    halves = np.asarray(metres, dtype=float) / half
    return np.stack([counts(halves * 2.0), counts(halves), counts(halves / 2.0)])


def counts(halves: FloatArray) -> FloatArray:
    """What a partner counts, 0 to 1, so many half distances away, in any shape."""
    return np.asarray(1.0 / (1.0 + np.power(halves, STEEP)))


def downwind(from_where: str | None) -> Point | None:
    """The way that pollen goes with the prevailing wind, one metre long; None where it is not known.

    Parameters
    ----------
    from_where : str or None
        Where the wind comes from: "west", "SW", "north-north-east".
    """
    words = re.sub(r"\b(from|the|winds?|mostly)\b", "", (from_where or "").lower())
    parts = COMPASS.get(re.sub(r"[^a-z]", "", words))
    return None if parts is None else Point(-parts[0], -parts[1])


def with_wind(
    half: FloatArray, away: FloatArray, metres: FloatArray, wind: Point | None, lean: FloatArray | float
) -> FloatArray:
    """Half distances along the way from donor to recipient.

    Parameters
    ----------
    half : (pairs,) [m]
        Across the wind.
    away : (pairs, 2) [m]
        East and north from donor to recipient.
    metres : (pairs,) [m]
    wind : Point or None
        See `downwind`.
    lean : float or (pairs,)
        How much longer, as a share, the half distance is straight downwind; upwind it is as much shorter.

    Returns
    -------
    (pairs,) [m]
    """
    if wind is None:
        return half
    with np.errstate(invalid="ignore", divide="ignore"):
        along = np.where(metres > 0, away @ np.asarray(wind, dtype=float) / metres, 0.0)
    return np.asarray(half * (1.0 + lean * along))


def nearness_unplaced(numbers: Numbers = USUAL) -> Share:
    """What a partner counts whose place, or whose recipient's place, is not given."""
    return Share(0.0, numbers["partner_unknown_nearness"], 1.0)


def nearness_over_the_fence(metres: float, half: float) -> Share:
    """What a neighbour's plant counts: its distance is a guess, so the range is twice as wide."""
    halves = np.array([4.0, 1.0, 0.25]) * metres / half
    return Share(*counts(halves).tolist())


def pairs_within(
    recipients: Sequence[Point], donors: Sequence[Point], radius: float
) -> tuple[IndexArray, IndexArray, FloatArray]:
    """Every recipient with every donor no farther off than `radius`, found through a grid of squares.

    Parameters
    ----------
    recipients, donors : sequences of Point [m]
    radius : float [m]

    Returns
    -------
    recipient, donor : (pairs,) int
        Positions in the two sequences.
    metres : (pairs,) [m]
    """
    if not recipients or not donors:
        return np.empty(0, np.intp), np.empty(0, np.intp), np.empty(0)
    at, of = np.asarray(recipients, dtype=float), np.asarray(donors, dtype=float)
    origin = np.minimum(at.min(axis=0), of.min(axis=0))
    squares_at = np.minimum(np.floor((at - origin) / radius), FARTHEST_SQUARE).astype(np.int64)
    squares_of = np.minimum(np.floor((of - origin) / radius), FARTHEST_SQUARE).astype(np.int64)
    stride = int(max(squares_at[:, 1].max(), squares_of[:, 1].max())) + 3
    keys = squares_of[:, 0] * stride + squares_of[:, 1]
    by_key = np.argsort(keys, kind="stable")
    keys = keys[by_key]
    recipient_parts, donor_parts = [], []
    for east in (-1, 0, 1):
        # The three squares north to south of one another have keys in a row: one search serves all.
        column = (squares_at[:, 0] + east) * stride + squares_at[:, 1]
        first = np.searchsorted(keys, column - 1, side="left")
        count = np.searchsorted(keys, column + 1, side="right") - first
        recipient_parts.append(np.repeat(np.arange(len(at)), count))
        within = np.arange(count.sum()) - np.repeat(np.cumsum(count) - count, count)
        donor_parts.append(by_key[np.repeat(first, count) + within])
    recipient, donor = np.concatenate(recipient_parts), np.concatenate(donor_parts)
    metres = np.hypot(*(at[recipient] - of[donor]).T)
    near = metres <= radius
    return recipient[near], donor[near], metres[near]
