"""Whether the conditions of a rule hold for a plant: its kind, itself, and its season."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any, TypeVar

from leafturn.garden.model import UNSETTLED, Plant
from leafturn.garden.regions import land
from leafturn.hazards.bark import guard_stage
from leafturn.journal.entries import DamageNote
from leafturn.journal.questions import of_plant
from leafturn.kinds.model import Fact, Kind
from leafturn.kinds.spreading import is_cut_out, is_unwelcome
from leafturn.kinds.wild import flora_of
from leafturn.partners.genetics.genotype import genotype_of
from leafturn.season.snow import usual_snow
from leafturn.season.winter_cold import WinterCold, coldest_nights, is_harmed_in_winter
from leafturn.soil.water.deficit import water_rests
from leafturn.soil.water.root_zones import ESTABLISHED_YEARS, is_followed, is_thirsty, settled_years
from leafturn.tasks.cutting import is_cut_so
from leafturn.tasks.rule_model import Applies, Rule
from leafturn.tasks.season_model import SeasonModel

T = TypeVar("T")
Asked = Callable[[Applies, T, SeasonModel], bool]

DWARFING_SHARE = 0.5  # guess: a stock that keeps a tree under half its height does not hold it up either


def plants_for(rule: Rule, season: SeasonModel) -> list[Plant]:
    """The plants of the garden that a rule is for, in the order of the garden file."""
    if not garden_fits(rule.applies, season):
        return []
    asked = _asked(rule.applies, _OF_KIND)
    kinds = frozenset(
        name
        for name, kind in season.here.kinds.items()
        if kind_fits(rule.applies, kind) and all(holds(rule.applies, kind, season) for holds in asked)
    )
    plants = [plant for plant in season.here.of_kinds(kinds) if _lets(rule.applies, plant)]
    if rule.cut is not None:
        plants = [plant for plant in plants if is_cut_so(rule.cut, plant, season)]
    for holds in _asked(rule.applies, _OF_PLANT):
        plants = [plant for plant in plants if holds(rule.applies, plant, season)]
    return plants


def is_for(rule: Rule, plant: Plant, season: SeasonModel) -> bool:
    """Whether a rule is for a plant: its conditions, and the way the plant's kind is cut."""
    return fits(rule.applies, plant, season) and (rule.cut is None or is_cut_so(rule.cut, plant, season))


def fits(applies: Applies, plant: Plant, season: SeasonModel) -> bool:
    """Whether every condition of a rule holds for a plant."""
    return (
        garden_fits(applies, season)
        and kind_fits(applies, season.kind(plant))
        and all(holds(applies, season.kind(plant), season) for holds in _asked(applies, _OF_KIND))
        and plant.state != "gone"
        and season.here.is_planted(plant)
        and _lets(applies, plant)
        and all(holds(applies, plant, season) for holds in _asked(applies, _OF_PLANT))
    )


def _lets(applies: Applies, plant: Plant) -> bool:
    """Whether its plan and its state let a plant be tended at all."""
    dead = plant.state == "dead standing"
    return plan_allows(applies, plant) and (not dead or "dead standing" in applies.states)


def plan_allows(applies: Applies, plant: Plant) -> bool:
    """Whether a rule is for plants of such a plan: what is unsettled wants to be asked for."""
    return plant.plan not in UNSETTLED or plant.plan in applies.plans or applies.whatever_plan


def garden_fits(applies: Applies, season: SeasonModel) -> bool:
    """Whether the garden is one that a rule is for, whatever stands in it: its frost, its climate."""
    frost = applies.frost_comes is None or season.frost_comes == applies.frost_comes
    rests = applies.water_rests is None or water_rests(season.day, season.weather) == applies.water_rests
    over, under = applies.coldest_month_over_c, applies.coldest_month_under_c
    mild = (over is None or season.coldest_month > over) and (under is None or season.coldest_month < under)
    place = season.day.garden.place
    here = not applies.not_in or land(place.lat, place.lon) not in applies.not_in
    climate = season.climate.issuperset(applies.climates)
    left_out = bool(applies.without_climates) and season.climate.issuperset(applies.without_climates)
    snow = applies.snow_over_mm is None or usual_snow(season.weather.usual) > applies.snow_over_mm
    return frost and rests and mild and here and climate and not left_out and snow


