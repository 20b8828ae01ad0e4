"""Plants and heaps as people name them in a note."""

from __future__ import annotations

from collections.abc import Sequence

from leafturn.base.faults import clipped, did_you_mean, nearest_word
from leafturn.garden.model import Garden
from leafturn.garden.reading.names import Finder, plain_id
from leafturn_tui.notes import NotUnderstood

MOST_WORDS_OF_A_NAME = 5  # a guess


def plant_id(word: str, garden: Garden) -> str:
    """The id of the plant that a word names.

    Raises
    ------
    NotUnderstood
        If it names none, with the nearest there is.
    """
    return _known(word, [(p.id, p.name) for p in garden.plants], "plant")


def heap_id(word: str, garden: Garden) -> str:
    """The id of the heap that a word names; raises as `plant_id` does."""
    return _known(word, [(h.id, h.name) for h in garden.heaps], "heap")


def _known(word: str, called: Sequence[tuple[str, str | None]], what: str) -> str:
    place = Finder(called).find(word)
    if place is not None:
        return called[place][0]
    near = did_you_mean(word, [known for known, _ in called])
    raise NotUnderstood(" ".join(f"no {what} {clipped(word)!r} here. {near}".split()))


def likely_plant(word: str, garden: Garden) -> bool:
    """Whether a word is the name of a plant, or was most likely meant for one."""
    return nearest_word(word, [x for p in garden.plants for x in (p.id, p.name) if x]) is not None


def is_name(word: str, garden: Garden) -> bool:
    """Whether a word is the name of a plant or heap."""
    return Finder(_called(garden)).find(word) is not None


def with_names_joined(words: Sequence[str], garden: Garden) -> list[str]:
    """The words with one name of several words as one id: "bloom Early Plum" is "bloom early-plum".

    A name is looked for at the beginning and after the first word.
    """
    ids = {plain_id(known): one[0] for one in _called(garden) for known in one if known}
    for first in (0, 1):
        for last in range(min(len(words), first + MOST_WORDS_OF_A_NAME), first + 1, -1):
            if (meant := ids.get(plain_id(" ".join(words[first:last])))) is not None:
                return [*words[:first], meant, *words[last:]]
    return list(words)


def _called(garden: Garden) -> list[tuple[str, str | None]]:
    """Id and name of every plant and heap."""
    return [(p.id, p.name) for p in garden.plants] + [(h.id, h.name) for h in garden.heaps]
