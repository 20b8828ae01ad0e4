"""A plant's own page: what it is, where it stands, what is known, what is due, what was noted."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from leafturn.answers.kind_card import ConflictLine, conflict_lines
from leafturn.base import quantities
from leafturn.base.value import Value
from leafturn.bloom.model import SeasonEvent
from leafturn.garden.model import Plant, Point
from leafturn.garden.reading.places import where
from leafturn.hazards.cold import Tender
from leafturn.journal.entries import Entry
from leafturn.kinds.facts import FactLine, cultivar_facts, facts_of
from leafturn.kinds.model import Kind
from leafturn.kinds.specimen import Specimen
from leafturn.season.garden_day import GardenDay
from leafturn.tasks.model import Job, State

# States of jobs that are shown, the pressing first.
SHOWN_STATES: tuple[State, ...] = ("late", "due", "held", "soon", "passed")


class PlantCard(Value):
    """A plant's own page; `jobs` are ids of those it is part of, by itself or in a group.

    `nothing_to_do` tells that no work falls to it this season, done or still to come.
    """

    id: str
    name: str
    kind: str
    botanical: str
    guessed: bool
    where: str
    metres_from_gate: float | None
    line: str
    facts: tuple[FactLine, ...]
    conflicts: tuple[ConflictLine, ...]
    events: tuple[SeasonEvent, ...]
    jobs: tuple[str, ...]
    nothing_to_do: bool = False
    notes: tuple[Entry, ...]
    cautions: tuple[str, ...]
    own_words: tuple[str, ...]


def plant_card(
    plant: Plant,
    day: GardenDay,
    climate: frozenset[str],
    events: Iterable[SeasonEvent],
    jobs: Iterable[Job],
    tender: Tender | None = None,
) -> PlantCard:
    """Everything known of one plant.

    Parameters
    ----------
    climate : frozenset of str
        The words that hold of the garden's climate; of ways of pruning only the one for it is told.
    events : iterable of SeasonEvent
        Of the whole garden; those of this plant are kept, and so for `jobs` and the notes (newest first).
    tender : Tender or None
        What the cold of the usual years means for it, where that is to be told.
    """
    specimen = day.specimen(plant)
    kind, library = specimen.kind, day.library
    all_jobs = [j for j in jobs if plant.id in (j.plant, *j.plants)]
    own_jobs = [j for j in all_jobs if j.state in SHOWN_STATES]
    return PlantCard(
        id=plant.id,
        name=plant.name or plant.id,
        kind=kind.name,
        botanical=kind.botanical,
        guessed=kind.guessed,
        where=where(day.garden, plant),
        metres_from_gate=None if plant.point is None else Point(0.0, 0.0).metres_to(plant.point),
        line=_one_line(plant, kind),
        facts=tuple(_facts(specimen, climate)),
        conflicts=tuple(conflict_lines(kind, library)),
        events=tuple(e for e in events if e.plant == plant.id),
        jobs=tuple(j.id for j in sorted(own_jobs, key=lambda j: SHOWN_STATES.index(j.state))),
        nothing_to_do=not all_jobs,
        notes=tuple(reversed([e for e in day.entries if e.plant == plant.id])),
        cautions=(*((tender.says,) if tender else ()), *(c.value for c in kind.cautions)),
        own_words=tuple(_own_words(plant)),
    )


def _one_line(plant: Plant, kind: Kind) -> str:
    parts = [
        f"{kind.name}{' (not in the library: its dates are guesses)' if kind.guessed else ''}",
        plant.cultivar,
        f"on {plant.rootstock}" if plant.rootstock else None,
        plant.sex,
        plant.flower_order,
        f"{plant.count} plants" if plant.count > 1 else None,
        f"patch of {quantities.square_metres(plant.patch_m2, None)}" if plant.patch_m2 else None,
        f"planted {plant.year}" if plant.year and not plant.origin else None,
        f"{plant.origin}, {plant.year}" if plant.origin and plant.year else plant.origin,
        plant.state if plant.state != "well" else None,
        f"plan: {plant.plan}" if plant.plan else None,
    ]
    return ", ".join(part for part in parts if part)


def _facts(specimen: Specimen, climate: frozenset[str]) -> Iterator[FactLine]:
    found, kind, library = specimen.cultivar, specimen.kind, specimen.library
    known = [
        *(cultivar_facts(*found, kind, library) if found else ()),
        *facts_of(kind, library, found[1] if found else None, climate),
    ]
    yield from known


def _own_words(plant: Plant) -> Iterator[str]:
    said = {"Why it is here": plant.why, "Promised": plant.promise, "When it is dead": plant.after_death}
    yield from (f"{what}: {words}" for what, words in said.items() if words)
    if plant.guard:
        size = f" {quantities.centimetres(plant.guard.height_cm, None)} high" if plant.guard.height_cm else ""
        yield f"Bark guard{size}{f', put on in {plant.guard.year}' if plant.guard.year else ''}."
