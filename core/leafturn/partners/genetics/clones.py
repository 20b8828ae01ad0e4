"""Plants that share a partner's name but cannot cross, such as two species of plum or of kiwi."""

from __future__ import annotations

import numpy as np

from leafturn.base.arrays import median
from leafturn.partners.chance.pollen_plants import CrossGroups, PollenPlant
from leafturn.partners.genetics.compatibility import stranger_words


def kin_clue(tree: PollenPlant, cross_groups: CrossGroups) -> str:
    """A clause on the nearest plant of the same genus and common name that does not cross, or nothing.

    Parameters
    ----------
    tree : PollenPlant
    cross_groups : CrossGroups

    Returns
    -------
    str
        For example "old-plum is a european plum, which does not cross with myrobalan
        plum, and flowers 18 days later".
    """
    alike = [
        donor
        for group in cross_groups.by_name.values()
        if group.name != tree.genotype.cross_group
        for donor in group.donors
        if donor.plant is not None and not donor.branch and not donor.fellows and _looks_alike(tree, donor)
    ]
    if not alike:
        return ""
    nearest = min(alike, key=lambda donor: _metres(tree, donor))
    stranger = stranger_words(tree.genotype, nearest.genotype)
    return f"{nearest.label} {stranger}{_days_apart(tree, nearest)}"


def _looks_alike(tree: PollenPlant, donor: PollenPlant) -> bool:
    genus = [b.kind.botanical.split()[:1] for b in (tree, donor)]
    name = [b.kind.name.split()[-1:] for b in (tree, donor)]
    return genus[0] == genus[1] and name[0] == name[1]


def _metres(tree: PollenPlant, donor: PollenPlant) -> float:
    if tree.point is None or donor.point is None:
        return float("inf")
    return tree.point.metres_to(donor.point)


def _days_apart(tree: PollenPlant, donor: PollenPlant) -> str:
    if tree.bloom is None or donor.bloom is None:
        return ""
    days = median(donor.bloom[0]) - median(tree.bloom[0])
    if not np.isfinite(days) or abs(days) < 3:
        return ""
    return f", and flowers {abs(days):.0f} days {'later' if days > 0 else 'earlier'}"
