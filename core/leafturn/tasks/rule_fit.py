"""Why a rule is not for a plant or a heap: each of its conditions that does not hold, by itself."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import lru_cache

from msgspec import structs

from leafturn.garden.model import Heap, Plant
from leafturn.tasks.conditions import fits, garden_fits, plan_allows
from leafturn.tasks.cutting import is_cut_so
from leafturn.tasks.rule_model import Applies, Rule
from leafturn.tasks.season_model import SeasonModel

# Conditions that are asked with another, or of nights to come and not of a plant.
TOGETHER = ("subject", "stages", "answered_by", "frost_within_days", "frost_chance_over")


def misses(rule: Rule, plant: Plant, season: SeasonModel) -> Iterator[str]:
    """Sentences on what keeps a rule from a plant, the plainest first; none where it is for it.

    Parameters
    ----------
    rule : Rule
        One for plants.
    """
    applies = rule.applies
    if plant.state == "gone":
        yield "it is gone"
        return
    if not season.here.is_planted(plant):
        yield f"it is planted in {plant.year}"
        return
    if not plan_allows(applies, plant):
        yield f'its plan is "{plant.plan}", and the rule does not name that among its plans'
    if plant.state == "dead standing" and "dead standing" not in applies.states:
        yield "it is dead, and the rule does not ask for dead ones"
    free = structs.replace(
        plant, plan="keep", state="well" if plant.state == "dead standing" else plant.state
    )
    for name, given, by_itself in _one_by_one(applies):
        asked = plant if name in ("plans", "states") else free
        if not fits(by_itself, asked, season):
            yield f"{_written(name, given)} does not hold{_but(name, plant, season)}"
    if rule.cut is not None and not is_cut_so(rule.cut, plant, season):
        yield f'the way it is pruned here has no "{rule.cut}"'


def misses_heap(rule: Rule, heap: Heap, season: SeasonModel) -> Iterator[str]:
    """The same for a heap and a rule for heaps."""
    for name, given, by_itself in _one_by_one(rule.applies):
        if not garden_fits(by_itself, season):
            yield f"{_written(name, given)} does not hold"
    stages = rule.applies.stages
    if stages and heap.stage not in stages:
        yield f"{_written('stages', stages)} does not hold: it is {heap.stage}"


@lru_cache(maxsize=512)
def _one_by_one(applies: Applies) -> tuple[tuple[str, object, Applies], ...]:
    """Each condition of a rule with its name and with a rule that asks for it alone."""
    return tuple(
        (name, getattr(applies, name), Applies(**{n: getattr(applies, n) for n in (name, *_with(name))}))
        for name in applies.given
        if name not in TOGETHER
    )


def _with(name: str) -> tuple[str, ...]:
    return ("answered_by",) if name == "answered" else ()


def _written(name: str, given: object) -> str:
    """A condition as the file writes it, without brackets: 'habits = climber, shrub'."""
    if isinstance(given, tuple):
        return f"{name} = {', '.join(f'{one:g}' if isinstance(one, float) else str(one) for one in given)}"
    return f"{name} = {str(given).lower() if isinstance(given, bool) else f'{given:g}'}"


def _but(name: str, plant: Plant, season: SeasonModel) -> str:
    """What the plant is instead, where that is one word; empty otherwise."""
    wording = _IS.get(name)
    said = wording(plant, season) if wording is not None else ""
    return f": it is {said}" if said else ""


def _age(plant: Plant, season: SeasonModel) -> str:
    age = plant.age(season.axis.year)
    return "of unknown age" if age is None else f"{age:.0f} years old"


_IS: dict[str, Callable[[Plant, SeasonModel], str]] = {
    "kinds": lambda plant, season: season.kind(plant).name,
    "habits": lambda plant, season: f"a {season.kind(plant).habit}",
    "layers": lambda plant, season: f"of the layer {season.kind(plant).layer}",
    "states": lambda plant, season: plant.state,
    "plans": lambda plant, season: f'planned as "{plant.plan}"' if plant.plan else "without a plan",
    "sexes": lambda plant, season: season.day.specimen(plant).sex or "of unknown sex",
    "younger_than": _age,
    "older_than": _age,
}
