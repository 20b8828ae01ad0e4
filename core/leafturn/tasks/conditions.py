"""Whether the conditions of a rule hold for a plant: its kind, itself, and its season."""

from __future__ import annotations

from collections.abc import Sequence

from leafturn.garden.model import UNSETTLED, Plant
from leafturn.garden.reading.planted import is_planted
from leafturn.hazards.bark import guard_stage
from leafturn.journal.entries import DamageNote
from leafturn.journal.questions import of_plant
from leafturn.kinds.model import Kind
from leafturn.kinds.spreading import is_cut_out
from leafturn.kinds.wild import flora_of
from leafturn.partners.bloom_overlap.flowering_age import OLD_ENOUGH
from leafturn.partners.genetics.genotype import genotype_of
from leafturn.season.winter_cold import is_harmed_in_winter
from leafturn.soil.water.root_zones import ESTABLISHED_YEARS, settled_years
from leafturn.tasks.cutting import is_cut_so
from leafturn.tasks.rule_model import Applies, Rule
from leafturn.tasks.season_model import SeasonModel

DWARFING_SHARE = 0.5  # guess: a stock that keeps a tree under half its height does not hold it up either


def is_for(rule: Rule, plant: Plant, season: SeasonModel) -> bool:
    """Whether a rule is for a plant: its conditions, and the way the plant's kind is cut."""
    return kind_fits(rule.applies, season.kind(plant), season) and is_for_itself(rule, plant, season)


def is_for_itself(rule: Rule, plant: Plant, season: SeasonModel) -> bool:
    """The same of a plant whose kind is one that the rule is for."""
    cut_so = rule.cut is None or is_cut_so(rule.cut, plant, season)
    return cut_so and _fits_itself(rule.applies, plant, season)


def fits(applies: Applies, plant: Plant, season: SeasonModel) -> bool:
    """Whether every condition of a rule holds for a plant."""
    return kind_fits(applies, season.kind(plant), season) and _fits_itself(applies, plant, season)


def _fits_itself(applies: Applies, plant: Plant, season: SeasonModel) -> bool:
    """The same of a plant whose kind is one that the rule is for; what is dear to reckon is asked last."""
    return (
        _is_wanted(applies, plant)
        and _is_there(plant, season)
        and _plant_fits(applies, plant, season)
        and _season_fits(applies, plant, season)
    )


def _is_wanted(applies: Applies, plant: Plant) -> bool:
    """Whether its plan and its state let a plant be tended at all, and are those a rule is for."""
    if not plan_allows(applies, plant):
        return False
    if plant.state == "gone" or (plant.state == "dead standing" and "dead standing" not in applies.states):
        return False
    return (
        (not applies.sexes or plant.sex in applies.sexes)
        and (not applies.states or plant.state in applies.states)
        and (not applies.plans or plant.plan in applies.plans)
        and (applies.hosted is None or (plant.host is not None) == applies.hosted)
    )


def plan_allows(applies: Applies, plant: Plant) -> bool:
    """Whether a rule is for plants of such a plan: what is unsettled wants to be asked for."""
    return plant.plan not in UNSETTLED or plant.plan in applies.plans or applies.whatever_plan


def _is_there(plant: Plant, season: SeasonModel) -> bool:
    """Whether it is planted yet: a file may tell of plants to come, or be asked of an earlier day."""
    return is_planted(plant, season.axis.year, southern=season.axis.southern)


def kind_fits(applies: Applies, kind: Kind, season: SeasonModel) -> bool:
    """Whether a plant's kind is one that a rule is for, here."""
    traits = kind.traits.value if kind.traits else ()
    carrier = kind.pollination.carrier
    return (
        (not applies.kinds or kind.name in applies.kinds)
        and (not applies.traits or any(t in applies.traits for t in traits))
        and not any(t in applies.without_traits for t in traits)
        and (applies.evergreen is None or kind.evergreen == applies.evergreen)
        and (not applies.habits or kind.habit in applies.habits)
        and (not applies.layers or kind.layer in applies.layers)
        and (
            not applies.parts or (kind.harvest.part is not None and kind.harvest.part.value in applies.parts)
        )
        and (not applies.carriers or (carrier is not None and carrier.value in applies.carriers))
        and (not applies.regions or season.world_part in applies.regions)
        and (not applies.floras or flora_of(season.day.garden.place) in applies.floras)
        and (applies.cut_out is None or is_cut_out(kind, season.day.garden.place) == applies.cut_out)
    )


