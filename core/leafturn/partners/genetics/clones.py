"""Plants that pass for a partner by their name but cannot cross: the other plum, the other kiwi."""

from __future__ import annotations

import numpy as np

from leafturn.partners.chance.pollen_plants import Bearer, Census
from leafturn.partners.genetics.compatibility import stranger_words


def kin_clue(tree: Bearer, census: Census) -> str:
    """A clause on the nearest plant of the same genus and common name that does not cross, or nothing.

    Parameters
    ----------
    tree : Bearer
    census : Census

    Returns
    -------
    str
        For example "old-plum is a european plum, which does not cross with myrobalan
        plum, and flowers 18 days later".
    """
    alike = [
        giver
        for group in census.groups.values()
        if group.name != tree.genotype.cross_group
        for giver in group.givers
        if giver.plant is not None and not giver.branch and not giver.fellows and _looks_alike(tree, giver)
    ]
    if not alike:
        return ""
    nearest = min(alike, key=lambda giver: _metres(tree, giver))
    stranger = stranger_words(tree.genotype, nearest.genotype)
    return f"{nearest.label} {stranger}{_days_apart(tree, nearest)}"


def _looks_alike(tree: Bearer, giver: Bearer) -> bool:
    genus = [b.kind.botanical.split()[:1] for b in (tree, giver)]
    name = [b.kind.name.split()[-1:] for b in (tree, giver)]
    return genus[0] == genus[1] and name[0] == name[1]


def _metres(tree: Bearer, giver: Bearer) -> float:
    if tree.point is None or giver.point is None:
        return float("inf")
    return tree.point.metres_to(giver.point)


def _days_apart(tree: Bearer, giver: Bearer) -> str:
    if tree.bloom is None or giver.bloom is None:
        return ""
    days = float(np.median(giver.bloom[0]) - np.median(tree.bloom[0]))
    if not np.isfinite(days) or abs(days) < 3:
        return ""
    return f", and flowers {abs(days):.0f} days {'later' if days > 0 else 'earlier'}"
