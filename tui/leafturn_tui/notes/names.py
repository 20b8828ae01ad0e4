"""Plants and heaps as people name them in a note."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from leafturn.base.faults import clipped, nearest_word
from leafturn.base.kept import kept
from leafturn.garden.model import Garden, Heap, Plant
from leafturn.garden.reading.names import Finder
from leafturn.kinds.names import singular_forms
from leafturn_tui.notes import NotUnderstood

MOST_WORDS_OF_A_NAME = 5  # a guess


def plant_id(word: str, garden: Garden) -> str:
    """The id of the plant that a word names.

    Raises
    ------
    NotUnderstood
        If it names none, with the nearest there is.
    """
    return _known(word, _plants(garden), "plant")


def heap_id(word: str, garden: Garden) -> str:
    """The id of the heap that a word names; raises as `plant_id` does."""
    return _known(word, _heaps(garden), "heap")


class _Called(NamedTuple):
    """Things of a garden: their ids, and what finds one of them by its id or name."""

    ids: Sequence[str]
    finder: Finder

    def meant(self, words: str) -> str | None:
        """The id of what words mean, one or several of it: "pears"; None if they mean none of them."""
        before, last = words[: words.rfind(" ") + 1], words[words.rfind(" ") + 1 :]
        found = (self.finder.find(before + form) for form in singular_forms(last))
        place = next((place for place in found if place is not None), None)
        return None if place is None else self.ids[place]


def _known(word: str, among: _Called, what: str) -> str:
    if (meant := among.meant(word)) is not None:
        return meant
    hint = among.finder.hint(word)
    raise NotUnderstood(" ".join(f"no {what} {clipped(word)!r} here. {hint}".split()))


def likely_plant(word: str, garden: Garden) -> bool:
    """Whether a word is the name of a plant, or was most likely meant for one."""
    if _plants(garden).meant(word) is not None:
        return True
    return nearest_word(word, [x for p in garden.plants for x in (p.id, p.name) if x]) is not None


def is_name(word: str, garden: Garden) -> bool:
    """Whether a word is the name of a plant or heap."""
    return _everything(garden).meant(word) is not None


def is_kind_here(words: str, garden: Garden) -> bool:
    """Whether words are a kind, its last word or a cultivar, be there one here or several."""
    forms = set(singular_forms(words.casefold()))
    kinds = {plant.kind.casefold() for plant in garden.plants}
    cultivars = {plant.cultivar.casefold() for plant in garden.plants if plant.cultivar}
    return not forms.isdisjoint(kinds | cultivars | {kind.split()[-1] for kind in kinds if kind})


def with_names_joined(words: Sequence[str], garden: Garden) -> list[str]:
    """The words with one name of several words as one id: "bloom Early Plum" is "bloom early-plum".

    A name is looked for at the beginning and after the first word.
    """
    for first in (0, 1):
        for last in range(min(len(words), first + MOST_WORDS_OF_A_NAME), first + 1, -1):
            if (meant := _everything(garden).meant(" ".join(words[first:last]))) is not None:
                return [*words[:first], meant, *words[last:]]
    return list(words)


@kept
def _plants(garden: Garden) -> _Called:
    return _called(garden.plants)


@kept
def _heaps(garden: Garden) -> _Called:
    return _called(garden.heaps)


@kept
def _everything(garden: Garden) -> _Called:
    return _called((*garden.plants, *garden.heaps))


def _called(things: Sequence[Plant | Heap]) -> _Called:
    of_plants = ((one.cultivar, one.kind) if isinstance(one, Plant) else (None, None) for one in things)
    called = ((one.id, one.name, *its) for one, its in zip(things, of_plants, strict=True))
    return _Called([one.id for one in things], Finder(called))
