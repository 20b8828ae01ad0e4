"""A plant's own page: what it is, where it stands, what is known, what is due, what was noted."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import TypeVar

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


T = TypeVar("T")


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


def plant_cards(
    day: GardenDay,
    climate: frozenset[str],
    events: Iterable[SeasonEvent],
    jobs: Iterable[Job],
    tender: Mapping[str, Tender],
) -> dict[str, PlantCard]:
    """Everything known of each plant, by its id, in the order of the garden file.

    Parameters
    ----------
    climate : frozenset of str
        The words that hold of the garden's climate; of ways of pruning only the one for it is told.
    events : iterable of SeasonEvent
    jobs : iterable of Job
    tender : mapping of plant id to Tender
        What the cold of the usual years means for those of whom that is to be told.
    """
    books: dict[tuple[str, str | None], _Book] = {}
    events_of = _by_plant((event.plant, event) for event in events)
    jobs_of = _by_plant((plant, job) for job in jobs for plant in {job.plant, *job.plants})
    notes_of = _by_plant((e.plant, e) for e in reversed(day.entries) if e.plant is not None)

    def card(plant: Plant) -> PlantCard:
        key = (plant.kind, plant.cultivar)
        if key not in books:
            books[key] = _book_of(day.specimen(plant), climate)
        own = plant.id
        return _card(plant, day, books[key], events_of[own], jobs_of[own], notes_of[own], tender.get(own))

    return {plant.id: card(plant) for plant in day.garden.plants}


class _Book(Value):
    """What the library tells of a kind and cultivar: facts, and where its sources disagree."""

    facts: tuple[FactLine, ...]
    conflicts: tuple[ConflictLine, ...]


def _book_of(specimen: Specimen, climate: frozenset[str]) -> _Book:
    found, kind, library = specimen.cultivar, specimen.kind, specimen.library
    own = cultivar_facts(*found, kind, library) if found else ()
    return _Book(
        facts=(*own, *facts_of(kind, library, found[1] if found else None, climate)),
        conflicts=tuple(conflict_lines(kind, library)),
    )


def _by_plant(pairs: Iterable[tuple[str, T]]) -> Mapping[str, list[T]]:
    found: defaultdict[str, list[T]] = defaultdict(list)
    for plant, one in pairs:
        found[plant].append(one)
    return found


def _card(
    plant: Plant,
    day: GardenDay,
    book: _Book,
    events: Sequence[SeasonEvent],
    jobs: Sequence[Job],
    notes: Sequence[Entry],
    tender: Tender | None,
) -> PlantCard:
    kind = day.kind(plant)
    shown = [j for j in jobs if j.state in SHOWN_STATES]
    return PlantCard(
        id=plant.id,
        name=plant.name or plant.id,
        kind=kind.name,
        botanical=kind.botanical,
        guessed=kind.guessed,
        where=where(plant),
        metres_from_gate=None if plant.point is None else Point(0.0, 0.0).metres_to(plant.point),
        line=_one_line(plant, kind),
        facts=book.facts,
        conflicts=book.conflicts,
        events=tuple(events),
        jobs=tuple(j.id for j in sorted(shown, key=lambda j: SHOWN_STATES.index(j.state))),
        nothing_to_do=not jobs,
        notes=tuple(notes),
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


def _own_words(plant: Plant) -> Iterator[str]:
    said = {"Why it is here": plant.why, "Promised": plant.promise, "When it is dead": plant.after_death}
    yield from (f"{what}: {words}" for what, words in said.items() if words)
    if plant.guard:
        size = f" {quantities.centimetres(plant.guard.height_cm, None)} high" if plant.guard.height_cm else ""
        yield f"Bark guard{size}{f', put on in {plant.guard.year}' if plant.guard.year else ''}."
