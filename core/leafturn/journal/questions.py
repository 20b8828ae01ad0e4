"""Questions asked of the notes. Pure functions; entries come in the order they were written.

Every answer counts standing notes only, whether or not the caller has sorted out the others.
"""

from __future__ import annotations

import datetime as dt
from collections import deque
from collections.abc import Callable, Collection, Iterable, Mapping

from leafturn.journal.entries import Entry, Stage, What

_CLOSING = ("done", "let-go", "put-off")


# ---- taking back -------------------------------------------------------------------------------------------


def withdrawals(entries: Iterable[Entry]) -> dict[str, Entry]:
    """Which notes are taken back, and by which standing withdrawal (the newest, if by several).

    A withdrawal stands unless a standing withdrawal takes it back, to any depth. Withdrawals that
    take one another back in a ring, which only a slip of the hand can make, have no effect.

    Returns
    -------
    dict of id to Entry
        Withdrawals that are themselves taken back are among the ids.
    """
    written = {entry.id: entry for entry in entries if entry.what == "withdraw"}
    unsettled = dict.fromkeys(written, 0)  # by id: withdrawals of it that are not settled yet
    for entry in written.values():
        if entry.entry in unsettled:
            unsettled[entry.entry] += 1
    # From those that nothing takes back inward: whether one stands is known once all that name it are
    # settled. What lies in a ring is never reached.
    ready = deque(given for given, number in unsettled.items() if not number)
    taken_back: set[str] = set()
    standing_ones: set[str] = set()
    while ready:
        given = ready.popleft()
        target = written[given].entry or ""
        if given not in taken_back:
            standing_ones.add(given)
            taken_back.add(target)
        if target in unsettled:
            unsettled[target] -= 1
            if not unsettled[target]:
                ready.append(target)
    return {entry.entry or "": entry for given, entry in written.items() if given in standing_ones}


def standing(entries: Iterable[Entry]) -> tuple[Entry, ...]:
    """The notes that count: all but withdrawals and what they take back."""
    known = tuple(entries)
    taken_back = withdrawals(known)
    return tuple(entry for entry in known if entry.what != "withdraw" and entry.id not in taken_back)


def takeable(entries: Iterable[Entry]) -> tuple[Entry, ...]:
    """The notes that can be taken back, the one written last first.

    That a week sheet was written is left out: its paper is about, and its lines can be entered.
    """
    return tuple(entry for entry in standing(entries)[::-1] if entry.what != "sheet")


def last_takeable(entries: Iterable[Entry]) -> Entry | None:
    """The note to offer for taking back. After it is taken back, this is the note before it."""
    return next(iter(takeable(entries)), None)


# ---- what was seen and done --------------------------------------------------------------------------------


def notes_of(
    entries: Iterable[Entry], what: What, *, plant: str | None = None, heap: str | None = None
) -> tuple[Entry, ...]:
    """Standing notes of one sort, of one plant or heap if named, by the day they are about."""
    found = (
        entry
        for entry in standing(entries)
        if entry.what == what and plant in (None, entry.plant) and heap in (None, entry.heap)
    )
    return tuple(sorted(found, key=lambda entry: entry.on))


def harvests(entries: Iterable[Entry], plant: str | None = None) -> tuple[Entry, ...]:
    """What was picked, by day."""
    return notes_of(entries, "harvest", plant=plant)


def readings(entries: Iterable[Entry], heap: str) -> tuple[tuple[dt.date, float], ...]:
    """Days and temperatures [degC] read inside a heap, by day and, within a day, as they were written."""
    return tuple(
        (entry.on, entry.temp_c)
        for entry in notes_of(entries, "reading", heap=heap)
        if entry.temp_c is not None
    )


def blooms(
    entries: Iterable[Entry],
    plant: str | None = None,
    year_of: Callable[[dt.date], int] = lambda day: day.year,
) -> dict[str, dict[int, dict[Stage, dt.date]]]:
    """The first day on which each stage was noted, by plant and year.

    Parameters
    ----------
    entries : iterable of Entry
        The notes.
    plant : str, optional
        Only this plant.
    year_of : callable
        The year a day counts to; the calendar's, unless a garden's seasons begin in July.
    """
    seen: dict[str, dict[int, dict[Stage, dt.date]]] = {}
    for entry in notes_of(entries, "bloom", plant=plant):
        if entry.plant and entry.stage:
            seen.setdefault(entry.plant, {}).setdefault(year_of(entry.on), {}).setdefault(
                entry.stage, entry.on
            )
    return seen


def latest_bloom(entries: Iterable[Entry], plant: str) -> Entry | None:
    """The latest stage noted of a plant: by day, then by stage; "none this year" comes before any."""
    return max(notes_of(entries, "bloom", plant=plant), key=lambda e: (e.on, e.bbch or 0), default=None)


def first_flowered(entries: Iterable[Entry]) -> dict[str, dt.date]:
    """The day each plant was first seen in flower at all: it is old enough to give and take pollen."""
    first: dict[str, dt.date] = {}
    for entry in notes_of(entries, "bloom"):
        if entry.plant and entry.stage in ("first open", "full bloom", "petal fall"):
            first.setdefault(entry.plant, entry.on)
    return first


def unknown_plants(entries: Iterable[Entry], known: Collection[str]) -> dict[str, tuple[Entry, ...]]:
    """Notes of plants the garden file does not hold, by the words they were noted under.

    A note of an unknown plant is kept as it was written; this lists what is still to be matched.

    Parameters
    ----------
    entries : iterable of Entry
        The notes.
    known : collection of str
        Ids of the garden's plants.
    """
    unknown: dict[str, tuple[Entry, ...]] = {}
    for entry in standing(entries):
        if entry.plant and entry.plant not in known:
            unknown[entry.plant] = (*unknown.get(entry.plant, ()), entry)
    return unknown


# ---- jobs --------------------------------------------------------------------------------------------------


def closings(entries: Iterable[Entry]) -> dict[str, Entry]:
    """By job id, the last written note that did it, let it go or put it off (then see `until`)."""
    return {task: entry for entry in standing(entries) if entry.what in _CLOSING for task in entry.closes}


def minutes_by_verb(entries: Iterable[Entry]) -> Mapping[str, tuple[float, ...]]:
    """Minutes that jobs took, in the order noted, by verb: the second part of "plant:verb:year".

    Minutes of a note that closes several jobs are shared evenly among them: what each took was not said.
    """
    taken: dict[str, tuple[float, ...]] = {}
    for entry in standing(entries):
        if entry.what != "done" or entry.minutes is None:
            continue
        for task in entry.closes:
            _, _, rest = task.partition(":")
            verb = rest.partition(":")[0]
            taken[verb] = (*taken.get(verb, ()), entry.minutes / len(entry.closes))
    return taken


def minutes_by_helper(entries: Iterable[Entry], first: dt.date, last: dt.date) -> dict[str, float]:
    """Minutes each helper gave from `first` to `last`, both days included; "" for notes that name nobody."""
    given: dict[str, float] = {}
    for entry in standing(entries):
        if entry.minutes is not None and first <= entry.on <= last:
            given[entry.by or ""] = given.get(entry.by or "", 0.0) + entry.minutes
    return given
