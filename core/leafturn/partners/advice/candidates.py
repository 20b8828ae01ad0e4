"""Which cultivars of the library would serve a tree."""

from __future__ import annotations

from leafturn.base.tunables import Numbers
from leafturn.kinds.library import Library
from leafturn.kinds.model import Kind
from leafturn.partners.genetics.compatibility import judge
from leafturn.partners.genetics.genotype import Genotype, cultivar_genotype

NAMED = 2  # cultivars named in one line


def fitting_cultivars(tree: Genotype, library: Library, numbers: Numbers) -> tuple[str, ...]:
    """Cultivars that would serve a tree: of its own kind first, then those nearest to it in earliness.

    Those that a published list gives it go first, those of which nothing but the pollen is known last.

    Other kinds of the same cross group serve too; theirs are named with the kind.
    """
    if tree.likeness == "unknown":
        return ()
    fitting = []
    for kind in _kinds_of_group(tree, library):
        other = kind.name != tree.kind.name
        for name in kind.cultivars:
            donor = cultivar_genotype(kind, name, library)
            verdict = judge(tree, donor, numbers)
            sure = verdict.compatible.likely * verdict.pollen.likely
            right_order = tree.system != "dichogamous" or tree.opposes(donor)
            right_sex = tree.system != "dioecious" or donor.sex in ("male", "both")
            if sure >= numbers["partner_unknown_alleles"] and right_order and right_sex:
                apart = abs(donor.bloom_offset_days - tree.bloom_offset_days)
                facts = kind.cultivars[name]
                bare = facts.harvest_offset_days is None and facts.bloom_offset_days is None
                unlisted = other or not verdict.listed
                said = f"{name} ({kind.name})" if other else name
                fitting.append((other, unlisted, bare, -sure, apart, said))
    return tuple(name for *_, name in sorted(fitting)[:NAMED])


def _kinds_of_group(tree: Genotype, library: Library) -> list[Kind]:
    """The tree's own kind, then others with its cross group."""
    group = tree.kind.pollination.cross_group
    others = [
        kind
        for kind in library.kinds.values()
        if kind.name != tree.kind.name
        and group is not None
        and kind.pollination.cross_group is not None
        and kind.pollination.cross_group.value == group.value
    ]
    return [tree.kind, *others]
