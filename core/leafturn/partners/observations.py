"""What the journal tells of flowering and of set, by plant and season."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec import field

from leafturn.base.closed_words import FruitSet
from leafturn.base.value import Value
from leafturn.journal.entries import BloomNote, DamageNote, Entry, FruitSetNote, HarvestNote, LossNote
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
    frozen: set[tuple[str, int]] = set()
    for entry in entries:
        if not entry.plant:
            continue
        year = SeasonAxis.holding(entry.on, southern).year
        if isinstance(entry, BloomNote) and entry.stage == "none this year":
            none.setdefault(entry.plant, set()).add(year)
        elif _flowered(entry):
            first[entry.plant] = min(first.get(entry.plant, year), year)
        if isinstance(entry, FruitSetNote):
            sets.setdefault(entry.plant, {})[year] = entry.set
        if isinstance(entry, DamageNote | LossNote) and any(
            word in f"{entry.cause or ''} {entry.text or ''}".lower() for word in FROST_WORDS
        ):
            frozen.add((entry.plant, year))
    sets_noted = {
        plant: {year: word for year, word in by_year.items() if (plant, year) not in frozen}
        for plant, by_year in sets.items()
    }
    return ObservedBloom(
        first=first,
        none={plant: frozenset(years) for plant, years in none.items()},
        sets={plant: by_year for plant, by_year in sets_noted.items() if by_year},
    )


def _flowered(entry: Entry) -> bool:
    if isinstance(entry, FruitSetNote):
        return entry.set != "none"
    return isinstance(entry, BloomNote | HarvestNote)
