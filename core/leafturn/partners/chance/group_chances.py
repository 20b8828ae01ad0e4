"""The figures of one group of plants that can cross: every pair, every tree, this year and later ones."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property

import numpy as np

from leafturn.base.arrays import FloatArray, IndexArray
from leafturn.base.tunables import Numbers
from leafturn.partners.advice.redundant_donors import RedundancySearch
from leafturn.partners.bloom_overlap.pair_overlap import BloomOverlaps
from leafturn.partners.chance.crop_chance import crop_share, matching, pollen_by_draw
from leafturn.partners.chance.fruit_set_evidence import SetNotes, posterior, relevance, set_shares
from leafturn.partners.chance.pair_chances import combined, pair_up
from leafturn.partners.chance.pollen_plants import CrossGroup, CrossGroups
from leafturn.partners.circumstances import Circumstances
from leafturn.partners.genetics.compatibility import Crosses
from leafturn.partners.genetics.self_fertility import self_share
from leafturn.partners.model import RedundantDonor

CROP_PARTNERS = 3  # strongest partners that the chance of a crop is reckoned with


class GroupChances:
    """The figures of one group.

    Parameters
    ----------
    group : CrossGroup
        With at least one recipient.
    cross_groups : CrossGroups
        Asked for the years, and for donors of other groups that serve this one in part.
    circumstances : Circumstances
        Weather, and the set noted in past years.
    crosses : mapping
        What pollen of one group is worth on another.

    Attributes
    ----------
    flowers : (recipients, 3, years)
        Low, likely and high chance that each recipient itself is old enough to flower.
    adequacy : (3, recipients)
        Low, likely and high chance that a recipient flowers and gets enough pollen this year, as computed.
    chances : (3, pairs)
    starts : (recipients + 1,) int
        Where each recipient's pairs begin.
    strongest : (pairs,) int
        Pairs by recipient, the strongest first.
    """

    def __init__(
        self,
        group: CrossGroup,
        cross_groups: CrossGroups,
        circumstances: Circumstances,
        numbers: Numbers,
        crosses: Crosses,
    ) -> None:
        self.group = group = cross_groups.with_crosses(group, crosses)
        self.cross_groups, self.circumstances, self.numbers = cross_groups, circumstances, numbers
        self.bloom_overlaps = BloomOverlaps(
            group.recipients,
            group.donors,
            numbers,
            circumstances.clocks[group.recipients[0].kind.pollination.carried_by],
        )
        pairs = self.pairs = pair_up(
            group, self.bloom_overlaps, numbers, crosses=crosses, wind=circumstances.wind
        )
        self_set = np.array([self_share(tree.genotype) for tree in group.recipients]).T
        self.self_set = self_set[1]
        self.starts = np.searchsorted(pairs.recipient, np.arange(len(group.recipients) + 1))
        self.chances = pairs.chances()
        self.flowers = np.stack([tree.flowering for tree in group.recipients])
        self.adequacy = np.stack(
            [
                combined(row, self.starts, own) * flowers
                for row, own, flowers in zip(self.chances, self_set, self.flowers[:, :, 0].T, strict=True)
            ]
        )
        self.strongest = np.lexsort((-self.chances[1], pairs.recipient))
        self.worth = pairs.without_age()[1]
        self._flowering = np.stack([donor.flowering[1] for donor in group.donors])
        self.at_last = self.worth * self._flowering[pairs.donor, cross_groups.ahead - 1]
        self._places = {int(year): n for n, year in enumerate(cross_groups.years)}

    def part(self, recipient: int) -> slice:
        """The pairs of one recipient."""
        return slice(int(self.starts[recipient]), int(self.starts[recipient + 1]))

    @cached_property
    def rank(self) -> IndexArray:
        """Place of each of `strongest` among its recipient's pairs, (pairs,)."""
        return np.asarray(np.arange(len(self.pairs.recipient)) - self.starts[self.pairs.recipient])

    def set_notes(self, recipient: int) -> SetNotes:
        """The set noted of a recipient in the years looked at."""
        notes = self.circumstances.sets.get(self.group.recipients[recipient].label, {})
        return {year: word for year, word in notes.items() if year in self._places}

    def posterior(self, recipient: int) -> tuple[list[float], FloatArray]:
        """Low, likely and high chance this year, and the likely one by year, with noted sets counted in.

        Returns
        -------
        now : list of three
        by_year : (years ahead,)
            This year first, with this year's days of bloom.
        """
        by_year, ahead, now = self._by_year[recipient], self.cross_groups.ahead, self.adequacy[:, recipient]
        noted = self.set_notes(recipient)
        if not noted:
            return now.tolist(), by_year[:ahead]
        observed = set_shares(noted, self.numbers)
        then = by_year[[self._places[year] for year in sorted(noted)]]
        tells = relevance(by_year, then, observed, self.numbers)
        later = posterior(by_year, tells, observed, self.numbers)[:ahead]
        this_year = posterior(now, np.repeat(tells[:1], 3, axis=0), observed, self.numbers)
        return this_year.tolist(), later

    @cached_property
    def adds(self) -> FloatArray:
        """By how much a recipient's chance would fall without the donor, (pairs,)."""
        chance, recipient = self.chances[1], self.pairs.recipient
        surely = chance >= 1.0
        others = np.where(surely, 0.0, chance)
        fails = 1.0 - combined(others, self.starts, self.self_set)
        # Of two that never fail neither adds anything.
        several = np.bincount(recipient, weights=surely, minlength=len(self.self_set))
        without = np.where(surely, fails[recipient], fails[recipient] / (1.0 - others))
        return np.asarray(np.where(several[recipient] - surely > 0, 0.0, chance * without))

    def crop_shares(self, crop_lost: Mapping[str, FloatArray]) -> dict[int, float]:
        """What frost and flying weather leave of the chance of pollen, by recipient, where frost is known.

        Parameters
        ----------
        crop_lost : mapping of plant id to (draws,) array
            Share of a full crop that frost takes, in every ensemble member.
        """
        losses = {
            n: loss
            for n, tree in enumerate(self.group.recipients)
            if tree.bloom is not None
            and (loss := matching(crop_lost, tree.label, len(tree.bloom[0]))) is not None
        }
        if not losses:
            return {}
        known = np.array(list(losses), dtype=np.intp)
        first = np.sort(self.strongest[self.rank < CROP_PARTNERS])
        pollen = pollen_by_draw(
            self.pairs, self.bloom_overlaps, first, len(self.group.recipients), self.self_set
        )[known]
        carried = self.bloom_overlaps.receptive_days()[known] if self.circumstances.weather_known else None
        shares = crop_share(pollen, np.stack(list(losses.values())), carried, self.numbers)
        return dict(zip(losses, shares.tolist(), strict=True))

    def redundant_donors(self) -> tuple[RedundantDonor, ...]:
        """Plants kept for their pollen that could go."""
        search = RedundancySearch(
            self.group, self.pairs, self.at_last, self.starts, self.self_set, self.numbers
        )
        return tuple(search.found())

    @cached_property
    def _by_year(self) -> FloatArray:
        """Chance of flowers and enough pollen in each year, this year's bloom kept, (recipients, years)."""
        chances = self.worth[:, None] * self._flowering[self.pairs.donor]
        pollen = np.stack([combined(year, self.starts, self.self_set) for year in chances.T], axis=1)
        return np.asarray(pollen * self.flowers[:, 1])
