"""Which trees get enough pollen this year, which do not, why, and what would help.

Notes
-----
A partner's chance is the product of five shares: how far its pollen suits, how good the pollen is, the
chance that it flowers, the share of the receptive days it covers, and what its distance leaves. A tree
is served unless its own pollen and every partner fail: one less the product of the failures. The
partners are taken as independent, which is a simplification: one cold week spoils bee flight for all.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Mapping, Sequence
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from leafturn.bloom.model import BloomForecast
from leafturn.garden.model import Garden
from leafturn.kinds.library import Library
from leafturn.partners.census import Bearer, Census, CrossGroup, self_share, take_census
from leafturn.partners.chances import Pairs, combined, pair_up
from leafturn.partners.fixes import Helper
from leafturn.partners.kin import kin_clue
from leafturn.partners.model import Fix, Partner, Standing, TreeReview
from leafturn.partners.reach import half_metres
from leafturn.partners.sentences import (
    SHOWN_PARTNERS,
    WEAK,
    Reach,
    name_of,
    need_words,
    nobody_near,
    own_doubts,
    partner_of,
    predicate,
    self_words,
    weak_points,
)
from leafturn.partners.settings import Settings, read_settings
from leafturn.partners.shares import FULL
from leafturn.partners.words import metres_words
from leafturn.season.axis import SeasonAxis

FloatArray = NDArray[np.float64]

LOOK_AHEAD = 16  # years, this one included
SURELY_COUNTED = 3  # partners that a review speaks of; more may be listed
NOTHING: Mapping[str, int] = MappingProxyType({})
NO_YEARS: Mapping[str, Collection[int]] = MappingProxyType({})
NO_LOSS: Mapping[str, float] = MappingProxyType({})
NO_RULES: Mapping[str, float | str | bool] = MappingProxyType({})


def review_partners(
    garden: Garden,
    library: Library,
    forecasts: Mapping[str, BloomForecast],
    year: int,
    *,
    first_bloom: Mapping[str, int] = NOTHING,
    no_bloom: Mapping[str, Collection[int]] = NO_YEARS,
    rules: Mapping[str, float | str | bool] = NO_RULES,
    frost_loss: Mapping[str, float] = NO_LOSS,
    today: dt.date | None = None,
) -> tuple[TreeReview, ...]:
    """Review every living plant from which fruit is wanted; males and fruitless kinds are left out.

    Parameters
    ----------
    garden : Garden
    library : Library
    forecasts : mapping of plant id to BloomForecast
        This season's flowering, all with the same draws. A plant without one gets a wide range.
    year : int
        The season's year.
    first_bloom : mapping of plant id to the first year in which flowers were noted
    no_bloom : mapping of plant id to the years noted as without flowers
    rules : mapping
        The garden's own `[rule]` values; keys that begin with "partner_" count (see settings).
    frost_loss : mapping of plant id to the chance that frost spoils the bloom
        Passed on as it is.
    today : date or None
        Helps whose days are past are put off to the next season.

    Returns
    -------
    tuple of TreeReview
        In garden order.
    """
    settings, _ = read_settings(rules)
    years = np.arange(year, year + LOOK_AHEAD, dtype=np.int64)
    census = take_census(
        garden, library, forecasts, years, first_bloom=first_bloom, no_bloom=no_bloom, settings=settings
    )
    helper = Helper(
        library=library, settings=settings, axis=SeasonAxis(year, garden.place.southern), today=today
    )
    reviews: dict[int, TreeReview] = {}
    for group in census.groups.values():
        if group.takers:
            reviews.update(_review_group(group, census, helper, frost_loss))
    return tuple(
        reviews[id(tree.plant)] if id(tree.plant) in reviews else _fruits_alone(tree, frost_loss)
        for tree in census.asked
    )


def _review_group(
    group: CrossGroup, census: Census, helper: Helper, frost_loss: Mapping[str, float]
) -> dict[int, TreeReview]:
    """Reviews of one group's takers, by the identity of the plant."""
    pairs = pair_up(group, helper.settings)
    starts = np.searchsorted(pairs.taker, np.arange(len(group.takers) + 1))
    alone = np.array([self_share(tree.genotype) for tree in group.takers]).T
    chances = pairs.chances()
    low, likely, high = (combined(row, starts, own) for row, own in zip(chances, alone, strict=True))
    by_year = combined(pairs.by_year(), starts, alone[1])
    strongest = np.lexsort((-chances[1], pairs.taker))
    reviewer = _Reviewer(group, census, helper, pairs, chances, strongest)
    return {
        id(tree.plant): reviewer.review(
            n, slice(starts[n], starts[n + 1]), (float(low[n]), float(likely[n]), float(high[n])), by_year[n],
            frost_loss.get(tree.label),
        )
        for n, tree in enumerate(group.takers)
    }  # fmt: skip


