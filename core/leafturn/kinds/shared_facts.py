"""What is known of many kinds at once: their pests and stages, and where sources disagree."""

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from msgspec import Struct

from leafturn.kinds.fact import Fact
from leafturn.kinds.growing import HeatSum

if TYPE_CHECKING:
    from leafturn.kinds.library import Library
    from leafturn.kinds.model import Kind


class Pest(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A pest or disease worth scouting: its hosts, what to look for, and sums of heat as published."""

    hosts: tuple[str, ...]
    scout: Fact[str]
    heat_sums: tuple[HeatSum, ...] = ()


class Conflict(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A matter on which sources disagree.

    It concerns the `kinds` named, and every kind that has a fact in one of `sections` ("chill", "light",
    "heat_sums", "juglone"). `taken` says what the program goes by.
    """

    kinds: tuple[str, ...] = ()
    sections: tuple[str, ...] = ()
    readings: tuple[Fact[str], ...]
    taken: str


StageWords = Mapping[str, Mapping[str, str]]
"""List of stages to BBCH code to words."""


def pests_of(kind: "Kind", library: "Library") -> Iterator[tuple[str, Pest]]:
    """The pests of a kind that are worth scouting, by name."""
    return ((name, pest) for name, pest in library.pests.items() if kind.name in pest.hosts)


def conflicts_of(kind: "Kind", library: "Library") -> Iterator[tuple[str, Conflict]]:
    """The matters on which sources of a kind's facts disagree, with what they are about."""
    for about, conflict in library.conflicts.items():
        if kind.name in conflict.kinds or any(_has(kind, section) for section in conflict.sections):
            yield about, conflict


def stages_of(kind: "Kind", library: "Library") -> Mapping[str, str]:
    """BBCH code to words, for the list a kind goes by; empty if it names none."""
    return {} if kind.stages is None else library.stages.get(kind.stages.value, {})


def _has(kind: "Kind", section: str) -> bool:
    if section == "juglone":
        return kind.soil.juglone is not None
    held = getattr(kind, section)
    if isinstance(held, tuple):
        return bool(held)
    if section == "light":
        from_table = (held.through_leaf, held.through_bare)
        return any(fact is not None and fact.sure == "sure" for fact in from_table)
    return any(getattr(held, key) is not None for key in held.__struct_fields__)
