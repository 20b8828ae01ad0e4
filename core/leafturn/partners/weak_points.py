"""What holds a pair back: its weak shares, each with its phrase, weakest first."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from leafturn.base import prose
from leafturn.base.arrays import median
from leafturn.base.value import Value
from leafturn.partners.bloom_overlap.flowering_age import FirstFlowers, first_flowers
from leafturn.partners.chance.pair_chances import Link
from leafturn.partners.chance.pollen_plants import PollenPlant
from leafturn.partners.genetics.compatibility import Verdict
from leafturn.partners.words import IS, Predicate, in_one_breath, metres_words, years_words

WEAK = 0.5  # a share under this is named as a reason


class WeakPoint(NamedTuple):
    """One share that holds a partner back.

    `said` is read after the donor's name; `beside` does for it beside others; `more` adds the rule.
    """

    share: float
    said: Predicate
    beside: Predicate | None = None
    more: str = ""


class Weakest(NamedTuple):
    """The weakest link of a tree.

    `clauses` say it; `covers` are sentences that need no saying besides; `strongest` is the pair that serves
    a tree well, where that is what they say.
    """

    clauses: tuple[str, ...]
    covers: frozenset[str] = frozenset()
    strongest: int | None = None


class Reach(Value):
    """What one review needs for its words: the season's year and the half distance [m] for this tree."""

    year: int
    half: float


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


def weak_words(points: Sequence[WeakPoint]) -> str:
    """The weak points in one breath: "flowers about 2030", "is 2 years old and 38 m off"."""
    if len(points) == 1:
        return str(points[0].said)
    return in_one_breath([point.beside or point.said for point in points])


def weakest_of(clauses: Sequence[str], parts: Sequence[str] = ()) -> Weakest:
    """The weakest link in clauses; `parts` are what some of them say first."""
    return Weakest(tuple(clauses), frozenset(f"{clause}." for clause in (*clauses, *parts)))


def _overtaxed(share: float, donor: PollenPlant) -> WeakPoint:
    limit = donor.kind.pollination.females_per_male
    most = limit.value * donor.count if limit else 0.0
    females = most / share if share > 0 else np.inf
    said = Predicate(IS, f"asked to serve about {females:.0f} females")
    return WeakPoint(share, said, more=f"; {most:.0f} is the most for {donor.count} of it")


def _too_young(flowering: float, donor: PollenPlant, year: int) -> WeakPoint:
    plant = donor.plant
    if plant is None:
        return WeakPoint(flowering, Predicate(IS, "not known to flower"))
    years = first_flowers(plant, donor.age) if donor.age else None
    if plant.year is None or donor.age is None or years is None:
        return WeakPoint(flowering, Predicate("has", "no planting year noted"))
    if donor.to_come:
        when = f"flowers about {years.likely}{_range(years)}"
        return WeakPoint(flowering, Predicate(IS, f"to be planted in {plant.year} and {when}"))
    old = Predicate(IS, f"{years_words(plant.age(year) or 0.0)} old")
    how = f", taken to be a {donor.age.raised}" if donor.age.assumed and not plant.cultivar else ""
    if donor.age.shaded >= 0.5:
        how += f", in shade that puts it off {donor.age.shaded:.0f} years"
    if years.likely > year:
        more = f"{_range(years)}: it {old}{how}, and half of such plants flower by then"
        return WeakPoint(flowering, Predicate("flowers", f"about {years.likely}"), old, more)
    if flowering == 0:
        return WeakPoint(flowering, Predicate("was", "noted without flowers"))
    chance = Predicate(IS, f"{old.rest}: it flowers this year {prose.in_ten(flowering, 'such plant')}")
    return WeakPoint(flowering, chance, old, how)


def _range(years: FirstFlowers) -> str:
    """The years by which one in ten and nine in ten of such plants flower."""
    return f" ({years.early} to {years.late})"


def _too_far(link: Link, recipient: PollenPlant, half: float) -> WeakPoint:
    if np.isnan(link.metres):
        return WeakPoint(link.nearness, Predicate(IS, "at a distance that is not known"))
    more, said = (
        f": at {metres_words(half)} a partner counts half",
        recipient.kind.pollination.published_metres,
    )
    if said is not None:
        least, most = said.value
        span = metres_words(most) if least == most else f"{least:g} to {metres_words(most)}"
        more += f", and published pages say {span}"
    return WeakPoint(link.nearness, Predicate(IS, f"{metres_words(link.metres)} off"), more=more)


def _out_of_step(link: Link, recipient: PollenPlant, donor: PollenPlant) -> WeakPoint:
    overlap = link.overlap
    if recipient.bloom is None or donor.bloom is None:
        return WeakPoint(overlap, Predicate("has", "days of bloom that are not known"))
    if (
        recipient.genotype.system == "dichogamous"
        and recipient.genotype.flower_order == donor.genotype.flower_order
    ):
        order = donor.genotype.flower_order
        if order is not None:
            more = ": its pollen mostly misses the open stigmas"
            return WeakPoint(overlap, Predicate(IS, f"{order} too"), more=more)
    if overlap < 0.01:
        gap = median(donor.bloom[0]) - median(recipient.bloom[0])
        if np.isfinite(gap):
            days = f"{abs(gap):.0f} days {'later' if gap > 0 else 'earlier'}"
            return WeakPoint(overlap, Predicate("flowers", days))
        return WeakPoint(overlap, Predicate(IS, "not expected to flower this season"))
    days = f"pollen on {link.days:.0f} of the {link.of_days:.0f} days that count"
    return WeakPoint(overlap, Predicate("gives", days))