class _Reviewer:
    """Puts one group's figures into reviews."""

    def __init__(
        self,
        group: CrossGroup,
        census: Census,
        helper: Helper,
        pairs: Pairs,
        chances: FloatArray,
        strongest: NDArray[np.intp],
    ) -> None:
        self.group, self.census, self.helper = group, census, helper
        self.pairs, self.chances, self.strongest = pairs, chances, strongest
        self.worth = pairs.without_age()[1]
        self.at_last = self.worth * pairs.flowering[1, :, -1]

    def review(
        self,
        n: int,
        part: slice,
        chance: tuple[float, float, float],
        by_year: FloatArray,
        frost: float | None,
    ) -> TreeReview:
        """The review of taker `n`, whose pairs stand in `part`."""
        tree, settings = self.group.takers[n], self.helper.settings
        low, likely, high = chance
        standing = standing_of(likely, settings)
        reach = Reach(year=int(self.census.years[0]), half=half_metres(tree.kind, settings))
        hopeful = self._most_hopeful(part)
        refused = self._nearest_refused(part, tree, hopeful)
        shown = [int(i) for i in self.strongest[part][:SHOWN_PARTNERS]]
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
            weakest=weakest,
            reasons=self._reasons(tree, weakest, partners, reach.year),
            partners=partners,
            fixes=self._fixes(tree, part, by_year, reach) if standing in ("lacks", "thin") else (),
            frost_loss_chance=frost,
            guessed=self._guessed(tree, shown[:SURELY_COUNTED]),
            by_year=tuple(zip(self.census.years.tolist(), by_year.tolist(), strict=True)),
        )

    def _partner(self, i: int, tree: Bearer, reach: Reach) -> Partner:
        giver = self.group.givers[self.pairs.giver[i]]
        return partner_of(self.pairs, i, self.chances, tree, giver, reach)

    def _nearest_refused(self, part: slice, tree: Bearer, hopeful: int | None) -> int | None:
        """The nearest pair in `part` whose pollen is refused outright, as between clones.

        That females do not serve females needs no saying where a male stands within reach.
        """
        if tree.genotype.system == "dioecious" and hopeful is not None:
            return None
        refused = part.start + np.flatnonzero(self.pairs.compatible[1, part] == 0)
        if not len(refused):
            return None
        metres = np.nan_to_num(self.pairs.metres[refused], nan=np.inf)
        return int(refused[int(np.argmin(metres))])

    def _most_hopeful(self, part: slice) -> int | None:
        """The pair in `part` that gives most once its giver has grown up."""
        if part.start == part.stop:
            return None
        best = part.start + int(np.argmax(self.at_last[part]))
        return best if self.pairs.compatible[1, best] > 0 else None

    def _weakest(
        self,
        tree: Bearer,
        part: slice,
        standing: Standing,
        named: tuple[int | None, int | None],
        reach: Reach,
    ) -> str:
        """The weakest link in one sentence: what is refused, what may serve, or that nobody is near."""
        refused, hopeful = named
        if standing == "served" and part.start != part.stop:
            first = int(self.strongest[part][0])
            giver = self.group.givers[self.pairs.giver[first]]
            return f"{name_of(giver, tree)}{self._distance(first)}"
        clauses = []
        if refused is not None:
            clauses.append(self._refused_words(tree, refused))
        if hopeful is not None:
            clauses.append(self._hopeful_words(tree, hopeful, reach))
        if not clauses:
            others = [b for b in self.group.givers if b.plant is not tree.plant and _could_give(tree, b)]
            radius = reach.half * self.helper.settings.reach_halves
            clauses.append(nobody_near(tree, others, radius))
        if hopeful is None:
            clue = kin_clue(tree, self.census)
            clauses.extend([clue] if clue else [])
        return "; ".join(clauses)

    def _refused_words(self, tree: Bearer, i: int) -> str:
        giver, why = self.group.givers[self.pairs.giver[i]], self.pairs.verdicts[i].refused
        away = self._distance(i)
        return f"{name_of(giver, tree)} {why}{f'{away} away' if away and why.startswith('is ') else ''}"

    def _hopeful_words(self, tree: Bearer, i: int, reach: Reach) -> str:
        giver = self.group.givers[self.pairs.giver[i]]
        points = weak_points(self.pairs, i, tree, giver, reach)
        weak = [point for point in points if point.share < WEAK] or points[:1]
        if not weak:
            return f"{name_of(giver, tree)}{self._distance(i)} is the only partner"
        return f"{name_of(giver, tree)} {predicate(weak)}"

    def _distance(self, i: int) -> str:
        metres = float(self.pairs.metres[i])
        return "" if np.isnan(metres) or metres == 0 else f", {metres_words(metres)}"

    def _guessed(self, tree: Bearer, strongest: Sequence[int]) -> bool:
        """Whether one note (a name, a sex, a year, a place) would firm the figure."""
        if tree.kind.guessed or tree.bloom is None:
            return True
        for i in strongest:
            giver = self.group.givers[self.pairs.giver[i]]
            undated = giver.plant is None or (giver.plant.year is None and giver.age is not None)
            if self.pairs.verdicts[i].doubt or undated or np.isnan(self.pairs.metres[i]):
                return True
        return False

    def _reasons(self, tree: Bearer, weakest: str, partners: Sequence[Partner], year: int) -> tuple[str, ...]:
        of_partners = (reason for p in partners[:SURELY_COUNTED] for reason in p.reasons)
        more = [reason for reason in of_partners if reason.removesuffix(".") not in weakest]
        said = [f"{weakest}.", *more, self_words(tree), *own_doubts(tree, year)]
        return tuple(dict.fromkeys(s for s in said if s))

    def _fixes(self, tree: Bearer, part: slice, by_year: FloatArray, reach: Reach) -> tuple[Fix, ...]:
        gain = self.at_last[part] - self.chances[1, part]
        waited_for = None
        if len(gain) and gain.max() > 0:
            waited_for = self.group.givers[self.pairs.giver[part.start + int(np.argmax(gain))]]
        movable = []
        for i in range(part.start, part.stop) if part.stop - part.start <= 2 * SHOWN_PARTNERS else ():
            near = float(self.pairs.nearness[1, i])
            if self.pairs.compatible[1, i] > WEAK and near < 0.25 and not np.isnan(self.pairs.metres[i]):
                giver = self.group.givers[self.pairs.giver[i]]
                movable.append((giver, float(self.pairs.metres[i]), float(self.worth[i]) / near))
        return self.helper.fixes(tree, by_year, reach.half, waited_for, movable)


def standing_of(adequacy: float, settings: Settings) -> Standing:
    """The word for a chance, by the two limits in force."""
    if adequacy < settings.lacks_below:
        return "lacks"
    return "thin" if adequacy < settings.thin_below else "served"


def _fruits_alone(tree: Bearer, frost_loss: Mapping[str, float]) -> TreeReview:
    share = self_share(tree.genotype)
    alone = FULL if tree.genotype.system == "sets without pollen" else share
    why = (
        f"{tree.kind.name} sets fruit without pollen"
        if tree.genotype.system == "sets without pollen"
        else f"{tree.genotype.cultivar or tree.kind.name} sets fruit with its own pollen"
    )
    return TreeReview(
        plant=tree.label,
        kind=tree.kind.name,
        cultivar=tree.genotype.cultivar,
        needs="none",
        adequacy=alone.likely,
        low=alone.low,
        high=alone.high,
        standing="needs none",
        weakest="",
        reasons=(f"{why}.",),
        frost_loss_chance=frost_loss.get(tree.label),
        guessed=tree.kind.guessed,
    )


def _could_give(tree: Bearer, giver: Bearer) -> bool:
    return not (tree.genotype.system == "dioecious" and giver.genotype.sex == "female")
