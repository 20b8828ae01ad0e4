"""The chances of every tree of a garden's season to get enough pollen, before anything is said of them."""

from __future__ import annotations

from collections.abc import Collection, Iterator

import numpy as np

from leafturn.base.kept import kept
from leafturn.base.tunables import Numbers
from leafturn.partners.chance.cross_groups import cross_groups_of
from leafturn.partners.chance.group_chances import GroupChances
from leafturn.partners.circumstances import Circumstances
from leafturn.partners.flowering_season import FloweringSeason
from leafturn.partners.genetics.self_fertility import self_share
from leafturn.partners.model import PartnerStanding
from leafturn.season.garden_day import GardenDay

LOOK_AHEAD = 16  # years, this one included
LOOK_BACK = 15  # years of noted sets that are counted; an older garden was another one


class GardenChances:
    """The figures of all groups of plants that can cross, each group reckoned when it is first asked for.

    Parameters
    ----------
    day : GardenDay
        Of its numbers those that begin with "partner_" count.
    season : FloweringSeason
    """

    def __init__(self, day: GardenDay, season: FloweringSeason) -> None:
        sets = season.observed.sets
        past = sorted(
            {y for notes in sets.values() for y in notes if season.year - LOOK_BACK <= y < season.year}
        )
        years = np.array([*range(season.year, season.year + LOOK_AHEAD), *past], dtype=np.int64)
        self._day = day
        self._circumstances = Circumstances.of(day.garden, season, day.numbers)
        self.cross_groups = cross_groups_of(day, season, years, ahead=LOOK_AHEAD)

    def groups(self) -> Iterator[GroupChances]:
        """Those of every group in which a tree wants pollen."""
        for name, group in self.cross_groups.by_name.items():
            if group.recipients:
                yield self._group(name)

    @kept
    def _group(self, name: str) -> GroupChances:
        group, day = self.cross_groups.by_name[name], self._day
        return GroupChances(group, self.cross_groups, self._circumstances, day.numbers, day.library.crosses)

    def likely(self, trees: Collection[str] | None = None) -> dict[str, float]:
        """Likely chance that a tree flowers and gets enough pollen, by plant id.

        Parameters
        ----------
        trees : collection of plant ids, optional
            Those asked about, all if None. Those that need no pollen are not told of.
        """
        found = {}
        for name, group in self.cross_groups.by_name.items():
            for n, tree in enumerate(group.recipients):
                if trees is None or tree.label in trees:
                    found[tree.label] = self._group(name).posterior(n)[0][1]
        return found

    def alone(self) -> dict[str, float]:
        """Likely share of a full set that its own pollen gives a tree that wants more, by plant id.

        None of one that is too young to flower.
        """
        return {
            tree.label: self_share(tree.genotype).likely * float(tree.flowering[1, 0])
            for group in self.cross_groups.by_name.values()
            for tree in group.recipients
        }

    def standings(self, trees: Collection[str] | None = None) -> dict[str, PartnerStanding]:
        """How some trees are served, or all of them, by plant id; as of `likely`."""
        return {
            tree: partner_standing(chance, self._day.numbers) for tree, chance in self.likely(trees).items()
        }


def partner_standing(adequacy: float, numbers: Numbers) -> PartnerStanding:
    """The word for a chance, by the two limits in force."""
    if adequacy < numbers["partner_lacks_below"]:
        return "lacks"
    return "thin" if adequacy < numbers["partner_thin_below"] else "served"
