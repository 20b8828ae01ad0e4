"""What holds a partner back and what a tree lacks, in plain sentences built from the values."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from leafturn.base import day_words
from leafturn.partners.bloom_overlap.flowering_age import year_flowering
from leafturn.partners.chance.pair_chances import Link
from leafturn.partners.chance.pollen_plants import PollenPlant
from leafturn.partners.genetics.compatibility import Verdict, a
from leafturn.partners.genetics.self_fertility import self_share
from leafturn.partners.model import Partner
from leafturn.partners.words import joined, metres_words, one_in, years_words
from leafturn.season.axis import SeasonAxis

WEAK = 0.5  # a share under this is named as a reason
SHOWN_PARTNERS = 6


class WeakPoint(NamedTuple):
    """One share that holds a partner back.

    `phrase` is read after the donor's name; `short` does for it beside others; `more` adds the rule.
    """

    share: float
    phrase: str
    short: str = ""
    more: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reach:
    """What one review needs for its words: the season's year and the half distance [m] for this tree."""

    year: int
    half: float


def name_of(donor: PollenPlant, recipient: PollenPlant) -> str:
    """How a donor is called when a recipient is spoken of."""
    if donor.fellows:
        return "the others planted with it"
    if donor.branch:
        whose = "its own" if donor.plant is recipient.plant else f"{donor.label}'s"
        return f"{whose} {donor.genotype.cultivar} branch"
    return donor.label


def weak_points(
    link: Link,
    verdict: Verdict,
    recipient: PollenPlant,
    donor: PollenPlant,
    reach: Reach,
    below: float = WEAK,
) -> list[WeakPoint]:
    """What holds a pair back: its shares under `below`, weakest first."""
    found: list[WeakPoint] = []
    if verdict.refused and link.compatible < below:
        found.append(WeakPoint(link.compatible, verdict.refused))
    if link.compatible == 0:
        return found
    if verdict.unknown and link.compatible < below:
        found.append(WeakPoint(link.compatible, verdict.unknown))
    if verdict.poor and verdict.pollen.likely < below:
        found.append(WeakPoint(verdict.pollen.likely, verdict.poor))
    if link.surplus < below:
        found.append(_overtaxed(link.surplus, donor))
    if link.flowering < below:
        found.append(_too_young(link.flowering, donor, reach.year))
    if link.nearness < below:
        found.append(_too_far(link, recipient, reach.half))
    if link.overlap < below:
        found.append(_out_of_step(link, recipient, donor))
    found.sort(key=lambda point: point.share)
    return found


def predicate(points: Sequence[WeakPoint]) -> str:
    """The weak points in one breath: "flowers about 2030", "is 2 years old and 38 m off"."""
    if len(points) == 1:
        return points[0].phrase
    phrases = [point.short or point.phrase for point in points]
    heads = [phrases[0]]
    for phrase in phrases[1:]:
        alike = phrase.startswith("is ") and phrases[0].startswith("is ")
        heads.append(phrase.removeprefix("is ") if alike else phrase)
    return joined(heads)


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
        reasons=tuple(f"{name} {p.phrase}{p.more}." for p in points),
    )


def served_words(link: Link, recipient: PollenPlant, donor: PollenPlant) -> str:
    """What the strongest partner of a served tree does, as a sentence."""
    named = donor.genotype.cultivar if not donor.branch else None
    who = f"{name_of(donor, recipient)}{f' ({named})' if named else ''}"
    measured = not math.isnan(link.metres) and link.metres > 0
    where = f", {metres_words(link.metres)} away," if measured else ""
    if recipient.bloom is None or donor.bloom is None or link.overlap <= 0:
        return f"{who}{where} gives most: {one_in(link.chance)}."
    days = f"{link.days:.0f} of the {link.of_days:.0f} days that count"
    return f"{who}{where} gives most: pollen on {days}, {one_in(link.chance)}."


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
    """What own pollen does for a tree, as a sentence, or nothing to say."""
    self_set = self_share(tree.genotype).likely
    if self_set <= 0:
        return ""
    return f"{tree.label} alone sets about {self_set * 100:.0f} % of a full crop."


def own_unknowns(tree: PollenPlant, year: int) -> list[str]:
    """What is not known or not settled about the tree itself."""
    unknowns: list[str] = []
    plant, genotype = tree.plant, tree.genotype
    if plant is None:
        return unknowns
    if tree.kind.guessed:
        unknowns.append(f"{tree.kind.name} is not in the plant library: its needs are guessed.")
    if genotype.likeness == "unknown" and genotype.system != "dioecious":
        unknowns.append(f"The cultivar of {tree.label} is not noted, so a clone cannot be ruled out.")
    if not genotype.in_library:
        unknowns.append(
            f"{genotype.cultivar} is not in the plant library, so who serves it is not known: "
            "is it a sport of another cultivar, or are its S-alleles known?"
        )
    if genotype.system == "dichogamous" and genotype.flower_order is None:
        unknowns.append(f"Whether {tree.label} opens female or male flowers first is not noted.")
    if plant.point is None:
        unknowns.append(f"The place of {tree.label} is not given, so distances are not known.")
    return [*unknowns, *too_young_words(tree, year)]


