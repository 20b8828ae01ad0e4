"""What holds a partner back and what a tree lacks, in plain sentences built from the values."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Sequence

import numpy as np

from leafturn.base import day_words, prose
from leafturn.base.arrays import median
from leafturn.partners.bloom_overlap.flowering_age import FirstFlowers, first_flowers
from leafturn.partners.chance.pair_chances import Link
from leafturn.partners.chance.pollen_plants import PollenPlant
from leafturn.partners.genetics.compatibility import Verdict
from leafturn.partners.genetics.self_fertility import self_share
from leafturn.partners.model import Partner
from leafturn.partners.weak_points import WEAK, Reach, weak_points
from leafturn.partners.words import a, metres_words
from leafturn.season.axis import SeasonAxis

SHOWN_PARTNERS = 6  # of one tree; the others add little to what is read
SURELY_FLOWERS = 0.9  # guess: from this chance on nothing is said of its being young


def name_of(donor: PollenPlant, recipient: PollenPlant) -> str:
    """How a donor is called when a recipient is spoken of."""
    if donor.fellows:
        return "another planted with it"
    if donor.branch:
        whose = "its own" if donor.plant is recipient.plant else f"{donor.label}'s"
        return f"{whose} {donor.genotype.cultivar} branch"
    return donor.label


def partner_of(
    link: Link, verdict: Verdict, recipient: PollenPlant, donor: PollenPlant, reach: Reach, adds: float
) -> Partner:
    """A pair as a frozen value with its reasons; `adds` is what the tree's chance owes it."""
    name = name_of(donor, recipient)
    points = weak_points(link, verdict, recipient, donor, reach)
    return Partner(
        plant=donor.label,
        chance=link.chance,
        low=link.low,
        high=link.high,
        compatible=link.compatible,
        flowering=link.flowering,
        overlap=link.overlap,
        nearness=link.nearness,
        pollen=link.pollen,
        days_overlap=link.days,
        metres=None if math.isnan(link.metres) else link.metres,
        adds=adds,
        reasons=tuple(f"{name} {p.said}{p.more}." for p in points),
    )


def served_words(link: Link, recipient: PollenPlant, donor: PollenPlant) -> str:
    """What the strongest partner of a served tree does, as a sentence."""
    named = donor.genotype.cultivar if not donor.branch else None
    who = f"{name_of(donor, recipient)}{f' ({named})' if named else ''}"
    measured = not math.isnan(link.metres) and link.metres > 0
    where = f", {metres_words(link.metres)} away," if measured else ""
    if recipient.bloom is None or donor.bloom is None or link.overlap <= 0:
        return f"{who}{where} gives most: enough {prose.in_ten(link.chance, 'spring')}."
    days = f"{link.days:.0f} of the {link.of_days:.0f} days that count"
    return f"{who}{where} gives most: pollen on {days}, enough {prose.in_ten(link.chance, 'spring')}."


def need_words(tree: PollenPlant) -> str:
    """What a tree needs, in a few words."""
    genotype, kind = tree.genotype, tree.kind.name
    if genotype.system == "dioecious":
        return f"a male {kind}"
    if genotype.system == "dichogamous":
        if genotype.flower_order in ("female first", "male first"):
            return f"{a(_other_order(genotype.flower_order))} {kind}"
        return f"{a(kind)} of the other flower order"
    other = "cultivar" if genotype.likeness == "named" else "clone"
    if genotype.system == "partly self-fertile":
        return f"better with {a(kind)} of another {other}"
    return f"{a(kind)} of another {other}"


def self_words(tree: PollenPlant) -> str:
    """What own pollen does for a tree, as a clause; empty if nothing."""
    self_set = self_share(tree.genotype).likely
    if self_set <= 0:
        return ""
    return f"{tree.label} alone sets about {self_set * 100:.0f} % of a full crop"


def carried_words(tree: PollenPlant) -> str:
    """That only one carrier brings pollen to a tree, as a sentence, or nothing to say."""
    only = tree.genotype.carried_only_by
    return f"Pollen reaches {tree.label} only by {only}." if only else ""


