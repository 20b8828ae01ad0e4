"""Reviews of the trees of one group: figures put into words, partners listed, remedies found."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

import numpy as np

from leafturn.base.arrays import FloatArray
from leafturn.partners.advice.remedies import RemedyFinder
from leafturn.partners.bloom_overlap.flowering_age import OLD_ENOUGH
from leafturn.partners.chance.fruit_set_evidence import evidence_words
from leafturn.partners.chance.group_chances import GroupChances
from leafturn.partners.chance.pair_chances import Link
from leafturn.partners.chance.pollen_plants import PollenPlant
from leafturn.partners.distance.pollen_distance import half_metres
from leafturn.partners.garden_chances import partner_standing
from leafturn.partners.genetics.clones import kin_clue
from leafturn.partners.genetics.self_fertility import BOTH_SEXES, self_share
from leafturn.partners.model import Partner, PartnerStanding, Remedy, TreeReview
from leafturn.partners.sentences import (
    SHOWN_PARTNERS,
    carried_words,
    first_flowers_ahead,
    name_of,
    need_words,
    nobody_near,
    own_unknowns,
    partner_of,
    self_words,
    served_words,
    sex_words,
    too_young_words,
)
from leafturn.partners.weak_points import WEAK, Reach, Weakest, weak_points, weak_words, weakest_of
from leafturn.partners.words import metres_words

WORTH_A_WORD = 0.1  # a doubted partner that gives less is passed over for one that will give more
SURELY_COUNTED = 3  # partners that a review speaks of; more may be listed


class GroupReview:
    """The reviews of one group of plants that can cross.

    Parameters
    ----------
    remedy_finder : RemedyFinder
        Finds what would help.
    """

    def __init__(self, group_chances: GroupChances, remedy_finder: RemedyFinder) -> None:
        self.group_chances, self.remedy_finder = group_chances, remedy_finder
        self.group, self.cross_groups = group_chances.group, group_chances.cross_groups
        self.pairs, self.chances, self.strongest = (
            group_chances.pairs,
            group_chances.chances,
            group_chances.strongest,
        )
        self.refused = self.pairs.compatible[1] == 0
        self.metres = np.where(np.isnan(self.pairs.metres), np.inf, self.pairs.metres)
        self.years = self.cross_groups.years[: self.cross_groups.ahead].tolist()
        parts = [group_chances.part(n) for n in range(len(self.group.recipients))]
        self.hopeful = [self._most_hopeful(part) for part in parts]
        self.near_refused = [
            self._nearest_refused(part, tree, hopeful)
            for part, tree, hopeful in zip(parts, self.group.recipients, self.hopeful, strict=True)
        ]
        shown = self.strongest[group_chances.rank < SHOWN_PARTNERS].tolist()
        spoken_of = {i for i in (*shown, *self.hopeful, *self.near_refused) if i is not None}
        links = self.pairs.links(np.array(sorted(spoken_of), dtype=np.intp), self.chances)
        self._links = {link.pair: link for link in links}

    def reviews(
        self, frost_loss: Mapping[str, float], crop_lost: Mapping[str, FloatArray]
    ) -> dict[int, TreeReview]:
        """Reviews of all recipients, by the identity of the plant; frost as in `FloweringSeason`."""
        crops = self.group_chances.crop_shares(crop_lost)
        return {
            id(tree.plant): self._review(n, frost_loss.get(tree.label), crops.get(n))
            for n, tree in enumerate(self.group.recipients)
        }

    def _review(self, n: int, frost: float | None, crop: float | None) -> TreeReview:
        tree, numbers = self.group.recipients[n], self.remedy_finder.numbers
        part = self.group_chances.part(n)
        computed, noted = float(self.group_chances.adequacy[1, n]), self.group_chances.set_notes(n)
        (low, likely, high), by_year = self.group_chances.posterior(n)
        if tree.genotype.sex_unknown:
            # a male bears nothing, and some plants bear flowers of both sexes
            low, high = 0.0, max(high, BOTH_SEXES.high * float(tree.flowering[2, 0]))
        set_words = evidence_words(noted, computed, likely) if noted else ""
        standing = partner_standing(likely, numbers)
        reach = Reach(year=self.years[0], half=half_metres(tree.kind, numbers))
        hopeful, refused = self.hopeful[n], self.near_refused[n]
        shown = self.strongest[part][:SHOWN_PARTNERS].tolist()
        if refused is not None and refused not in shown:
            shown.append(refused)
        partners = tuple(self._partner(i, tree, reach) for i in shown)
        weakest = self._weakest(tree, part, standing, (refused, hopeful), reach)
        return TreeReview(
            plant=tree.label,
            kind=tree.kind.name,
            cultivar=tree.genotype.cultivar,
            needs=need_words(tree),
            adequacy=likely,
            low=low,
            high=high,
            standing=standing,
            weakest="; ".join(weakest.clauses),
            reasons=self._reasons(tree, weakest, partners, set_words),
            partners=partners,
            remedies=self._remedies(tree, part, by_year, reach) if standing in ("lacks", "thin") else (),
            frost_loss_chance=frost,
            guessed=self._guessed(tree, shown[:SURELY_COUNTED]),
            by_year=tuple(zip(self.years, by_year.tolist(), strict=True)),
            computed=computed,
            set_words=set_words,
            crop=None if crop is None else likely * crop,
            flowers=float(tree.flowering[1, 0]),
            first_flowers=first_flowers_ahead(tree),
            too_young=standing != "served" and self._too_young(tree, part),
        )

    def _link(self, i: int) -> Link:
        return self._links[i]

    def _donor(self, i: int) -> PollenPlant:
        return self.group.donors[self._link(i).donor]

    def _partner(self, i: int, tree: PollenPlant, reach: Reach) -> Partner:
        return partner_of(
            self._link(i),
            self.pairs.verdict(i),
            tree,
            self._donor(i),
            reach,
            float(self.group_chances.adds[i]),
        )

    def _nearest_refused(self, part: slice, tree: PollenPlant, hopeful: int | None) -> int | None:
        """The nearest pair in `part` whose pollen is refused outright, as between clones.

        That females do not serve females needs no saying where a male stands within reach.
        """
        if tree.genotype.system == "dioecious" and hopeful is not None:
            return None
        refused = np.flatnonzero(self.refused[part])
        if not len(refused):
            return None
        return int(part.start + refused[np.argmin(self.metres[part][refused])])

    def _most_hopeful(self, part: slice) -> int | None:
        """The pair in `part` that gives most once its donor has grown up."""
        if part.start == part.stop:
            return None
        best = part.start + int(np.argmax(self.group_chances.at_last[part]))
        return best if self.pairs.compatible[1, best] > 0 else None

    def _weakest(
        self,
        tree: PollenPlant,
        part: slice,
        standing: PartnerStanding,
        named: tuple[int | None, int | None],
        reach: Reach,
    ) -> Weakest:
        """What is refused, what may serve, or that nobody is near."""
        refused, hopeful = named
        if standing == "served":
            return self._served_by(tree, part)
        clauses = self._about_itself(tree)
        if clauses and self._too_young(tree, part):
            return weakest_of(clauses)
        if refused is not None:
            clauses.append(self._refused_words(tree, refused))
        firsts = []
        for likely in dict.fromkeys((self._doubted_now(part), hopeful)):
            if likely is not None:
                said, first = self._hopeful_words(tree, likely, reach)
                clauses.append(said)
                firsts.append(first)
        if not clauses:
            others = [b for b in self.group.donors if b.plant is not tree.plant and _could_give(b)]
            radius = reach.half * self.remedy_finder.numbers["partner_reach_halves"]
            clauses.append(nobody_near(tree, others, radius))
        if hopeful is None:
            clue = kin_clue(tree, self.cross_groups)
            clauses.extend([clue] if clue else [])
        return weakest_of(clauses, firsts)

    def _doubted_now(self, part: slice) -> int | None:
        """The pair in `part` that gives most this year, where what is not known of it holds it back."""
        if part.start == part.stop:
            return None
        first = int(self.strongest[part][0])
        return first if self.pairs.verdict(first).unknown and self.chances[1, first] >= WORTH_A_WORD else None

    def _about_itself(self, tree: PollenPlant) -> list[str]:
        """What of the tree itself comes before any partner: its age, and a sex that is not noted."""
        asked = self.remedy_finder
        return [*too_young_words(tree, self.years[0]), *sex_words(tree, asked.axis, asked.on)]

    def _too_young(self, tree: PollenPlant, part: slice) -> bool:
        """Whether its partners would serve it if only it flowered."""
        own = float(tree.flowering[1, 0])
        if own >= OLD_ENOUGH:
            return False
        fails = float(np.prod(1.0 - self.chances[1, part])) * (1.0 - self_share(tree.genotype).likely)
        return 1.0 - fails >= self.remedy_finder.numbers["partner_thin_below"]

    def _served_by(self, tree: PollenPlant, part: slice) -> Weakest:
        """The strongest partner, or own pollen where that does more."""
        first = int(self.strongest[part][0]) if part.start != part.stop else None
        if first is None or self_share(tree.genotype).likely > self.chances[1, first]:
            return Weakest((self_words(tree),))
        return Weakest((f"{name_of(self._donor(first), tree)}{self._distance(first)}",), strongest=first)

    def _refused_words(self, tree: PollenPlant, i: int) -> str:
        donor, why = self._donor(i), self.pairs.verdict(i).refused
        away = f"{far} away" if why and why.tells_state and (far := self._distance(i)) else ""
        said = f"{name_of(donor, tree)} {why}{away}"
        return f"{said}, though {tree.label} serves {donor.label}" if self._serves(tree, donor) else said

    def _serves(self, tree: PollenPlant, other: PollenPlant) -> bool:
        """Whether a tree gives another enough pollen, though the other gives it none."""
        takers = [n for n, recipient in enumerate(self.group.recipients) if recipient.plant is other.plant]
        givers = [n for n, donor in enumerate(self.group.donors) if donor.plant is tree.plant]
        met = np.isin(self.pairs.recipient, takers) & np.isin(self.pairs.donor, givers)
        enough = self.remedy_finder.numbers["partner_thin_below"]
        return other.plant is not None and bool((self.chances[1, met] >= enough).any())

    def _hopeful_words(self, tree: PollenPlant, i: int, reach: Reach) -> tuple[str, str]:
        """What holds back the pair that gives most once grown up: all of it, and its first point alone."""
        donor, of_pair = self._donor(i), (self._link(i), self.pairs.verdict(i), tree, self._donor(i), reach)
        weak = weak_points(*of_pair) or weak_points(*of_pair, below=1.0)[:1]
        if not weak:
            return f"{name_of(donor, tree)}{self._distance(i)} is the only partner", ""
        name = name_of(donor, tree)
        return f"{name} {weak_words(weak)}", f"{name} {weak[0].said}"

    def _distance(self, i: int) -> str:
        metres = self._link(i).metres
        return "" if math.isnan(metres) or metres == 0 else f", {metres_words(metres)}"

    def _guessed(self, tree: PollenPlant, strongest: Sequence[int]) -> bool:
        """Whether one note (a name, a sex, a year, a place) would firm the figure."""
        if tree.kind.guessed or tree.bloom is None:
            return True
        for i in strongest:
            donor = self._donor(i)
            undated = donor.plant is None or donor.plant.year is None
            if self.pairs.verdict(i).unknown or undated or math.isnan(self._link(i).metres):
                return True
        return False

    def _reasons(
        self, tree: PollenPlant, weakest: Weakest, partners: Sequence[Partner], set_words: str
    ) -> tuple[str, ...]:
        first = f"{'; '.join(weakest.clauses)}."
        if weakest.strongest is not None:
            first = served_words(self._link(weakest.strongest), tree, self._donor(weakest.strongest))
        able = [p for p in partners[:SURELY_COUNTED] if p.compatible > 0]
        of_partners = [reason for p in able for reason in p.reasons]
        alone = f"{own}." if (own := self_words(tree)) else ""
        young = [f"{clause}." for clause in too_young_words(tree, self.years[0])]
        said = [set_words, *of_partners, carried_words(tree), alone, *own_unknowns(tree), *young]
        return tuple(dict.fromkeys([first, *(s for s in said if s and s not in weakest.covers)]))

    def _remedies(
        self, tree: PollenPlant, part: slice, by_year: FloatArray, reach: Reach
    ) -> tuple[Remedy, ...]:
        gain = self.group_chances.at_last[part] - self.chances[1, part]
        waited_for = None
        if len(gain) and gain.max() > 0:
            waited_for = self.group.donors[self.pairs.donor[part.start + int(np.argmax(gain))]]
        movable = []
        for i in range(part.start, part.stop) if part.stop - part.start <= 2 * SHOWN_PARTNERS else ():
            near = float(self.pairs.nearness[1, i])
            if self.pairs.compatible[1, i] > WEAK and near < 0.25 and not np.isnan(self.pairs.metres[i]):
                donor = self.group.donors[self.pairs.donor[i]]
                movable.append(
                    (donor, float(self.pairs.metres[i]), float(self.group_chances.worth[i]) / near)
                )
        return self.remedy_finder.remedies(
            tree, by_year, reach.half, waited_for, movable, too_young=self._too_young(tree, part)
        )


def _could_give(donor: PollenPlant) -> bool:
    return donor.genotype.sex != "female"
