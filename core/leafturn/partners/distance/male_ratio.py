"""How many females each male has to serve, and how many it can."""

from __future__ import annotations

import numpy as np

from leafturn.base.arrays import FloatArray, IndexArray
from leafturn.kinds.fact import value_of
from leafturn.partners.chance.pollen_plants import PollenPlant

NEAR_ENOUGH = 0.05  # nearness at which a female takes half of what a male has for one female


def wants(
    recipient: IndexArray, donor: IndexArray, serves: FloatArray, females: FloatArray, donors: int
) -> FloatArray:
    """How many females each donor has to serve, (donors,); each female's wants are shared out by nearness.

    Parameters
    ----------
    recipient, donor : (pairs,) int
    serves : (pairs,)
        Nearness, 0 where pollen is refused.
    females : (recipients,)
        Plants that each recipient stands for.
    donors : int
    """
    wanted = np.bincount(recipient, weights=serves, minlength=len(females))
    share = serves / (wanted[recipient] + NEAR_ENOUGH) * females[recipient]
    return np.bincount(donor, weights=share, minlength=donors).astype(float)


def shared_among(
    recipients: list[PollenPlant],
    donors: list[PollenPlant],
    recipient: IndexArray,
    donor: IndexArray,
    near: FloatArray,
    compatible: FloatArray,
) -> FloatArray:
    """How many females a male could serve for each that it has to, (pairs,); above 1 some pollen is spare.

    Parameters
    ----------
    recipients, donors : list of PollenPlant
    recipient, donor : (pairs,)
        Their numbers in the lists.
    near : (pairs,)
        What the donor counts for its distance, 0 to 1.
    compatible : (pairs,)
        Share of its pollen that takes.
    """
    most = np.array([most_females(b) * b.count for b in donors])
    if not np.isfinite(most).any():
        return np.full(len(recipient), np.inf)
    females = np.array([b.count for b in recipients], dtype=float)
    load = wants(recipient, donor, near * (compatible > 0), females, len(donors))
    with np.errstate(divide="ignore", invalid="ignore"):
        surplus = np.where(load > 0, most / load, np.inf)
    return np.asarray(surplus[donor])


def most_females(donor: PollenPlant) -> float:
    """Females that one plant serves; without limit where the library names none."""
    limit = donor.kind.pollination.females_per_male
    return value_of(limit, np.inf)
