"""What only many gardens tell: who lacks partners where, what frost may take where, how forecasts did."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

import numpy as np

from leafturn.base.value import Value
from leafturn.fleet.parts import Parts, Settings
from leafturn.fleet.tables import TABLES, Holds, Row

LIKELY = 0.5  # chance from which on a loss is likely

PARTNERS: Mapping[str, Holds] = {
    "kind": "text", "area": "text", "trees": "count", "lacking": "count", "thin": "count", "gardens": "count",
}  # fmt: skip
FROST: Mapping[str, Holds] = {
    "kind": "text", "area": "text", "part": "text", "plants": "count", "likely": "count", "gardens": "count",
    "highest_chance": "number",
}  # fmt: skip
FORECASTS: Mapping[str, Holds] = {
    "what": "text", "kind": "text", "noted": "count", "missed_days": "number", "late_days": "number",
    "with_published": "count", "forecast_beside_published_days": "number", "published_days": "number",
    "with_notes": "count", "forecast_beside_notes_days": "number", "notes_days": "number",
}  # fmt: skip


class Lack(Value):
    """One kind in one area: its trees that want a partner, those that lack one or have it thinly.

    `gardens` are those where one lacks it.
    """

    kind: str
    area: str
    trees: int
    lacking: int
    thin: int
    gardens: int


class FrostRisk(Value):
    """One kind in one area of which the nights of the next week may take something.

    `likely` are the plants that likely lose a tenth or more, `gardens` those where they stand.
    """

    kind: str
    area: str
    part: str
    plants: int
    likely: int
    gardens: int
    highest_chance: float


class Beside(Value):
    """Mean sizes of misses [d] of the forecast and of another date, over the events that have both."""

    events: int
    forecast_days: float
    other_days: float


class Skill(Value):
    """How one kind of forecast did for one kind of plant, over all gardens.

    `missed_days` is the mean size of its misses, `late_days` their mean, positive where it was too late.
    """

    what: str
    kind: str
    events: int
    missed_days: float
    late_days: float
    published: Beside | None
    notes: Beside | None


class Summary(Value):
    """Answers over all gardens, the most pressing first."""

    lacks: tuple[Lack, ...]
    frost: tuple[FrostRisk, ...]
    skill: tuple[Skill, ...]

    def tables(self) -> Iterator[tuple[str, Mapping[str, Holds], list[Row]]]:
        """The same as tables: name, columns, rows."""
        yield "partners", PARTNERS, [tuple(getattr(one, key) for key in PARTNERS) for one in self.lacks]
        yield "frost", FROST, [tuple(getattr(one, key) for key in FROST) for one in self.frost]
        yield "forecasts", FORECASTS, [_skill_row(one) for one in self.skill]


def summary(parts: Parts, settings: Settings) -> Summary:
    """Read all rows that were written, and tell what they come to.

    Parameters
    ----------
    parts : Parts
    settings : Settings
        Of the questions that were not asked nothing is told.
    """
    asked = settings.questions
    return Summary(
        lacks=_lacks(_named(parts, "partners")) if "partners" in asked else (),
        frost=_frost(_named(parts, "frost")) if "frost" in asked else (),
        skill=_skill(_named(parts, "forecasts")) if "forecasts" in asked else (),
    )


def _named(parts: Parts, table: str) -> Iterator[dict[str, Any]]:
    columns = tuple(TABLES[table])
    return (dict(zip(columns, row, strict=True)) for row in parts.rows(table))


def _lacks(rows: Iterable[dict[str, Any]]) -> tuple[Lack, ...]:
    found: dict[tuple[str, str], list[dict[str, Any]]] = defaultdict(list)
    for row in rows:
        if row["standing"] != "needs none":
            found[row["kind"], row["area"]].append(row)
    lacks = []
    for (kind, area), trees in found.items():
        without = [row for row in trees if row["standing"] == "lacks"]
        lacks.append(
            Lack(
                kind=kind,
                area=area,
                trees=len(trees),
                lacking=len(without),
                thin=sum(row["standing"] == "thin" for row in trees),
                gardens=len({row["garden"] for row in without}),
            )
        )
    return tuple(sorted(lacks, key=lambda one: (-one.lacking, -one.thin, one.kind, one.area)))


def _frost(rows: Iterable[dict[str, Any]]) -> tuple[FrostRisk, ...]:
    found: dict[tuple[str, str, str], list[dict[str, Any]]] = defaultdict(list)
    for row in rows:
        found[row["kind"], row["area"], row["part"]].append(row)
    risks = []
    for (kind, area, part), plants in found.items():
        likely = [row for row in plants if row["chance"] >= LIKELY]
        risks.append(
            FrostRisk(
                kind=kind,
                area=area,
                part=part,
                plants=len(plants),
                likely=len(likely),
                gardens=len({row["garden"] for row in likely}),
                highest_chance=max(row["chance"] for row in plants),
            )
        )
    return tuple(sorted(risks, key=lambda one: (-one.likely, -one.highest_chance, one.kind, one.area)))


def _skill(rows: Iterable[dict[str, Any]]) -> tuple[Skill, ...]:
    found: dict[tuple[str, str], list[dict[str, Any]]] = defaultdict(list)
    for row in rows:
        found[row["what"], row["kind"]].append(row)
    skill = []
    for (what, kind), misses in found.items():
        days = np.array([row["miss_days"] for row in misses], dtype=float)
        skill.append(
            Skill(
                what=what,
                kind=kind,
                events=len(misses),
                missed_days=float(np.abs(days).mean()),
                late_days=float(days.mean()),
                published=_beside(misses, "published_miss_days"),
                notes=_beside(misses, "notes_miss_days"),
            )
        )
    return tuple(sorted(skill, key=lambda one: (-one.events, one.what, one.kind)))


def _beside(rows: Iterable[dict[str, Any]], other: str) -> Beside | None:
    both = [(row["miss_days"], row[other]) for row in rows if row[other] is not None]
    if not both:
        return None
    forecast, others = np.abs(np.array(both, dtype=float)).mean(axis=0)
    return Beside(events=len(both), forecast_days=float(forecast), other_days=float(others))


def _skill_row(one: Skill) -> Row:
    beside: list[float | None] = []
    for other in (one.published, one.notes):
        beside += [0, None, None] if other is None else [other.events, other.forecast_days, other.other_days]
    return (one.what, one.kind, one.events, one.missed_days, one.late_days, *beside)
