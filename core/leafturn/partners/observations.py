"""What the journal tells of flowering and of set, by plant and season."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from msgspec import field

from leafturn.base.closed_words import FruitSet
from leafturn.base.value import Value
from leafturn.journal.entries import BloomNote, DamageNote, Entry, FruitSetNote, HarvestNote, LossNote
from leafturn.journal.noted import K, of_kind
from leafturn.season.axis import SeasonAxis

FROST_WORDS = ("frost", "frozen", "cold night")


class ObservedBloom(Value, kw_only=False):
    """First season with flowers, seasons without any, and the set by season, each by plant id."""

    first: dict[str, int] = field(default_factory=dict)
    none: dict[str, frozenset[int]] = field(default_factory=dict)
    sets: dict[str, dict[int, FruitSet]] = field(default_factory=dict)


def observed_bloom(entries: Iterable[Entry], southern: bool) -> ObservedBloom:
    """Gather the notes of bloom, harvest, set and frost damage.

    Parameters
    ----------
    entries : iterable of Entry
        Notes not taken back, oldest first; of several sets in a season the last counts.
    southern : bool
        Whether seasons start in July.

    Notes
    -----
    A set noted in a season in which frost damage to the plant is noted too tells nothing of its partners
    and is left out of `sets`.
    """
    first: dict[str, int] = {}
    none: dict[str, set[int]] = {}
    sets: dict[str, dict[int, FruitSet]] = {}
    for plant, entry in _of_plants(entries, BloomNote):
        year = SeasonAxis.holding(entry.on, southern).year
        if entry.stage == "none this year":
            none.setdefault(plant, set()).add(year)
        else:
            first[plant] = min(first.get(plant, year), year)
    for plant, picked in _of_plants(entries, HarvestNote):
        year = SeasonAxis.holding(picked.on, southern).year
        first[plant] = min(first.get(plant, year), year)
    for plant, seen in _of_plants(entries, FruitSetNote):
        year = SeasonAxis.holding(seen.on, southern).year
        sets.setdefault(plant, {})[year] = seen.set
        if seen.set != "none":
            first[plant] = min(first.get(plant, year), year)
    harm: list[tuple[str, DamageNote | LossNote]] = [
        *_of_plants(entries, DamageNote),
        *_of_plants(entries, LossNote),
    ]
    frozen = {
        (plant, SeasonAxis.holding(note.on, southern).year)
        for plant, note in harm
        if any(word in f"{note.cause or ''} {note.text or ''}".lower() for word in FROST_WORDS)
    }
    sets_noted = {
        plant: {year: word for year, word in by_year.items() if (plant, year) not in frozen}
        for plant, by_year in sets.items()
    }
    return ObservedBloom(
        first=first,
        none={plant: frozenset(years) for plant, years in none.items()},
        sets={plant: by_year for plant, by_year in sets_noted.items() if by_year},
    )


def _of_plants(entries: Iterable[Entry], kind: type[K]) -> Iterator[tuple[str, K]]:
    return ((entry.plant, entry) for entry in of_kind(entries, kind) if entry.plant)