def _plant_fits(applies: Applies, plant: Plant, season: SeasonModel) -> bool:
    """Whether a plant's age, height, host and burden are those a rule is for."""
    age = plant.age(season.axis.year)
    host = season.day.garden.plant(plant.host) if plant.host and applies.host_states else None
    return (
        (applies.younger_than is None or (age is not None and age < applies.younger_than))
        and (applies.older_than is None or age is None or age >= applies.older_than)
        and (applies.lower_than_m is None or _is_lower(plant, season, applies.lower_than_m))
        and (not applies.host_states or (host is not None and host.state in applies.host_states))
        and (not applies.guard or guard_stage(plant, season.day) in applies.guard)
        and (applies.established is None or _is_established(plant, season) == applies.established)
        and (applies.hosts_climber is None or _carries_climber(plant, season) == applies.hosts_climber)
        and (applies.years_here is None or _stands_for(plant, season, *applies.years_here))
        and (applies.self_sown is None or plant.came_by_itself == applies.self_sown)
        and (applies.sex_told is None or _is_of_told_sex(plant, season) == applies.sex_told)
        and (applies.dwarfing is None or _is_dwarfed(plant, season) == applies.dwarfing)
        and (not applies.damaged_by or _is_damaged(plant, season, applies.damaged_by))
    )


def _season_fits(applies: Applies, plant: Plant, season: SeasonModel) -> bool:
    """Whether flowers, fruit, partners and answers of this season are those a rule is for."""
    return (
        (applies.frost_comes is None or season.frost_comes == applies.frost_comes)
        and (applies.cold_harms is None or _is_harmed(plant, season) == applies.cold_harms)
        and (applies.flowering is None or _flowers(plant, season) == applies.flowering)
        and (applies.picked is None or _is_picked(plant, season) == applies.picked)
        and (applies.sets is None or (plant.id not in season.without_fruit) == applies.sets)
        and _answer_fits(applies, plant, season)
        and _partners_fit(applies, plant, season)
    )


def _is_of_told_sex(plant: Plant, season: SeasonModel) -> bool:
    return not genotype_of(season.day.specimen(plant)).sex_unknown


def _is_harmed(plant: Plant, season: SeasonModel) -> bool:
    return is_harmed_in_winter(season.kind(plant), season.coldest_month)


def _is_lower(plant: Plant, season: SeasonModel, metres: float) -> bool:
    height = season.height(plant)
    return height is not None and height < metres


def _is_established(plant: Plant, season: SeasonModel) -> bool:
    """Whether a plant's roots have long left their hole, by the years since it was planted or moved."""
    years_established = settled_years(plant, season.day.entries, season.axis)
    return years_established is None or years_established >= ESTABLISHED_YEARS


def _is_picked(plant: Plant, season: SeasonModel) -> bool:
    forecast = season.forecasts.get(plant.id)
    old_enough = season.flowering.get(plant.id, 1.0) >= OLD_ENOUGH
    is_food = season.day.kind(plant).harvest.is_food
    return is_food and forecast is not None and forecast.ripe is not None and old_enough


def _flowers(plant: Plant, season: SeasonModel) -> bool:
    return plant.id in season.forecasts and season.flowering.get(plant.id, 1.0) >= OLD_ENOUGH


def _carries_climber(plant: Plant, season: SeasonModel) -> bool:
    return any(other.host == plant.id and _is_there(other, season) for other in season.day.garden.plants)


def _stands_for(plant: Plant, season: SeasonModel, least: float, under: float) -> bool:
    """Whether it was planted or moved where it stands so many years ago; false where that is not known."""
    years = settled_years(plant, season.day.entries, season.axis)
    return years is not None and least <= years < under


def _is_dwarfed(plant: Plant, season: SeasonModel) -> bool:
    stock = season.day.specimen(plant).rootstock
    share = stock.height_share if stock is not None else None
    return share is not None and share.value < DWARFING_SHARE


def _is_damaged(plant: Plant, season: SeasonModel, words: Sequence[str]) -> bool:
    """Whether a note of damage, of this season or the one before, names one of the words as its cause."""
    return any(
        season.axis.before.first <= note.on
        and any(word in (note.cause or note.text or "").lower() for word in words)
        for note in of_plant(season.day.entries, DamageNote, plant.id)
    )


def _partners_fit(applies: Applies, plant: Plant, season: SeasonModel) -> bool:
    if not applies.partners:
        return True
    return season.standings.get(plant.id) in applies.partners


def _answer_fits(applies: Applies, plant: Plant, season: SeasonModel) -> bool:
    """Whether what was answered about a tree's partner is what a rule asks for."""
    answer = season.answers.get(plant.id)
    if not applies.answered:
        return answer is None or answer.way not in applies.without_answers
    if answer is None or answer.way not in applies.answered:
        return False
    if applies.answered_by is None:
        return True
    axis = season.axis
    last, this = (one.date(one.month_day(applies.answered_by)) for one in (axis.before, axis))
    return last < answer.since <= this
