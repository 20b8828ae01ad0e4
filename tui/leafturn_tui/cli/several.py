"""Gardens asked together: those named, as in `leafturn round A B`, or named in a garden file as `also`."""

from __future__ import annotations

import argparse
import datetime as dt
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

from leafturn.assembly.other_gardens import NamedGarden, fault_named, opened_each
from leafturn.base import quantities
from leafturn.base.faults import Fault, Unreadable, clipped, did_you_mean
from leafturn_tui.cli.faults import Told, in_json, with_faults
from leafturn_tui.render.parts.gardens import each_as_json, several_json
from leafturn_tui.render.parts.printed import printed
from leafturn_tui.render.parts.values import Answer, shell

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

Gardens = Sequence[NamedGarden["AlmanacFace"]]


def gathered(names: Sequence[str], on: dt.date) -> tuple[NamedGarden[AlmanacFace], ...]:
    """The gardens named, each once; one named alone brings those that its file names as `also`.

    All are told in the units of the first.

    Raises
    ------
    Unreadable
        If none of them can be read.
    """
    from leafturn.almanac import open_almanac

    if len(names) < 2:
        name = names[0] if names else "."
        return beside(name, open_almanac(name, on))
    different = {Path(name).resolve(): name for name in reversed(names)}
    once = [name for name in dict.fromkeys(names) if name in different.values()]
    found = opened_each(once, Path(), lambda path: open_almanac(path, on))
    if all(one.garden is None for one in found):
        raise Unreadable(found[0].fault or Fault(file=once[0], line=None, message="it cannot be read."))
    quantities.speak(next(one.garden for one in found if one.garden is not None).garden.place.units)
    return found


def beside(name: str, almanac: AlmanacFace) -> tuple[NamedGarden[AlmanacFace], ...]:
    """A garden under the name it was given, and those that its file names as `also`."""
    return (NamedGarden(path=name, garden=almanac), *almanac.also())


def json_of_several(found: Gardens, named: int, on: dt.date, answer: Callable[[AlmanacFace], Answer]) -> Told:
    """One object: of a garden named alone its own, with those it names as `also` beside it.

    Parameters
    ----------
    found : sequence of NamedGarden
    named : int
        How many were named on the command line.
    on : date
    answer : callable
        Of one garden, without what every answer begins with.
    """
    first = found[0].garden
    if named > 1 or first is None:
        whole = several_json(found, on, answer)
    else:
        whole = shell(first) | answer(first) | {"also": each_as_json(found[1:], on, answer)}
    return in_json(whole, faults_of(found))


def faults_of(found: Gardens) -> list[Fault]:
    """The faults of each garden under its name; those of a garden here under their own."""
    faults: list[Fault] = []
    for number, one in enumerate(found):
        if one.fault is not None:
            faults.append(one.fault)
        elif one.garden is not None:
            own = one.garden.faults
            faults += own if number == 0 and one.path == "." else [fault_named(f, one.path) for f in own]
    return faults


def helper_of_any(found: Gardens, name: str | None, refuse: Callable[[str], NoReturn]) -> str | None:
    """A helper of one of the gardens, or a sentence that ends the command."""
    names = dict.fromkeys(
        h.name for one in found if one.garden is not None for h in one.garden.garden.all_helpers
    )
    if name is None or name in names:
        return name
    near = did_you_mean(name, names)
    refuse(
        f"there is no helper {clipped(name)!r}; helpers here: {', '.join(names)}{'. ' + near if near else ''}"
    )


def round_of_several(found: Gardens, named: int, on: dt.date, given: argparse.Namespace) -> Told:
    """The week of several gardens; `given` holds `helper`, whom one of them has, `ids`, `json`."""
    from leafturn_tui.render.round import as_json, lines_of_several

    if given.json:
        return json_of_several(found, named, on, partial(as_json, helper=given.helper))
    return with_faults(printed(lines_of_several(found, on, given.helper, given.ids)), faults_of(found))
