"""How many of each kind were planted and lost, to what, and what share stands after so many years."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from leafturn.answers.losses import by_cause
from leafturn.base import prose
from leafturn.base.survival import Life, Share, survival
from leafturn.base.value import Value
from leafturn.garden.model import Garden, Plant
from leafturn.journal.entries import Entry, LossNote, PlantedNote
from leafturn.journal.noted import of_kind
from leafturn.kinds.library import Library

UNKNOWN = "no longer in the garden file"
LEAST = 5  # plantings still watched, below which no share is told; rule of thumb
FEW = 20  # below which a share is called one of few; rule of thumb


class KindSurvival(Value):
    """What became of the plantings of one kind.

    Parameters
    ----------
    kind : str
        As the library calls it; of plants that only notes know, that they are no longer in the file.
    planted, lost, standing : int
    causes : tuple of (str, int)
        What took them, the commonest first.
    watched : int
        Plantings since the journal began, of which all losses would be noted; only they make the share.
    course : tuple of Share
        Share standing by years since planting, as long as `LEAST` of them are watched so far. Empty where one
        was lost of which it is not known when it was planted or lost.
    says : str
        All of it in a sentence or two.
    """

    kind: str
    planted: int
    lost: int
    standing: int
    causes: tuple[tuple[str, int], ...]
    watched: int
    course: tuple[Share, ...]
    says: str


class Survival(Value):
    """All kinds, those with most losses first, and the garden as a whole."""

    kinds: tuple[KindSurvival, ...]
    whole: KindSurvival


class _Planting(NamedTuple):
    """One plant from its planting on; years of which nothing is known are None."""

    kind: str
    since: int | None
    until: int | None
    cause: str | None  # None where it stands, empty where it is not noted


def survival_by_kind(garden: Garden, library: Library, entries: Sequence[Entry], on: dt.date) -> Survival:
    """What became of everything planted, by kind.

    Parameters
    ----------
    garden : Garden
        As its file says, without what was noted.
    library : Library
        Names the kinds.
    entries : sequence of Entry
        Notes not taken back up to the day.
    on : date
    """
    began = min((e.on.year for e in entries), default=on.year)
    plantings = list(_plantings(garden, library, entries))
    kinds = {p.kind for p in plantings}
    found = [_kind_survival(kind, [p for p in plantings if p.kind == kind], began, on.year) for kind in kinds]
    found.sort(key=lambda one: (-one.lost, -one.planted, one.kind))
    return Survival(kinds=tuple(found), whole=_kind_survival("all kinds", plantings, began, on.year))


def _plantings(garden: Garden, library: Library, entries: Sequence[Entry]) -> Iterable[_Planting]:
    plants = {p.id: p for p in garden.plants}
    lost: dict[str, list[LossNote]] = {}
    planted: dict[str, list[int]] = {}
    for note in of_kind(entries, LossNote):
        if note.plant:
            lost.setdefault(note.plant, []).append(note)
    for started in of_kind(entries, PlantedNote):
        if started.plant:
            planted.setdefault(started.plant, []).append(started.on.year)
    for name in [*plants, *(name for name in lost if name not in plants)]:
        plant = plants.get(name)
        kind = library.match(plant.kind).kind.name if plant is not None else UNKNOWN
        starts = sorted({*planted.get(name, ()), *([plant.year] if plant and plant.year else ())})
        yield from _lives(kind, plant, starts, sorted(lost.get(name, ()), key=lambda note: note.on))


def _lives(kind: str, plant: Plant | None, starts: list[int], lost: list[LossNote]) -> Iterable[_Planting]:
    """The plants that stood under one name, one after the other."""
    after = None
    for note in lost:
        since = [year for year in starts if year <= note.on.year and (after is None or year >= after)]
        yield _Planting(kind, max(since, default=None), note.on.year, note.cause or "")
        after = note.on.year
    later = [year for year in starts if after is None or year > after]
    replanted = after is None or bool(later) or (after in starts and len(starts) > len(lost))
    if plant is None or not replanted:
        return
    since_now = max(later, default=after)
    if plant.state == "gone":
        if after is None:
            yield _Planting(kind, since_now, None, "")
    else:
        yield _Planting(kind, since_now, None, None)


def _kind_survival(kind: str, plantings: Sequence[_Planting], began: int, year: int) -> KindSurvival:
    fallen = [p for p in plantings if p.cause is not None]
    causes = by_cause(planting.cause or "" for planting in fallen)
    lives = [
        Life(max((p.until if p.until is not None else year) - p.since, 0), p.cause is not None)
        for p in plantings
        if p.since is not None and p.since >= began and (p.cause is None or p.until is not None)
    ]
    undated = sum(p.since is None or p.until is None for p in fallen)
    # what is lost and cannot be dated would make the share too high
    course = () if undated else tuple(share for share in survival(lives) if share.at_risk >= LEAST)
    return KindSurvival(
        kind=kind,
        planted=len(plantings),
        lost=len(fallen),
        standing=len(plantings) - len(fallen),
        causes=causes,
        watched=len(lives),
        course=course,
        says=_in_words(kind, plantings, causes, course, len(lives), undated),
    )


def _in_words(
    kind: str,
    plantings: Sequence[_Planting],
    causes: Sequence[tuple[str, int]],
    course: Sequence[Share],
    watched: int,
    undated: int,
) -> str:
    lost = sum(number for _, number in causes)
    said = f"{kind}: {len(plantings)} planted, {lost or 'none'} lost"
    if lost:
        said += f" ({', '.join(f'{cause} {number}' for cause, number in causes)})"
    if not lost:
        return f"{said}."
    if undated:
        which = "it was" if lost == 1 else f"{undated} of these were"
        return f"{said}. When {which} planted or lost is not known, so no share is told."
    if not course or not course[-1].years:
        since = "" if watched == len(plantings) else f", {watched} of them since the journal began"
        return f"{said}{since}; too few to tell a share."
    last = course[-1]
    few = f", from {watched} plantings, which is few" if watched < FEW else f", from {watched} plantings"
    after = prose.count(last.years, "year")
    stand = f"{prose.of_ten(last.share)} stand"
    return f"{said}. After {after} {stand}; it may be {prose.of_ten_range(last.low, last.high)}{few}."
