"""Which partner to look for, in words, with a few cultivars named where the library knows fitting ones."""

from __future__ import annotations

from leafturn.base.tunables import Numbers
from leafturn.kinds.library import Library
from leafturn.partners.advice.candidates import fitting_cultivars
from leafturn.partners.chance.pollen_plants import PollenPlant
from leafturn.partners.sentences import other_order_name
from leafturn.partners.words import a


class WantedWords:
    """Words for what to plant, graft or borrow; like trees are looked up once."""

    def __init__(self, library: Library, numbers: Numbers) -> None:
        self._library, self._numbers = library, numbers
        self._fitting: dict[int, tuple[str, ...]] = {}

    def partner(self, tree: PollenPlant) -> str:
        """The partner to look for, with a few cultivars named where the library knows fitting ones."""
        names = self._names(tree)
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
        names = self._names(tree)
        return f"a branch of {' or '.join(names) if names else self.partner(tree)}"

    def _names(self, tree: PollenPlant) -> tuple[str, ...]:
        key = id(tree.genotype)
        if key not in self._fitting:
            self._fitting[key] = fitting_cultivars(tree.genotype, self._library, self._numbers)
        return self._fitting[key]


def dichogamous(tree: PollenPlant) -> bool:
    """Whether a tree opens flowers of one sex before those of the other."""
    return tree.genotype.system == "dichogamous"