def own_unknowns(tree: PollenPlant) -> list[str]:
    """What is not known or not settled about the tree itself."""
    unknowns: list[str] = []
    plant, genotype = tree.plant, tree.genotype
    if plant is None:
        return unknowns
    if tree.kind.guessed:
        unknowns.append(f"{tree.kind.name} is not in the plant library: its needs are guessed.")
    if genotype.likeness == "unknown" and genotype.system != "dioecious":
        unknowns.append(f"The cultivar of {tree.label} is not noted, so a clone cannot be ruled out.")
    if genotype.of_kind is not None:
        kinds = f"{genotype.of_kind}, not of {tree.kind.name}"
        unknowns.append(f"{genotype.cultivar} is a cultivar of {kinds}: which of the two is {tree.label}?")
    elif not genotype.in_library:
        unknowns.append(
            f"{genotype.cultivar} is not in the plant library, so who serves it is not known: "
            "is it a sport of another cultivar, or are its S-alleles known?"
        )
    if genotype.system == "dichogamous" and genotype.flower_order is None:
        unknowns.append(f"Whether {tree.label} opens female or male flowers first is not noted.")
    if plant.point is None:
        unknowns.append(f"The place of {tree.label} is not given, so distances are not known.")
    return unknowns


def sex_words(tree: PollenPlant, axis: SeasonAxis, on: dt.date) -> list[str]:
    """That a plant's sex is not noted, and when from a day on its flowers show it, in one clause."""
    if not tree.genotype.sex_unknown:
        return []
    look = f"The sex of {tree.label} is not noted: look at its flowers {_when_in_flower(tree, axis, on)}"
    return [f"{look}; a male bears nothing, and some plants bear alone"]


def _when_in_flower(tree: PollenPlant, axis: SeasonAxis, on: dt.date) -> str:
    first, end = (math.inf, math.inf) if tree.bloom is None else map(median, tree.bloom)
    if not math.isfinite(first):
        return "when they open"
    if axis.day(on) > end:
        return "when they open next year"
    return "now" if axis.day(on) >= first else f"about {day_words.day(axis.date(first))}"


def first_flowers_ahead(tree: PollenPlant) -> FirstFlowers | None:
    """The years in which a tree that may be too young first flowers; None where it is old enough."""
    if tree.plant is None or tree.age is None or float(tree.flowering[1, 0]) >= SURELY_FLOWERS:
        return None
    return first_flowers(tree.plant, tree.age)


def too_young_words(tree: PollenPlant, year: int) -> list[str]:
    """That a tree is itself unlikely to flower this year, in one clause; none where it is old enough."""
    plant, flowers = tree.plant, float(tree.flowering[1, 0])
    if plant is None or plant.year is None or flowers >= WEAK:
        return []
    years = first_flowers(plant, tree.age) if tree.age else None
    later = ""
    if years is not None and years.likely > year:
        later = f", likely from about {years.likely} ({years.early} to {years.late})"
    return [f"{tree.label} is itself unlikely to flower this year{later}"]


def nobody_near(tree: PollenPlant, others: Sequence[PollenPlant], radius: float) -> str:
    """That no partner stands within reach, naming the nearest where there is one farther off.

    Parameters
    ----------
    tree : PollenPlant
    others : sequence of PollenPlant
        All others that could cross with it, however far.
    radius : float [m]
        As far as partners are looked for.
    """
    kind, here = tree.kind.name, tree.point
    placed = [b for b in others if b.point is not None and here is not None]
    if placed and here is not None:
        nearest = min(placed, key=lambda b: here.metres_to(b.point) if b.point else np.inf)
        assert nearest.point is not None
        far = metres_words(here.metres_to(nearest.point))
        return f"no other {kind} within {metres_words(radius)}; the nearest, {nearest.label}, is {far} off"
    if tree.genotype.system == "dioecious":
        return f"no male {kind} stands here"
    return f"no second {kind} stands here"


def other_order_name(order: str) -> str:
    """The order of flowering that serves this one."""
    return _other_order(order)


def _other_order(order: str) -> str:
    return "male-first" if order == "female first" else "female-first"