def _has_trait(traits: Sequence[str], kind: Kind) -> bool:
    return kind.traits is not None and any(trait in traits for trait in kind.traits.value)


def _is_one_of(words: Sequence[str], fact: Fact[Any] | None) -> bool:
    return fact is not None and fact.value in words


# Whether each condition that a kind meets by itself holds, by the name under which a rule gives it.
_OF_KIND_ALONE: Mapping[str, Callable[[Applies, Kind], bool]] = {
    "kinds": lambda applies, kind: kind.name in applies.kinds,
    "traits": lambda applies, kind: _has_trait(applies.traits, kind),
    "without_traits": lambda applies, kind: not _has_trait(applies.without_traits, kind),
    "evergreen": lambda applies, kind: kind.evergreen == applies.evergreen,
    "habits": lambda applies, kind: kind.habit in applies.habits,
    "layers": lambda applies, kind: kind.layer in applies.layers,
    "parts": lambda applies, kind: _is_one_of(applies.parts, kind.harvest.part),
    "carriers": lambda applies, kind: _is_one_of(applies.carriers, kind.pollination.carrier),
    "holds_by": lambda applies, kind: _is_one_of(applies.holds_by, kind.vine.holds_by),
    "roots_followed": lambda applies, kind: is_followed(kind) == applies.roots_followed,
}


def kind_fits(applies: Applies, kind: Kind) -> bool:
    """Whether every condition of a rule holds that a kind meets by itself, wherever it grows."""
    return all(holds(applies, kind) for name, holds in _OF_KIND_ALONE.items() if name in applies.given)


# The same of those that hang on the garden too.
_OF_KIND: Mapping[str, Asked[Kind]] = {
    "regions": lambda applies, kind, season: season.world_part in applies.regions,
    "floras": lambda applies, kind, season: flora_of(season.day.garden.place) in applies.floras,
    "cut_out": lambda applies, kind, season: is_cut_out(kind, season.day.garden.place) == applies.cut_out,
    "unwelcome": lambda applies, kind, season: (
        is_unwelcome(kind, season.day.garden.place) == applies.unwelcome
    ),
}


def _is_younger(applies: Applies, plant: Plant, season: SeasonModel) -> bool:
    age = plant.age(season.axis.year)
    return age is not None and applies.younger_than is not None and age < applies.younger_than


def _is_older(applies: Applies, plant: Plant, season: SeasonModel) -> bool:
    """Whether it is so old, as one of unknown age is taken to be."""
    age = plant.age(season.axis.year)
    return age is None or applies.older_than is None or age >= applies.older_than


def _is_lower(applies: Applies, plant: Plant, season: SeasonModel) -> bool:
    reach = season.here.reach(plant)
    return reach is not None and applies.lower_than_m is not None and reach < applies.lower_than_m


def _is_on_such(applies: Applies, plant: Plant, season: SeasonModel) -> bool:
    """Whether what it hangs on is in one of the states asked for."""
    host = season.day.garden.plant(plant.host) if plant.host else None
    return host is not None and host.state in applies.host_states


def _is_of_told_sex(plant: Plant, season: SeasonModel) -> bool:
    return not genotype_of(season.day.specimen(plant)).sex_unknown


def _is_harmed(plant: Plant, season: SeasonModel) -> bool:
    return is_harmed_in_winter(season.kind(plant), season.day.specimen(plant).own, season.coldest_month)


def _bears_winter(plant: Plant, season: SeasonModel) -> bool:
    """Whether its cultivar is known by itself to bear the coldest nights of the usual years."""
    own = season.day.specimen(plant).own
    if own.zone is None and own.killed_c is None:
        return False
    nights = coldest_nights(season.weather.usual, season.pocket_c)
    cold = WinterCold.of(season.kind(plant), own, nights)
    return cold is not None and cold.standing == "bears it"


def _is_established(plant: Plant, season: SeasonModel) -> bool:
    """Whether it is left to its roots: by its kind, the climate, and the years it has stood there."""
    if is_thirsty(season.kind(plant), season.climate):
        return False
    years_established = settled_years(plant, season.day.entries, season.axis)
    return years_established is None or years_established >= ESTABLISHED_YEARS


