"""Gardens that are asked together: each opened, or the sentence that says why it cannot be."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Generic, TypeVar

from leafturn.base.faults import Fault, Unreadable
from leafturn.base.value import Value

Opened = TypeVar("Opened", covariant=True)


class NamedGarden(Value, Generic[Opened]):
    """A garden among several.

    Parameters
    ----------
    path : str
        As it was named.
    garden : Opened or None
        None where it cannot be read.
    fault : Fault or None
        Then why, in one sentence.
    """

    path: str
    garden: Opened | None
    fault: Fault | None = None


def opened_each(
    names: Iterable[str], folder: Path, open_one: Callable[[Path], Opened]
) -> tuple[NamedGarden[Opened], ...]:
    """Each garden opened by itself: one that cannot be read costs the others nothing.

    Parameters
    ----------
    names : iterable of str
    folder : Path
        Where the names begin.
    open_one : callable
        Opens a path; may raise Unreadable.
    """
    found: list[NamedGarden[Opened]] = []
    for name in names:
        try:
            found.append(NamedGarden(path=name, garden=open_one(Path(os.path.normpath(folder / name)))))
        except Unreadable as why:
            found.append(NamedGarden(path=name, garden=None, fault=fault_named(why.fault, name)))
    return tuple(found)


def fault_named(fault: Fault, name: str) -> Fault:
    """A fault under the name that its garden was given, so that it is known which of several it is.

    Parameters
    ----------
    fault : Fault
    name : str
        The way to the garden as it was named.
    """
    inside = fault.file not in (name, os.path.basename(os.path.normpath(name)))
    file = f"{name.rstrip('/')}/{fault.file}" if inside else name
    return Fault(file=file, line=fault.line, message=fault.message, hint=fault.hint)
