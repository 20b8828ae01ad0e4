"""What a tree sets with its own pollen, and whether it is asked about at all."""

from __future__ import annotations

from leafturn.base.tunables import Numbers
from leafturn.kinds.fact import value_of
from leafturn.partners.chance.shares import Share
from leafturn.partners.genetics.compatibility import self_fertile_by_alleles
from leafturn.partners.genetics.genotype import Genotype

BOTH_SEXES = Share(0.2, 0.5, 0.9)  # guess: own pollen of a plant of a two-sexed kind that bears both
PARTLY_SELF_FERTILE = 0.4  # guess, where the library gives no share for the kind or cultivar


def self_share(tree: Genotype) -> Share:
    """Share of a full set that a tree's own pollen gives, from the library or by its way of flowering.

    A guessed share may be half as much, or half as much again.
    """
    stated = tree.self_share
    if stated is None and tree.system == "dioecious" and tree.sex == "both":
        return BOTH_SEXES
    if stated is not None and stated.sure != "guess":
        return Share.exactly(stated.value)
    if stated is None and (tree.system == "self-fertile" or self_fertile_by_alleles(tree)):
        return Share.exactly(1.0)
    guess = value_of(stated, PARTLY_SELF_FERTILE if tree.system == "partly self-fertile" else 0.0)
    return Share(guess / 2, guess, min(guess * 1.5, 1.0))


def needs_none(tree: Genotype, numbers: Numbers) -> bool:
    """Whether a tree fruits without any other."""
    return sets_without_pollen(tree) or self_share(tree).likely >= numbers["partner_enough_alone"]


def sets_without_pollen(tree: Genotype) -> bool:
    """Whether a tree fruits without any pollen: its kind does, and nothing else is known of its cultivar."""
    return tree.system == "sets without pollen" and not tree.own_self_share


def is_asked(tree: Genotype) -> bool:
    """Whether the review has anything to say about a tree: fruit is wanted and it can bear some."""
    if tree.system == "fruit not wanted" or (tree.system == "dioecious" and tree.sex == "male"):
        return False
    return tree.system is not None or tree.kind.harvest.part is not None
