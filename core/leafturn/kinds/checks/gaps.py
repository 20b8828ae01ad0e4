"""What the entry of a kind does not say, and what is assumed instead."""

from __future__ import annotations

import functools
from collections.abc import Callable, Iterator, Mapping
from typing import NamedTuple

from msgspec import Struct

from leafturn.base.closed_words import WOODY
from leafturn.kinds.defaults import DEFAULT_SOURCE, Defaults, fill
from leafturn.kinds.fact import value_of
from leafturn.kinds.model import Fact, Kind
from leafturn.kinds.packaged import packaged
from leafturn.kinds.pruning import PruningWay, ways_of


class Deciding(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Facts of which one at least should be given: what they decide, of which kinds, and what is done else.

    `facts` are written "section.entry", or "entry" above the sections; `of` is a key of `KINDS_MEANT`; an
    empty `then` stands for a value by family or habit.
    """

    facts: tuple[str, ...]
    decides: str
    of: str
    then: str = ""


class Decides(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """The contents of decides.toml."""

    required: dict[str, str]
    fact: tuple[Deciding, ...]


class Gap(NamedTuple):
    """One thing an entry does not say: the entry and what is assumed, in words."""

    entry: str
    says: str


def _system(kind: Kind) -> str:
    return value_of(kind.pollination.system, "")


def _ripens(kind: Kind) -> bool:
    return kind.harvest.part is not None and kind.harvest.ripens


def _is_cut_alike(kind: Kind) -> bool:
    """Whether pruning.toml tells how it is cut, together with others."""
    return bool(ways_of(kind, packaged("pruning", dict[str, PruningWay])))


_NEEDS_NOBODY = ("fruit not wanted", "sets without pollen")

KINDS_MEANT: Mapping[str, Callable[[Kind], bool]] = {
    "all": lambda kind: True,
    "flowers": lambda kind: kind.habit != "fern",
    "sheds its leaves": lambda kind: not kind.evergreen,
    "trees and shrubs": lambda kind: kind.habit in ("tree", "shrub"),
    "climber": lambda kind: kind.habit == "climber",
    "may be picked": lambda kind: _system(kind) != "fruit not wanted",
    "picked": lambda kind: kind.harvest.part is not None,
    "ripens": _ripens,
    "woody and ripens": lambda kind: _ripens(kind) and kind.habit in WOODY,
    "needs pollen": lambda kind: bool(_system(kind)) and _system(kind) not in _NEEDS_NOBODY,
    "may set alone": lambda kind: (
        bool(_system(kind)) and _system(kind) not in (*_NEEDS_NOBODY, "dioecious", "self-fertile")
    ),
    "woody and cut like no other": lambda kind: kind.habit in WOODY and not _is_cut_alike(kind),
    "dioecious": lambda kind: _system(kind) == "dioecious",
}
"""Which kinds a fact is asked of, by the words of decides.toml."""


@functools.cache
def decides() -> Decides:
    """What must be said of a kind and what decides something."""
    return packaged("decides", Decides)


def lacking(kind: Kind, written: Mapping[str, object]) -> Iterator[Gap]:
    """What every kind must say and this one's entry does not.

    Parameters
    ----------
    kind : Kind
        As it was read, with what was taken instead.
    written : mapping
        Its table as TOML gave it.
    """
    for entry, then in decides().required.items():
        if not written.get(entry):
            taken = then.format(habit=kind.habit, layer=kind.layer)
            yield Gap(entry, f"{kind.name} does not say its {_words(entry)}: {taken}.")


def assumed(kind: Kind, defaults: Defaults) -> Iterator[Gap]:
    """Facts that decide something and are not known of a kind, with what is assumed instead.

    Parameters
    ----------
    kind : Kind
        As it was read, its gaps not filled.
    defaults : Defaults
        What fills them.
    """
    filled = fill(kind, defaults)
    for row in decides().fact:
        if not KINDS_MEANT[row.of](kind) or any(_at(kind, fact) for fact in row.facts):
            continue
        then = row.then or _by_default(filled, row.facts, defaults)
        entries = row.facts if len(row.facts) <= 3 else (f"{row.facts[0].partition('.')[0]}",)
        said = " or ".join(entries)
        yield Gap(row.facts[0], f"{kind.name} does not say {row.decides} ({said}): {then}.")


def _by_default(filled: Kind, facts: tuple[str, ...], defaults: Defaults) -> str:
    """What `fill` takes for the first of the facts that it knows."""
    for name in facts:
        fact = _at(filled, name)
        if fact is not None and fact.source == DEFAULT_SOURCE:
            section, _, field = name.partition(".")
            of_family = field in defaults.family.get(filled.family, {}).get(section, {})
            like = f"the family {filled.family}" if of_family else f"plants of the habit {filled.habit}"
            what = f"{field.partition('_')[0]} " if len(facts) > 1 else ""
            return f"{what}{fact.value:g} is taken, a guess for {like}"
    return "nothing is taken"


def _at(kind: Kind, name: str) -> Fact[float] | None:
    section, _, field = name.partition(".")
    held = getattr(kind, section)
    fact: Fact[float] | None = getattr(held, field) if field else held
    return fact


def _words(entry: str) -> str:
    return "botanical name" if entry == "botanical" else entry
