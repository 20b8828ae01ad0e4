"""How many of the facts that decide were read on a page, and how many are recalled or guessed."""

from __future__ import annotations

import functools
from collections.abc import Collection, Iterator, Mapping
from typing import Any, NamedTuple

from msgspec import Struct

from leafturn.kinds.checks.evidence import GUESSED, facts_in, said
from leafturn.kinds.fact import Fact, Source
from leafturn.kinds.growing import HeatSum
from leafturn.kinds.model import Kind
from leafturn.kinds.packaged import packaged
from leafturn.kinds.pruning import PruningWay, ways_of
from leafturn.toml.positions import Steps

# What nobody picks fruit of has no partner to decide, so that the word itself is no fact to look up.
_NO_FACT = "fruit not wanted"
_HEAT: Steps = ("bloom", "first_open_heat")


class Group(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Kinds that are counted among the commonest, and why."""

    why: str
    kinds: tuple[str, ...]


class Commonest(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """The contents of commonest.toml."""

    deciding: tuple[str, ...]
    group: tuple[Group, ...]

    @property
    def kinds(self) -> tuple[str, ...]:
        """The kinds of all groups, as they stand there."""
        return tuple(kind for group in self.group for kind in group.kinds)


class Unread(NamedTuple):
    """A fact that decides and was not read: where it stands in its kind, its source's key, how sure."""

    what: str
    source: str
    sure: str


class Reading(NamedTuple):
    """How many facts of a kind decide, how many of them were read, and those that were not."""

    kind: str
    facts: int
    read: int
    unread: tuple[Unread, ...]


@functools.cache
def commonest() -> Commonest:
    """The commonest kinds, and which facts decide."""
    return packaged("commonest", Commonest)


def reading_of(kind: Kind, sources: Mapping[str, Source], measured: Collection[str] = ()) -> Reading:
    """How much of what decides for a kind and its cultivars was read.

    Parameters
    ----------
    kind : Kind
        As it was written, its gaps not filled.
    sources : mapping of str to Source
        The library's.
    measured : collection of str
        Kinds whose bloom is fitted to open records; their `bloom.first_open_heat` counts as read.
    """
    facts = list(deciding_facts(kind))
    unread = tuple(
        Unread(said(path), fact.source, fact.sure)
        for path, fact in facts
        if not _was_read(fact, sources) and not (path == _HEAT and kind.name in measured)
    )
    return Reading(kind.name, len(facts), len(facts) - len(unread), unread)


def deciding_facts(kind: Kind) -> Iterator[tuple[Steps, Fact[Any] | HeatSum]]:
    """The facts of a kind that decide, each with its place in the kind's table.

    Its windows of cutting stand as ("pruning", WAY, CUT).
    """
    named = frozenset(commonest().deciding)
    for path, fact in facts_in(kind):
        is_named = _entry(path) in named or f"{path[0]}.*" in named
        if is_named and not (isinstance(fact, Fact) and fact.value == _NO_FACT):
            yield path, fact
    if "pruning" in named:
        for way, held in ways_of(kind, packaged("pruning", dict[str, PruningWay])).items():
            for cut, window in held.cuts.items():
                yield ("pruning", way, cut), Fact(window.what, window.source, window.sure)


def _entry(path: Steps) -> str:
    """The entry as commonest.toml writes it: without the cultivar's name, and without numbers."""
    return (
        f"cultivars.{path[2]}" if path[0] == "cultivars" else ".".join(p for p in path if isinstance(p, str))
    )


def _was_read(fact: Fact[Any] | HeatSum, sources: Mapping[str, Source]) -> bool:
    return fact.source not in GUESSED and fact.source in sources and sources[fact.source].read
