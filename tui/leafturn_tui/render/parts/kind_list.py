"""The kinds of a library, and what a file of kinds lacks: in plain lines, or as JSON."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator
from typing import Any

from leafturn import __version__
from leafturn.base.faults import Fault
from leafturn.base.prose import count
from leafturn.kinds.checks.kinds_file import KindsCheck
from leafturn.kinds.model import Kind
from leafturn_tui.render.parts.values import fault


def kind_lines(kinds: Iterable[Kind]) -> Iterator[str]:
    """A line for each kind: its name, its botanical name, habit, and how many cultivars are known."""
    for kind in kinds:
        known = count(len(kind.cultivars), "cultivar") if kind.cultivars else ""
        yield ", ".join(part for part in (kind.name, kind.botanical, kind.habit, known) if part)


def kinds_as_json(kinds: Iterable[Kind], garden: str | None, on: dt.date) -> dict[str, Any]:
    """All kinds as one object."""
    told = [
        {
            "name": kind.name,
            "botanical": kind.botanical,
            "common": list(kind.common),
            "family": kind.family,
            "habit": kind.habit,
            "layer": kind.layer,
            "cultivars": list(kind.cultivars),
        }
        for kind in kinds
    ]
    return {"leafturn": __version__, "garden": garden, "on": on, "faults": [], "kinds": told}


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
