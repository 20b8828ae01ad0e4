"""Which of the nights to come would take flowers: of one plant, and of all that a rule is laid on."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from leafturn.base import prose, quantities
from leafturn.base.explained_days import NightAhead
from leafturn.base.value import Value
from leafturn.tasks.conditions import fits
from leafturn.tasks.rule_model import Rule
from leafturn.tasks.season_model import SeasonModel
from leafturn.tasks.subjects import Subject
from leafturn.tasks.timing.nights_ahead import Threat

COVER_RULE = "cover-from-frost"


class Covering(Value):
    """What the rule of covering says in a garden.

    `plants` are the ids of those that it is laid on; `below_m` [m] the height from which it leaves plants
    alone, None where it says none or is no rule here; `reach_m` [m] how high hands must reach to each plant,
    None where it is not known.
    """

    plants: frozenset[str]
    below_m: float | None
    reach_m: Mapping[str, float | None]


def threats(subject: Subject, season: SeasonModel) -> Iterator[Threat]:
    """Of the plants of a subject that the nights to come call for its rule at, the soonest first."""
    applies = subject.applies
    if applies is not None and applies.frost_within_days is not None:
        days, least = applies.frost_within_days, applies.frost_chance_over
        found = (season.nights_ahead.threat(plant, days) for plant in subject.plants)
        near = [t for t in found if t is not None and (t.tonight or t.chance >= least)]
        yield from sorted(near, key=lambda t: t.days_ahead(least))


def under_threat(rule: Rule, subject: Subject, season: SeasonModel) -> bool:
    """Whether the nights to come call for a rule now; of rules that do not wait for cold, always."""
    return rule.applies.frost_within_days is None or any(threats(subject, season))


def frost_threat(subject: Subject, season: SeasonModel) -> tuple[int, str, NightAhead | None]:
    """In how many days a cold night calls, and what it would take.

    Returns
    -------
    days : int
        0 where the night after the day of asking likely takes a tenth of the flowers of a plant.
    said : str
        Empty where nothing is known of the plants or the nights.
    night : NightAhead or None
        The first night, None where nothing is known.
    """
    first = next(iter(threats(subject, season)), None)
    if first is None or subject.applies is None:
        return 0, "", None
    ahead = first.days_ahead(subject.applies.frost_chance_over)
    limit = first.limit
    night = NightAhead(likely_c=first.tonight_c, tenth_c=limit.tenth_c, part=limit.part)
    clause = (
        f"Tonight may fall to {_degrees(first.tonight_c)} here. "
        f"One {limit.part} in ten dies at {_degrees(limit.tenth_c)}."
    )
    if ahead == 0:
        return 0, clause, night
    odds = prose.of_ten(first.chance)
    return ahead, f"{clause} That a night within {first.nights} days takes so many: {odds}.", night


def _degrees(celsius: float) -> str:
    """Degrees to a tenth, without a tenth that is nought: "-3 C", "-2.2 C"."""
    return f"{quantities.bare_celsius(celsius).removesuffix('.0')} {quantities.celsius_unit()}"


def covering(rules: tuple[Rule, ...], season: SeasonModel) -> Covering:
    """Which plants are covered when a cold night comes, and up to what height."""
    plants = season.day.garden.plants
    reach = {plant.id: season.here.reach(plant) for plant in plants}
    applies = next((rule.applies for rule in rules if rule.id == COVER_RULE), None)
    if applies is None:
        return Covering(plants=frozenset(), below_m=None, reach_m=reach)
    covered = frozenset(p.id for p in plants if fits(applies, p, season))
    return Covering(plants=covered, below_m=applies.lower_than_m, reach_m=reach)
