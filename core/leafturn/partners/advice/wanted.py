"""Which partner to look for, in words, with a few cultivars named where the library knows fitting ones."""

from __future__ import annotations

from leafturn.base.kept import kept
from leafturn.base.tunables import Numbers
from leafturn.kinds.library import Library
from leafturn.partners.advice.candidates import fitting_cultivars
from leafturn.partners.chance.pollen_plants import PollenPlant
from leafturn.partners.genetics.genotype import Genotype
from leafturn.partners.sentences import other_order_name
from leafturn.partners.words import a


class WantedWords:
    """Words for what to plant, graft or borrow; like trees are looked up once."""

    def __init__(self, library: Library, numbers: Numbers) -> None:
        self._library, self._numbers = library, numbers

    def partner(self, tree: PollenPlant) -> str:
        """The partner to look for, with a few cultivars named where the library knows fitting ones."""
        names = self._fitting(tree.genotype)
        such = f", such as {' or '.join(names)}," if names else ""
        kind = tree.kind.name
        if tree.genotype.system == "dioecious":
            return f"a male {kind}{such}"
        if dichogamous(tree) and tree.genotype.flower_order in ("female first", "male first"):
            return f"a {other_order_name(tree.genotype.flower_order)} {kind}{such}"
        return f"{a(kind) if names else f'another {kind}'}{such}"

    def scion(self, tree: PollenPlant) -> str:
        """What to graft: named cultivars where the library knows fitting ones."""
        if tree.genotype.system == "dioecious":
            return "a male branch"
        names = self._fitting(tree.genotype)
        return f"a branch of {' or '.join(names) if names else self.partner(tree)}"

    @kept
    def _fitting(self, tree: Genotype) -> tuple[str, ...]:
        return fitting_cultivars(tree, self._library, self._numbers)


def dichogamous(tree: PollenPlant) -> bool:
    """Whether a tree opens flowers of one sex before those of the other."""
    return tree.genotype.system == "dichogamous"