def _is_picked(plant: Plant, season: SeasonModel) -> bool:
    forecast = season.expected.get(plant.id)
    return season.day.kind(plant).harvest.is_food and forecast is not None and forecast.ripe is not None


def _flowers(plant: Plant, season: SeasonModel) -> bool:
    return plant.id in season.expected


def _stands_for(applies: Applies, plant: Plant, season: SeasonModel) -> bool:
    """Whether it was planted or moved where it stands so many years ago; false where that is not known."""
    years = settled_years(plant, season.day.entries, season.axis)
    if years is None or applies.years_here is None:
        return False
    least, under = applies.years_here
    return least <= years < under


def _is_dwarfed(plant: Plant, season: SeasonModel) -> bool:
    stock = season.day.specimen(plant).rootstock
    share = stock.height_share if stock is not None else None
    return share is not None and share.value < DWARFING_SHARE


def damage_of(plant: Plant, season: SeasonModel, words: Sequence[str]) -> Iterator[DamageNote]:
    """Notes of damage of this season and the one before that name one of the words as its cause."""
    for note in of_plant(season.day.entries, DamageNote, plant.id):
        said = (note.cause or note.text or "").lower()
        if season.axis.before.first <= note.on and any(word in said for word in words):
            yield note


def _is_answered(applies: Applies, plant: Plant, season: SeasonModel) -> bool:
    """Whether what was answered about a tree's partner is what a rule asks for."""
    answer = season.answers.get(plant.id)
    if answer is None or answer.way not in applies.answered:
        return False
    if applies.answered_by is None:
        return True
    axis = season.axis
    last, this = (one.date(one.month_day(applies.answered_by)) for one in (axis.before, axis))
    return last < answer.since <= this


def _is_not_answered(applies: Applies, plant: Plant, season: SeasonModel) -> bool:
    """Whether nothing was answered that a rule leaves out."""
    answer = season.answers.get(plant.id)
    return answer is None or answer.way not in applies.without_answers


# Whether each condition of a plant holds, by the name under which a rule gives it; what is dear comes last.
_OF_PLANT: Mapping[str, Asked[Plant]] = {
    "sexes": lambda applies, plant, season: season.day.specimen(plant).sex in applies.sexes,
    "states": lambda applies, plant, season: plant.state in applies.states,
    "plans": lambda applies, plant, season: plant.plan in applies.plans,
    "hosted": lambda applies, plant, season: (plant.host is not None) == applies.hosted,
    "younger_than": _is_younger,
    "older_than": _is_older,
    "lower_than_m": _is_lower,
    "host_states": _is_on_such,
    "guard": lambda applies, plant, season: guard_stage(plant, season.day) in applies.guard,
    "established": lambda applies, plant, season: _is_established(plant, season) == applies.established,
    "hosts_climber": lambda applies, plant, season: (
        (plant.id in season.here.climbed) == applies.hosts_climber
    ),
    "years_here": _stands_for,
    "self_sown": lambda applies, plant, season: plant.came_by_itself == applies.self_sown,
    "sex_told": lambda applies, plant, season: _is_of_told_sex(plant, season) == applies.sex_told,
    "dwarfing": lambda applies, plant, season: _is_dwarfed(plant, season) == applies.dwarfing,
    "damaged_by": lambda applies, plant, season: any(damage_of(plant, season, applies.damaged_by)),
    "cold_harms": lambda applies, plant, season: _is_harmed(plant, season) == applies.cold_harms,
    "cultivar_bears_winter": lambda applies, plant, season: (
        _bears_winter(plant, season) == applies.cultivar_bears_winter
    ),
    "answered": _is_answered,
    "without_answers": _is_not_answered,
    "flowering": lambda applies, plant, season: _flowers(plant, season) == applies.flowering,
    "picked": lambda applies, plant, season: _is_picked(plant, season) == applies.picked,
    "sets": lambda applies, plant, season: (plant.id not in season.without_fruit) == applies.sets,
    "partners": lambda applies, plant, season: season.standings.get(plant.id) in applies.partners,
}


def _asked(applies: Applies, conditions: Mapping[str, Asked[T]]) -> tuple[Asked[T], ...]:
    """Those conditions that a rule gives."""
    return tuple(holds for name, holds in conditions.items() if name in applies.given)
