"""Whether a garden file that was edited differs from what it was as it was meant to, and in nothing else."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable
from typing import Any

from msgspec import structs

from leafturn.base.faults import Fault
from leafturn.garden.model import Garden


def new_fault(was: Iterable[Fault], now: Iterable[Fault]) -> Fault | None:
    """The first fault that an edit brings in; one that only stands on another line is none."""
    known = Counter(_words(fault) for fault in was)
    for fault in now:
        known[_words(fault)] -= 1
        if known[_words(fault)] < 0:
            return fault
    return None


def _words(fault: Fault) -> str:
    """What a fault says, without numbers of lines."""
    return re.sub(r"\blines? \d+(?: and \d+)?", "", fault.message)


def without(garden: Garden, about: str) -> Garden:
    """The garden but for one plant, heap or helper, and without lines, and points that may hang on it."""
    plants = tuple(_bare(p) for p in garden.plants if p.id != about)
    heaps = tuple(_bare(h) for h in garden.heaps if h.id != about)
    helpers = tuple(_bare(h) for h in garden.helpers if h.name != about)
    seats, roofs = (tuple(map(_bare, t)) for t in (garden.seats, garden.roofs))
    neighbours = tuple(_bare(structs.replace(n, how_far_m=0.0)) for n in garden.neighbours)
    jobs = tuple(_bare(job) for job in garden.jobs)
    place = structs.replace(garden.place, units="metric")  # which may hang on how that plant is measured
    return structs.replace(
        garden, place=place, plants=plants, heaps=heaps, helpers=helpers, seats=seats, roofs=roofs,
        neighbours=neighbours, jobs=jobs, own_rules=(),
    )  # fmt: skip


def _bare(thing: Any) -> Any:
    gone = {"line": 0, "point": None, "reach_point": None}
    return structs.replace(thing, **{key: gone[key] for key in gone.keys() & set(thing.__struct_fields__)})


def same(one: Any, other: Any) -> bool:
    """Whether two values of a file are the same, 1 and 1.0 and true told apart."""
    if type(one) is not type(other):
        return (
            isinstance(one, list | tuple) and isinstance(other, list | tuple) and same(list(one), list(other))
        )
    if isinstance(one, dict):
        return one.keys() == other.keys() and all(same(value, other[key]) for key, value in one.items())
    if isinstance(one, list):
        return len(one) == len(other) and all(map(same, one, other))
    return bool(one == other)
