"""The kinds of a library, and what a file of kinds lacks: in plain lines, or as JSON."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator
from itertools import chain
from typing import Any

from leafturn import __version__
from leafturn.answers.kinds_read import KindsRead
from leafturn.base.faults import Fault
from leafturn.base.prose import count
from leafturn.kinds.checks.kinds_file import KindsCheck
from leafturn.kinds.model import Kind
from leafturn.kinds.names import normalised
from leafturn_tui.render.parts.values import fault, fields


def kind_lines(kinds: Iterable[Kind]) -> Iterator[str]:
    """A line for each kind: its name, its botanical name, habit, and how many cultivars are known."""
    for kind in kinds:
        cultivars = len(kind.cultivars) + len(kind.also_grown)
        known = count(cultivars, "cultivar") if cultivars else ""
        yield ", ".join(part for part in (kind.name, kind.botanical, kind.habit, known) if part)


def kinds_as_json(kinds: Iterable[Kind], garden: str | None, on: dt.date) -> dict[str, Any]:
    """All kinds as one object."""
    told = [
        fields(kind, "name", "botanical", "common", "family", "habit", "layer")
        | {"cultivars": [*kind.cultivars, *kind.also_grown]}
        for kind in kinds
    ]
    return {"leafturn": __version__, "garden": garden, "on": on, "faults": [], "kinds": told}


def named(kind: Kind, words: str) -> bool:
    """Whether every word stands in one of the kind's names or of its cultivars'."""
    cultivars = ((name, *other) for name, other in kind.cultivar_names.items())
    names = (kind.name, kind.botanical, *kind.common, *kind.synonyms, *kind.serves_for, *chain(*cultivars))
    return any(all(word in normalised(name) for word in normalised(words).split()) for name in names)


def read_lines(found: KindsRead) -> Iterator[str]:
    """The share that was read, then each kind with its facts that were not."""
    yield (
        f"Of {found.facts} facts that decide for the {len(found.kinds)} commonest kinds {found.read} were "
        f"read on a page ({found.percent:.0f} %); the others are recalled or guessed."
    )
    for kind in found.kinds:
        yield ""
        yield f"{kind.kind}: {kind.read} of {kind.facts}"
        yield from (f"    {fact.what}: {fact.sure}; {fact.source}" for fact in kind.unread)


def read_as_json(found: KindsRead) -> dict[str, Any]:
    """The same as one object."""
    kinds = [
        {
            "name": kind.kind,
            "facts": kind.facts,
            "read": kind.read,
            "unread": [u._asdict() for u in kind.unread],
        }
        for kind in found.kinds
    ]
    return {
        "leafturn": __version__,
        "faults": [],
        "facts": found.facts,
        "read": found.read,
        "percent": found.percent,
        "kinds": kinds,
    }


def check_lines(found: KindsCheck) -> Iterator[str]:
    """What was found in a file of kinds, a sentence a line."""
    yield f"{found.file}: {count(len(found.kinds), 'kind')}, {count(len(found.faults), 'fault')}."
    yield from _under("to mend", found.faults)
    yield from _under("not said, and what is assumed instead", found.assumed)
    yield from _under("worth knowing", found.remarks)


def check_as_json(found: KindsCheck) -> dict[str, Any]:
    """What was found in a file of kinds, as one object."""
    return {
        "leafturn": __version__,
        "file": found.file,
        "kinds": list(found.kinds),
        "faults": list(map(fault, found.faults)),
        "assumed": list(map(fault, found.assumed)),
        "remarks": list(map(fault, found.remarks)),
    }


def _under(title: str, told: tuple[Fault, ...]) -> Iterator[str]:
    """Sentences under a title; nothing if there are none."""
    if told:
        yield ""
        yield f"{title}:"
        yield from (f"    {one.sentence()}" for one in told)
