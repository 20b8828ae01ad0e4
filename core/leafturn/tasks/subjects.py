"""Subjects of a rule: one plant, one heap, or several plants tended together."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from leafturn.base.value import Value
from leafturn.garden.model import UNSETTLED, Heap, Plant, Point
from leafturn.garden.reading.planted import is_planted
from leafturn.hazards.bark import guard_stage
from leafturn.journal.entries import DamageNote
from leafturn.journal.job_id import subject_id
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


class Subject(Value, eq=False):
    """What one job is done to.

    `id` goes into the job's id, `name` into sentences; `plants` is empty for a heap. `applies` is what the
    rule that chose it asks for.
    """

    id: str
    name: str
    plants: tuple[Plant, ...] = ()
    kind: Kind | None = None
    heap: Heap | None = None
    point: Point | None = None
    words: str | None = None
    applies: Applies | None = None


SEVERAL = {"tree": "trees", "shrub": "bushes"}
DWARFING_SHARE = 0.5  # guess: a stock that keeps a tree under half its height does not hold it up either


def subjects_of(rule: Rule, season: SeasonModel) -> Iterator[Subject]:
    """Everything in the garden that a rule is for, in the order of the garden file."""
    if rule.applies.subject == "heap":
        for heap in season.day.garden.heaps:
            if not rule.applies.stages or heap.stage in rule.applies.stages:
                yield Subject(
                    id=heap.id, name=heap.name or heap.id, heap=heap, point=heap.point, words=heap.words,
                    applies=rule.applies,
                )  # fmt: skip
        return
    groups: dict[str, list[Plant]] = {}
    kinds = {name for name in season.kinds if _kind_fits(rule.applies, season.kinds[name], season)}
    for plant in season.day.garden.plants:
        if plant.kind in kinds and _is_for_itself(rule, plant, season):
            groups.setdefault(_group(rule, plant, season), []).append(plant)
    for group, plants in groups.items():
        yield _subject(rule, group, plants, season)


def is_for(rule: Rule, plant: Plant, season: SeasonModel) -> bool:
    """Whether a rule is for a plant: its conditions, and the way the plant's kind is cut."""
    return _kind_fits(rule.applies, season.kind(plant), season) and _is_for_itself(rule, plant, season)


def _is_for_itself(rule: Rule, plant: Plant, season: SeasonModel) -> bool:
    """The same of a plant whose kind is one that the rule is for."""
    cut_so = rule.cut is None or is_cut_so(rule.cut, plant, season)
    return cut_so and _fits_itself(rule.applies, plant, season)


def fits(applies: Applies, plant: Plant, season: SeasonModel) -> bool:
    """Whether every condition of a rule holds for a plant."""
    return _kind_fits(applies, season.kind(plant), season) and _fits_itself(applies, plant, season)


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


def _kind_fits(applies: Applies, kind: Kind, season: SeasonModel) -> bool:
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
        and (applies.established is None or is_established(plant, season) == applies.established)
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


def is_established(plant: Plant, season: SeasonModel) -> bool:
    """Whether a plant's roots have long left their hole, by the years since it was planted or moved."""
    years_established = settled_years(plant, season.day.entries, season.axis)
    return years_established is None or years_established >= ESTABLISHED_YEARS


def _group(rule: Rule, plant: Plant, season: SeasonModel) -> str:
    match rule.together:
        case "guild":
            return f"{plant.guild} guild" if plant.guild else plant.id
        case "kind":
            return season.kind(plant).name
        case "garden":
            return season.day.garden.place.name or "garden"
        case _:
            return plant.id


def names_of(plants: Sequence[Plant]) -> str:
    """Several plants in a few words: "comice-1, comice-2", or "medlar, goumi and 3 more"."""
    names = [plant.name or plant.id for plant in plants]
    return ", ".join(names) if len(names) <= 3 else f"{names[0]}, {names[1]} and {len(names) - 2} more"


def called(plants: Sequence[Plant], season: SeasonModel) -> str:
    """The same, where they are many of one kind by that kind: "7 pear trees"."""
    kinds = {plant.kind for plant in plants}
    if len(plants) <= 3 or len(kinds) > 1:
        return names_of(plants)
    return f"{len(plants)} {several_of(season.kind(plants[0]))}"


def several_of(kind: Kind) -> str:
    """Several plants of a kind: "pear trees", "redcurrant bushes"."""
    return f"{kind.name} {SEVERAL.get(kind.habit, 'plants')}"


def subject_of(plant: Plant, season: SeasonModel) -> Subject:
    """One plant by itself."""
    return Subject(
        id=plant.id, name=names_of([plant]), plants=(plant,), kind=season.kind(plant), point=plant.point,
        words=plant.words,
    )  # fmt: skip


def _subject(rule: Rule, group: str, plants: list[Plant], season: SeasonModel) -> Subject:
    """One subject of one or several plants. Plants tended together go by their group even when one is left,
    so that a job keeps its id while plants join and leave."""
    points = [plant.point for plant in plants if plant.point is not None]
    alone = plants[0] if len(plants) == 1 else None
    guild = f"round the {plants[0].guild} guild" if rule.together == "guild" and not alone else None
    return Subject(
        id=subject_id(group),
        name=called(plants, season),
        plants=tuple(plants),
        kind=season.kind(plants[0]),
        point=_middle(points),
        words=alone.words if alone else guild,
        applies=rule.applies,
    )


def _middle(points: Sequence[Point]) -> Point | None:
    if len(points) < 2:
        return Point(*map(float, points[0])) if points else None
    return Point(*(float(m) for m in np.mean(points, axis=0)))


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
