"""The chance of a worthwhile crop: pollen, frost and flying weather of one and the same year together.

Notes
-----
In an ensemble member in which all flower early, overlap and frost are both those of an early spring;
so the three are multiplied within each member and averaged only then. What frost leaves is that of the
crop, not of the flowers: a tree that sets more than it can carry spares many of them. Days that carry pollen
count up to those that set a crop (see numbers); in a bloom all cold and wet a partner
next door is of no use.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from leafturn.base.arrays import FloatArray, IndexArray
from leafturn.base.tunables import Numbers
from leafturn.partners.bloom_overlap.pair_overlap import BloomOverlaps
from leafturn.partners.chance.pair_chances import Pairs


def pollen_by_draw(
    pairs: Pairs, overlaps: BloomOverlaps, strongest: IndexArray, recipients: int, self_set: FloatArray
) -> FloatArray:
    """Chance of enough pollen in every ensemble member, (recipients, draws).

    Parameters
    ----------
    pairs : Pairs
    overlaps : BloomOverlaps
    strongest : (some,) int
        The pairs that are counted, sorted by recipient.
    recipients : int
    self_set : (recipients,)
        What own pollen gives.
    """
    shares = overlaps.by_draw(pairs.recipient[strongest], pairs.donor[strongest])
    rest = pairs.compatible[1] * pairs.pollen[1] * pairs.nearness[1] * pairs.flowering[1]
    fails = np.ones((recipients, shares.shape[1]))
    served, first = np.unique(pairs.recipient[strongest], return_index=True)
    if len(served):
        fails[served] = np.multiply.reduceat(1.0 - rest[strongest, None] * shares, first, axis=0)
    return np.asarray(1.0 - (1.0 - self_set[:, None]) * fails)


def crop_share(
    pollen: FloatArray, lost: FloatArray, carrying_days: FloatArray | None, numbers: Numbers
) -> FloatArray:
    """What frost and cold wet days leave of the chance of pollen, 0 to 1.

    Parameters
    ----------
    pollen : (recipients, draws) or (recipients, 1)
        Chance of enough pollen in every member.
    lost : (recipients, draws)
        Share of a full crop that frost takes.
    carrying_days : (recipients, draws) or None [d]
        Days of bloom as the carrier counts them; None where nothing need be carried.
    numbers : Numbers

    Returns
    -------
    (recipients,)
    """
    spared = 1.0 - lost
    if carrying_days is not None:
        spared = spared * np.minimum(carrying_days / numbers["partner_carrying_days"], 1.0)
    pollen = np.broadcast_to(pollen, spared.shape)
    whole = pollen.sum(axis=1)
    with np.errstate(invalid="ignore", divide="ignore"):
        joined = (pollen * spared).sum(axis=1) / whole
    return np.asarray(np.where(whole > 0, joined, spared.mean(axis=1)))


def matching(lost: Mapping[str, FloatArray], plant: str, draws: int) -> FloatArray | None:
    """A plant's losses, (draws,), if they are known for just these draws."""
    found = lost.get(plant)
    return found if found is not None and len(found) == draws else None
