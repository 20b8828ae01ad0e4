"""Subjects of a rule: one plant, one heap, or several plants tended together."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import cached_property

import numpy as np

from leafturn.base import prose
from leafturn.base.closed_words import LASTING_WOOD
from leafturn.base.value import Value
from leafturn.garden.model import Heap, Plant, Point
from leafturn.journal.job_id import WHOLE_GARDEN, subject_id
from leafturn.kinds.model import Kind
from leafturn.tasks.conditions import garden_fits, plants_for
from leafturn.tasks.rule_model import Applies, Rule
from leafturn.tasks.season_model import SeasonModel

MOST_HEADS = 10  # guess: of more plants in one place each further one takes hardly any time
BED_PLANTS = 5  # guess: so many canes or herbs of a row or bed are the work of one bush


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

    @cached_property
    def ids(self) -> tuple[str, ...]:
        """Its own id and those of its plants."""
        return (self.id, *(plant.id for plant in self.plants))

    @property
    def guild(self) -> str:
        """The guild that all its plants belong to; empty where they share none."""
        guilds = {plant.guild for plant in self.plants}
        return (guilds.pop() or "") if len(guilds) == 1 else ""


SEVERAL = {"tree": "trees", "shrub": "bushes"}


def subjects_of(rule: Rule, season: SeasonModel) -> Iterator[Subject]:
    """Everything in the garden that a rule is for, in the order of the garden file."""
    if rule.applies.subject == "heap":
        for heap in season.day.garden.heaps if garden_fits(rule.applies, season) else ():
            if not rule.applies.stages or heap.stage in rule.applies.stages:
                yield Subject(
                    id=heap.id, name=heap.name or heap.id, heap=heap, point=heap.point, words=heap.words,
                    applies=rule.applies,
                )  # fmt: skip
        return
    groups: dict[str, list[Plant]] = {}
    for plant in plants_for(rule, season):
        groups.setdefault(_group(rule, plant, season), []).append(plant)
    for group, plants in groups.items():
        yield _subject(rule, group, plants, season)


def _group(rule: Rule, plant: Plant, season: SeasonModel) -> str:
    match rule.together:
        case "guild":
            return f"{plant.guild} guild" if plant.guild else plant.id
        case "kind":
            return season.kind(plant).name
        case "garden":
            return WHOLE_GARDEN
        case _:
            return plant.id


def heads_of(subject: Subject, season: SeasonModel) -> int:
    """How many plants by themselves a job on a subject is worth the work of, ten at most of each entry.

    Canes and herbs stand in rows and beds, and are tended so.
    """
    found = 0
    for plant in subject.plants:
        stands_alone = season.kind(plant).habit in LASTING_WOOD
        found += min(plant.count if stands_alone else math.ceil(plant.count / BED_PLANTS), MOST_HEADS)
    return max(found, 1)


def names_of(plants: Sequence[Plant]) -> str:
    """Several plants in a few words: "comice-1 and comice-2", or "medlar, goumi and 3 more"."""
    names = [plant.name or plant.id for plant in plants]
    return prose.joined(names) if len(names) <= 3 else prose.first_of(names, 2)


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
