"""Questions that several rooms ask of the notes. Pure functions."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Iterable, Iterator

from leafturn.journal.entries import Done, Entry
from leafturn.journal.noted import K, noted
from leafturn.journal.withdrawals import not_withdrawn


def of_plant(entries: Iterable[Entry], kind: type[K], plant: str) -> list[K]:
    """The notes of one kind about one plant, in the order given."""
    return noted(entries).of_plant(kind, plant)


def latest(entries: Iterable[Entry], kind: type[K], plant: str, until: dt.date | None = None) -> K | None:
    """The note of one kind about one plant that is of the latest day; of one day the last in the order given.

    Parameters
    ----------
    entries : iterable of Entry
        Notes not taken back.
    kind : class of note
    plant : str
        Its id.
    until : date, optional
        Notes of later days are passed over.
    """
    found = [entry for entry in of_plant(entries, kind, plant) if until is None or entry.on <= until]
    return max(reversed(found), key=lambda entry: entry.on, default=None)


def jobs_done(entries: Iterable[Entry], *verbs: str) -> Iterator[tuple[str, Done]]:
    """What the notes of jobs done say some verbs were done to, each with its note, in the order given.

    Parameters
    ----------
    entries : iterable of Entry
        Notes not taken back.
    verbs : str
        As they stand in ids of jobs: "winter-cut". The id may be written either way round.
    """
    return noted(entries).jobs_done(verbs)


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
    for entry in not_withdrawn(entries):
        if entry.plant and entry.plant not in known:
            unknown[entry.plant] = (*unknown.get(entry.plant, ()), entry)
    return unknown
