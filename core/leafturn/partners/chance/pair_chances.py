"""The chance that each donor serves each recipient: five shares multiplied, for all pairs of a group."""

from __future__ import annotations

import numpy as np

from leafturn.base.arrays import FloatArray, IndexArray
from leafturn.base.tunables import Numbers
from leafturn.base.value import Value
from leafturn.garden.model import Point
from leafturn.partners.bloom_overlap.pair_overlap import BloomOverlaps
from leafturn.partners.chance.pollen_plants import CrossGroup, PollenPlant
from leafturn.partners.chance.shares import NONE
from leafturn.partners.distance.male_ratio import shared_among
from leafturn.partners.distance.near_pairs import near_pairs
from leafturn.partners.distance.pollen_distance import half_metres
from leafturn.partners.genetics.compatibility import NO_CROSSES, Crosses, Verdict, judge
from leafturn.partners.genetics.genotype import Genotype


class Link(Value, kw_only=False):
    """One pair as plain numbers: its place among the pairs, the donor's in the group, chances and shares.

    `days` are shared of the recipient's `of_days`. `metres` is nan where a place is not given; `surplus` is
    above 1 where the donor has pollen to spare.
    """

    pair: int
    donor: int
    low: float
    chance: float
    high: float
    compatible: float
    pollen: float
    flowering: float
    nearness: float
    overlap: float
    days: float
    of_days: float
    metres: float
    surplus: float


class Pairs(Value, eq=False):
    """All pairs of one group, sorted by recipient.

    Shares are (3, pairs): low, likely, high; `flowering` is this year's. `metres` is nan where a place is
    not given. `judged` holds each verdict once, `judgement` which of them is a pair's.
    """

    recipient: IndexArray
    donor: IndexArray
    metres: FloatArray
    compatible: FloatArray
    pollen: FloatArray
    nearness: FloatArray
    overlap: FloatArray
    days: FloatArray
    of_days: FloatArray
    flowering: FloatArray
    judged: list[Verdict]
    judgement: IndexArray
    shared_among: FloatArray

    def chances(self) -> FloatArray:
        """Low, likely and high chance of each pair this year, (3, pairs)."""
        return np.asarray(self.without_age() * self.flowering)

    def without_age(self) -> FloatArray:
        """What each pair would give if the donor surely flowered, (3, pairs)."""
        return np.asarray(self.compatible * self.pollen * self.nearness * self.overlap)

    def verdict(self, pair: int) -> Verdict:
        """What was judged of one pair."""
        return self.judged[int(self.judgement[pair])]

    def links(self, which: IndexArray, chances: FloatArray) -> list[Link]:
        """Some of the pairs as plain numbers.

        Parameters
        ----------
        which : (some,) int
        chances : (3, pairs)
        """
        shares = (
            self.compatible[1],
            self.pollen[1],
            self.flowering[1],
            self.nearness[1],
            self.overlap[1],
        )
        columns = (*chances, *shares, self.days, self.of_days, self.metres, self.shared_among)
        numbers = np.stack([column[which] for column in columns], axis=1).tolist()
        donors = self.donor[which].tolist()
        return [Link(*row) for row in zip(which.tolist(), donors, *zip(*numbers, strict=True), strict=True)]


def pair_up(
    group: CrossGroup,
    overlaps: BloomOverlaps,
    numbers: Numbers,
    *,
    crosses: Crosses = NO_CROSSES,
    wind: Point | None = None,
) -> Pairs:
    """Every recipient of a group with every donor that may reach it.

    Parameters
    ----------
    group : CrossGroup
    overlaps : BloomOverlaps
        Of the group's recipients and donors.
    numbers : Numbers
    crosses : mapping
        What pollen of other groups is worth, see `compatibility.judge`.
    wind : Point or None
        The way the wind goes, see `pollen_distance.downwind`.

    Returns
    -------
    Pairs
        Nothing of size recipients x donors is ever made: pairs come from a grid of squares.
    """
    recipients, donors = group.recipients, group.donors
    halves = np.array([half_metres(recipient.kind, numbers) for recipient in recipients])
    recipient, donor, metres, near = near_pairs(recipients, donors, halves, numbers, wind)
    order = np.argsort(recipient, kind="stable")
    recipient, donor, metres, near = recipient[order], donor[order], metres[order], near[:, order]
    compatible, pollen, judged, judgement = _verdicts(recipients, donors, recipient, donor, numbers, crosses)
    flowering = np.stack([b.flowering[:, 0] for b in donors], axis=1)[:, donor]
    overlap, days = overlaps.overlaps(recipient, donor, compatible[2] > 0)
    listed = np.array([v.listed for v in judged], dtype=bool)[judgement]
    overlap[1:, listed] = np.maximum(overlap[1:, listed], numbers["partner_listed"])
    of_days = overlaps.receptive_days().mean(axis=1)[recipient]
    among = shared_among(recipients, donors, recipient, donor, near[1], compatible[1])
    pollen = pollen * np.minimum(among, 1.0)
    return Pairs(
        recipient=recipient, donor=donor, metres=metres, compatible=compatible, pollen=pollen, nearness=near,
        overlap=overlap, days=days, of_days=of_days, flowering=flowering, judged=judged, judgement=judgement,
        shared_among=among,
    )  # fmt: skip


def combined(chances: FloatArray, starts: IndexArray, self_set: FloatArray) -> FloatArray:
    """One less the chance that neither own pollen nor any partner serves.

    Parameters
    ----------
    chances : (pairs,)
        Sorted by recipient.
    starts : (recipients + 1,)
        Where each recipient's pairs begin; the last is the number of pairs.
    self_set : (recipients,)
        Share that own pollen gives.

    Returns
    -------
    (recipients,)
    """
    fails = np.ones(len(self_set))
    some = np.flatnonzero(np.diff(starts))
    if len(some):
        fails[some] = np.multiply.reduceat(1.0 - chances, starts[some])
    return np.asarray(1.0 - fails * (1.0 - self_set))


def _verdicts(
    recipients: list[PollenPlant],
    donors: list[PollenPlant],
    recipient: IndexArray,
    donor: IndexArray,
    numbers: Numbers,
    crosses: Crosses,
) -> tuple[FloatArray, FloatArray, list[Verdict], IndexArray]:
    """Judge each pair of genotypes once and hand the verdict to every pair of plants."""
    genotypes: dict[int, tuple[int, Genotype]] = {}
    for pollen_plant in (*recipients, *donors):
        genotypes.setdefault(id(pollen_plant.genotype), (len(genotypes), pollen_plant.genotype))
    by_number = [genotype for _, genotype in genotypes.values()]
    of_recipient = np.array([genotypes[id(b.genotype)][0] for b in recipients], dtype=np.intp)
    of_donor = np.array([genotypes[id(b.genotype)][0] for b in donors], dtype=np.intp)
    code = of_recipient[recipient] * len(by_number) + of_donor[donor] if len(recipient) else recipient
    unique = np.flatnonzero(np.bincount(code))
    inverse = np.searchsorted(unique, code)
    each = len(by_number)
    judged = [judge(by_number[c // each], by_number[c % each], numbers, crosses) for c in unique]
    compatible = np.array([v.compatible for v in judged] or [NONE])
    pollen = np.array([v.pollen for v in judged] or [NONE])
    return compatible[inverse].T, pollen[inverse].T, judged, inverse
