"""Plants kept for their pollen alone whose absence nobody would notice."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from leafturn.base.arrays import FloatArray, IndexArray
from leafturn.base.tunables import Numbers
from leafturn.partners.chance.pair_chances import Pairs, combined
from leafturn.partners.chance.pollen_plants import Bearer, CrossGroup
from leafturn.partners.distance.male_ratio import most_females, wants
from leafturn.partners.genetics.self_fertility import is_asked
from leafturn.partners.model import SpareGiver

FOR_POLLEN = frozenset({"pollen", "pollinizer", "pollinator"})


@dataclass(frozen=True, eq=False)
class SpareSearch:
    """Looks for givers of one group that could go.

    Parameters
    ----------
    group : CrossGroup
    pairs : Pairs
        Of that group.
    chances : (pairs,)
        What each pair gives once its giver has grown up, so that no young male is called spare.
    starts : (takers + 1,) int
        Where each taker's pairs begin.
    alone : (takers,)
        What own pollen gives.
    numbers : Numbers
    """

    group: CrossGroup
    pairs: Pairs
    chances: FloatArray
    starts: IndexArray
    alone: FloatArray
    numbers: Numbers

    def found(self) -> Iterator[SpareGiver]:
        """Every plant kept for pollen without which no tree's chance falls by more than the limit."""
        candidates = [g for g, giver in enumerate(self.group.givers) if for_pollen_alone(giver)]
        if not candidates:
            return
        by_giver = np.argsort(self.pairs.giver, kind="stable")
        begins = np.searchsorted(self.pairs.giver[by_giver], np.arange(len(self.group.givers) + 1))
        rows_of = [by_giver[begins[g] : begins[g + 1]] for g in range(len(self.group.givers))]
        for g in candidates:
            loss = self._loss(g, rows_of)
            if loss <= self.numbers["partner_spare_below"]:
                yield SpareGiver(plant=self.group.givers[g].label, most_lost=loss)

    def _loss(self, giver: int, rows_of: list[IndexArray]) -> float:
        """The most that any taker's chance falls by without a giver.

        The other givers of its takers then have more to serve, which their other takers feel too.
        """
        own = np.unique(self.pairs.taker[rows_of[giver]])
        if not len(own):
            return 0.0
        beside = np.unique(self.pairs.giver[self._rows(own)])
        felt = np.unique(np.concatenate([self.pairs.taker[rows_of[g]] for g in beside]))
        # Whoever shares a giver with these takers weighs on it and must be counted, though not asked.
        counted = self._rows(np.unique(np.concatenate([own, felt])))
        served_too = np.concatenate([rows_of[g] for g in np.unique(self.pairs.giver[counted])])
        load_rows = self._rows(np.unique(self.pairs.taker[served_too]))
        before, after = self._spare(load_rows, None), self._spare(load_rows, giver)
        chances = self.chances[counted]
        old = np.minimum(before[self.pairs.giver[counted]], 1.0)
        new = np.minimum(after[self.pairs.giver[counted]], 1.0)
        changed = np.where(self.pairs.giver[counted] == giver, 0.0, chances * new / np.maximum(old, 1e-12))
        takers, begins = np.unique(self.pairs.taker[counted], return_index=True)
        ends = np.append(begins, len(counted))
        falls = combined(chances, ends, self.alone[takers]) - combined(changed, ends, self.alone[takers])
        return float(falls.max(initial=0.0))

    def _rows(self, takers: IndexArray) -> IndexArray:
        return np.concatenate([np.arange(self.starts[t], self.starts[t + 1]) for t in takers])

    def _spare(self, rows: IndexArray, without: int | None) -> FloatArray:
        """How many times over each giver can serve those it must, (givers,)."""
        pairs, givers = self.pairs, self.group.givers
        if without is not None:
            rows = rows[pairs.giver[rows] != without]
        females = np.array([b.count for b in self.group.takers], dtype=float)
        load = wants(
            pairs.taker[rows], pairs.giver[rows], pairs.nearness[1, rows] * (pairs.compatible[1, rows] > 0),
            females, len(givers),
        )  # fmt: skip
        most = np.array([most_females(b) * b.count for b in givers])
        with np.errstate(divide="ignore", invalid="ignore"):
            return np.asarray(np.where(load > 0, most / load, np.inf))


def for_pollen_alone(giver: Bearer) -> bool:
    """Whether a plant of the garden is kept for nothing but its pollen: a male, or so marked by its role."""
    if giver.plant is None or giver.branch or giver.fellows:
        return False
    marked = not FOR_POLLEN.isdisjoint(giver.plant.role)
    males = giver.genotype.system == "dioecious" and giver.genotype.sex == "male"
    return marked or (males and not is_asked(giver.genotype))
