"""Ids for plants and heaps, and finding by id or name what someone wrote."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Sequence
from functools import cached_property

from leafturn.base import prose
from leafturn.base.faults import clipped, did_you_mean
from leafturn.base.patterns import pattern
from leafturn.base.value import Value

_NOT_A_LETTER = pattern(r"[\W_]+")


def plain_id(words: str) -> str:
    """`words` as an id: small letters and digits with hyphens between; empty if it holds neither."""
    # NFKC, so that an accent written as a mark of its own is still part of its letter.
    return _NOT_A_LETTER.sub("-", unicodedata.normalize("NFKC", words).casefold()).strip("-")


class Called(Value, kw_only=False):
    """What a table says of its own id.

    Parameters
    ----------
    given : str or None
        Its `id`, as written.
    name : str or None
        Its `name`.
    fallback : str
        What to make an id from if it gives neither: a plant's kind.
    """

    given: str | None
    name: str | None
    fallback: str


class Clash(Value, kw_only=False):
    """An id given twice: places in the sequence, the id, and what the second is called instead."""

    first: int
    second: int
    id: str
    instead: str


def give_ids(called: Sequence[Called]) -> tuple[list[str], list[Clash]]:
    """An id of its own for each.

    Ids and names that are given come first; those made from a fallback step round them ("pear", "pear-2").

    Returns
    -------
    ids : list of str
        One for each of `called`, all different.
    clashes : list of Clash
        Where the same id, or the same name without an id, was given again.
    """
    ids = [""] * len(called)
    taken: dict[str, int] = {}
    counts: dict[str, int] = {}
    clashes: list[Clash] = []
    fixed = [one.given or (plain_id(one.name) if one.name else "") for one in called]
    reserved = {wanted for wanted in fixed if wanted}
    for place, wanted in enumerate(fixed):
        if not wanted:
            continue
        if wanted in taken:
            ids[place] = _next_free(wanted, reserved, counts)
            clashes.append(Clash(taken[wanted], place, wanted, ids[place]))
        else:
            ids[place] = wanted
        taken.setdefault(ids[place], place)
        reserved.add(ids[place])
    for place, one in enumerate(called):
        if not ids[place]:
            base = plain_id(one.fallback) or "unnamed"
            ids[place] = base if base not in reserved else _next_free(base, reserved, counts)
            reserved.add(ids[place])
    return ids, clashes


def _next_free(base: str, reserved: set[str], counts: dict[str, int]) -> str:
    """`base` with the lowest number from 2 on that is free. `counts` spares trying them all again."""
    number = counts.get(base, 1) + 1
    while f"{base}-{number}" in reserved:
        number += 1
    counts[base] = number
    return f"{base}-{number}"


class Finder:
    """Finds which of several things is meant by words.

    An id fits before a name, a name before a cultivar, a cultivar before a kind, a kind before both in one,
    "comice pear", and an exact spelling before one that differs in capitals, spaces or hyphens.

    Parameters
    ----------
    called : iterable of (str, str or None, str or None, str or None)
        Id, name, cultivar and kind of each. A cultivar or kind of which there are several tells none of them.
    ways : iterable of str
        Names of what is long and has no one place: paths.
    """

    # Looking for the nearest of thousands of words takes tens of milliseconds: done for this many words only.
    MOST_HINTS = 10
    MOST_NAMED = 4

    def __init__(
        self, called: Iterable[tuple[str, str | None, str | None, str | None]], ways: Iterable[str] = ()
    ) -> None:
        self._things = things = list(called)
        self._ways = {way.casefold().removeprefix("the ") for way in ("path", *ways)} - {""}
        self._several = _shared(things)
        self._exact: dict[str, int] = {}
        self._loose: dict[str, int] = {}
        spellings = zip(*things, strict=True)  # all ids, then all names, cultivars and kinds
        for alone, spelling in zip((False, False, True, True), spellings, strict=False):
            for place, words in enumerate(spelling):
                if words and not (alone and words.casefold() in self._several):
                    self._exact.setdefault(words, place)
                    self._loose.setdefault(plain_id(words), place)
        self._loose.pop("", None)
        self._hints: dict[str, str] = {}
        self._misspelt: dict[str, str | None] = {}

    def find(self, words: str) -> int | None:
        """Place in `called` of what `words` mean, or None."""
        found = self._exact.get(words)
        if found is None:
            found = self._loose.get(plain_id(words))
        if found is None and len(places := self._in_one.get(plain_id(words), [])) == 1:
            found = places[0]
        if found is None and words.casefold().startswith("the "):
            return self.find(words[4:])
        return found

    def hint(self, words: str) -> str:
        """A sentence naming those of a cultivar or kind, or the nearest known word; empty if none."""
        called = words.casefold().removeprefix("the ")
        several = self._several.get(called) or self._of_one_name(words)
        if several:
            return f"{clipped(words)} are {prose.first_of(several, self.MOST_NAMED)}: write which."
        if called in self._ways:
            return (
                "A path has no one place to begin at: name a plant there, "
                "or write metres east and north, as at = [24, 18]."
            )
        if words not in self._hints:
            if len(self._hints) >= self.MOST_HINTS:
                return ""
            self._hints[words] = did_you_mean(clipped(words), self._exact)
        return self._hints[words]

    @cached_property
    def _in_one(self) -> dict[str, list[int]]:
        """Places of things by their cultivar and kind in one, as `plain_id` spells them."""
        found: dict[str, list[int]] = {}
        for place, (_, _, cultivar, kind) in enumerate(self._things):
            if cultivar and kind:
                for said in {plain_id(f"{cultivar} {kind}"), plain_id(f"{cultivar} {kind.split()[-1]}")}:
                    found.setdefault(said, []).append(place)
        return found

    def _of_one_name(self, words: str) -> list[str]:
        places = self._in_one.get(plain_id(words.casefold().removeprefix("the ")), [])
        return [self._things[place][0] for place in places]

    def misspelt(self, words: str) -> str | None:
        """The known word that `words` differ from by a slip or two, or None."""
        if words not in self._misspelt:
            if len(self._misspelt) >= self.MOST_HINTS:
                return None
            import difflib

            near = difflib.get_close_matches(clipped(words), self._exact, n=1, cutoff=0.85)
            self._misspelt[words] = near[0] if near else None
        return self._misspelt[words]


def _shared(things: Sequence[tuple[str, str | None, str | None, str | None]]) -> dict[str, list[str]]:
    """The ids of those of one cultivar or kind, in small letters, where there are several."""
    ids: dict[str, list[str]] = {}
    for one, _, cultivar, kind in things:
        for words in {word.casefold() for word in (cultivar, kind) if word}:
            ids.setdefault(words, []).append(one)
    return {words: own for words, own in ids.items() if len(own) > 1}
