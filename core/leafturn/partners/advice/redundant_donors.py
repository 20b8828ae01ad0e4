"""Plants kept for their pollen alone without which no tree's chance falls by much."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from leafturn.base.arrays import FloatArray, IndexArray
from leafturn.base.tunables import Numbers
from leafturn.base.value import Value
from leafturn.partners.chance.pair_chances import Pairs, combined
from leafturn.partners.chance.pollen_plants import CrossGroup, PollenPlant
from leafturn.partners.distance.male_ratio import most_females, wants
from leafturn.partners.genetics.self_fertility import is_asked
from leafturn.partners.model import RedundantDonor

FOR_POLLEN = frozenset({"pollen", "pollinizer", "pollinator"})


class RedundancySearch(Value, eq=False, kw_only=False):
    """Looks for donors of one group that could go.

    Parameters
    ----------
    pairs : Pairs
        Of that group.
    chances : (pairs,)
        What each pair gives once its donor has grown up, so that no young male is called spare.
    starts : (recipients + 1,) int
        Where each recipient's pairs begin.
    self_set : (recipients,)
        What own pollen gives.
    """

    group: CrossGroup
    pairs: Pairs
    chances: FloatArray
    starts: IndexArray
    self_set: FloatArray
    numbers: Numbers

    def found(self) -> Iterator[RedundantDonor]:
        """Every plant kept for pollen without which no tree's chance falls by more than the limit."""
        candidates = [g for g, donor in enumerate(self.group.donors) if for_pollen_alone(donor)]
        if not candidates:
            return
        by_donor = np.argsort(self.pairs.donor, kind="stable")
        begins = np.searchsorted(self.pairs.donor[by_donor], np.arange(len(self.group.donors) + 1))
        rows_of = [by_donor[begins[g] : begins[g + 1]] for g in range(len(self.group.donors))]
        limit = self.numbers["partner_spare_below"]
        lost = {g: self._loss([g], rows_of) for g in candidates}
        gone: list[int] = []
        for g in sorted(candidates, key=lambda candidate: lost[candidate]):
            if lost[g] <= limit and self._loss([*gone, g], rows_of) <= limit:
                gone.append(g)
        for g in candidates:
            if lost[g] <= limit:
                label = self.group.donors[g].label
                kind = self.group.donors[g].kind.name
                yield RedundantDonor(plant=label, kind=kind, most_lost=lost[g], keep=g not in gone)

    def _loss(self, donors: list[int], rows_of: list[IndexArray]) -> float:
        """The most that any recipient's chance falls by without some donors.

        The other donors of its recipients then have more to serve, which their other recipients feel too.
        """
        own = np.unique(self.pairs.recipient[np.concatenate([rows_of[g] for g in donors])])
        if not len(own):
            return 0.0
        beside = np.unique(self.pairs.donor[self._rows(own)])
        felt = np.unique(np.concatenate([self.pairs.recipient[rows_of[g]] for g in beside]))
        # Whoever shares a donor with these recipients weighs on it and must be counted, though not asked.
        counted = self._rows(np.unique(np.concatenate([own, felt])))
        served_too = np.concatenate([rows_of[g] for g in np.unique(self.pairs.donor[counted])])
        load_rows = self._rows(np.unique(self.pairs.recipient[served_too]))
        before, after = self._spare(load_rows, []), self._spare(load_rows, donors)
        chances = self.chances[counted]
        old = np.minimum(before[self.pairs.donor[counted]], 1.0)
        new = np.minimum(after[self.pairs.donor[counted]], 1.0)
        without = np.isin(self.pairs.donor[counted], donors)
        changed = np.where(without, 0.0, chances * new / np.maximum(old, 1e-12))
        recipients, begins = np.unique(self.pairs.recipient[counted], return_index=True)
        ends = np.append(begins, len(counted))
        falls = combined(chances, ends, self.self_set[recipients]) - combined(
            changed, ends, self.self_set[recipients]
        )
        return float(falls.max(initial=0.0))

    def _rows(self, recipients: IndexArray) -> IndexArray:
        return np.concatenate([np.arange(self.starts[t], self.starts[t + 1]) for t in recipients])

    def _spare(self, rows: IndexArray, without: list[int]) -> FloatArray:
        """How many times over each donor can serve those it must, (donors,)."""
        pairs, donors = self.pairs, self.group.donors
        rows = rows[~np.isin(pairs.donor[rows], without)]
        females = np.array([b.count for b in self.group.recipients], dtype=float)
        serves = pairs.nearness[1, rows] * (pairs.compatible[1, rows] > 0)
        load = wants(pairs.recipient[rows], pairs.donor[rows], serves, females, len(donors))
        most = np.array([most_females(b) * b.count for b in donors])
        with np.errstate(divide="ignore", invalid="ignore"):
            return np.asarray(np.where(load > 0, most / load, np.inf))


def for_pollen_alone(donor: PollenPlant) -> bool:
    """Whether a plant of the garden is kept for nothing but its pollen: a male, or so marked by its role."""
    if donor.plant is None or donor.branch or donor.fellows:
        return False
    marked = not FOR_POLLEN.isdisjoint(donor.plant.role)
    males = donor.genotype.system == "dioecious" and donor.genotype.sex == "male"
    return marked or (males and not is_asked(donor.genotype))