def sex_unknown(tree: PollenPlant) -> bool:
    """Whether it is not known if a plant of a kind of two sexes can bear at all."""
    return tree.genotype.system == "dioecious" and tree.genotype.sex is None


def sex_words(tree: PollenPlant, axis: SeasonAxis) -> list[str]:
    """That a plant's sex is not noted, and when its flowers show it, in one sentence."""
    if not sex_unknown(tree):
        return []
    day = float(np.median(tree.bloom[0])) if tree.bloom is not None else math.inf
    when = f" about {day_words.day(axis.date(day))}" if math.isfinite(day) else " when they open"
    look = f"The sex of {tree.label} is not noted: look at its flowers{when}"
    return [f"{look}; a male bears nothing, and some plants bear alone."]


def too_young_words(tree: PollenPlant, year: int) -> list[str]:
    """That a tree is itself unlikely to flower this year, in one sentence; none where it is old enough."""
    plant, flowers = tree.plant, float(tree.flowering[1, 0])
    if plant is None or plant.year is None or flowers >= WEAK:
        return []
    when = year_flowering(plant, tree.age) if tree.age else None
    later = f", likely from about {when}" if when is not None and when > year else ""
    return [f"{tree.label} is itself unlikely to flower this year ({one_in(flowers)}){later}."]


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


def _overtaxed(share: float, donor: PollenPlant) -> WeakPoint:
    limit = donor.kind.pollination.females_per_male
    most = limit.value * donor.count if limit else 0.0
    females = most / share if share > 0 else np.inf
    phrase = f"is asked to serve about {females:.0f} females"
    return WeakPoint(share, phrase, more=f"; {most:.0f} is the most for {donor.count} of it")


def _too_young(flowering: float, donor: PollenPlant, year: int) -> WeakPoint:
    plant = donor.plant
    if plant is None or plant.year is None or donor.age is None:
        if plant is None:
            return WeakPoint(flowering, "is not known to flower")
        return WeakPoint(flowering, "has no planting year noted")
    when = year_flowering(plant, donor.age)
    if donor.to_come:
        blooms = f" and flowers about {when}" if when is not None else ""
        return WeakPoint(flowering, f"is to be planted in {plant.year}{blooms}")
    old = f"is {years_words(plant.age(year) or 0.0)} old"
    how = f", taken to be a {donor.age.raised}" if donor.age.assumed and not plant.cultivar else ""
    if donor.age.shaded >= 0.5:
        how += f", in shade that puts it off {donor.age.shaded:.0f} years"
    if when is not None and when > year:
        more = f": it is {old.removeprefix('is ')}{how}, and half of such plants flower by then"
        return WeakPoint(flowering, f"flowers about {when}", old, more)
    if flowering == 0:
        return WeakPoint(flowering, "was noted without flowers")
    odds = one_in(flowering)
    return WeakPoint(flowering, f"{old}: {odds} to flower this year", old, how)


def _too_far(link: Link, recipient: PollenPlant, half: float) -> WeakPoint:
    if np.isnan(link.metres):
        return WeakPoint(link.nearness, "is at a distance that is not known")
    more, said = (
        f": at {metres_words(half)} a partner counts half",
        recipient.kind.pollination.published_metres,
    )
    if said is not None:
        least, most = said.value
        span = metres_words(most) if least == most else f"{least:g} to {metres_words(most)}"
        more += f", and published pages say {span}"
    return WeakPoint(link.nearness, f"is {metres_words(link.metres)} off", more=more)


def _out_of_step(link: Link, recipient: PollenPlant, donor: PollenPlant) -> WeakPoint:
    overlap = link.overlap
    if recipient.bloom is None or donor.bloom is None:
        return WeakPoint(overlap, "has days of bloom that are not known")
    if (
        recipient.genotype.system == "dichogamous"
        and recipient.genotype.flower_order == donor.genotype.flower_order
    ):
        order = donor.genotype.flower_order
        if order is not None:
            return WeakPoint(overlap, f"is {order} too", more=": its pollen mostly misses the open stigmas")
    if overlap < 0.01:
        gap = float(np.median(donor.bloom[0]) - np.median(recipient.bloom[0]))
        if np.isfinite(gap):
            return WeakPoint(overlap, f"flowers {abs(gap):.0f} days {'later' if gap > 0 else 'earlier'}")
        return WeakPoint(overlap, "is not expected to flower this season")
    return WeakPoint(overlap, f"gives pollen on {link.days:.0f} of the {link.of_days:.0f} days that count")
