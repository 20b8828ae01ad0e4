"""One garden asked, whatever is in it: its answers as rows, or why it gave none.

This is what runs in other processes and on other machines, so it takes and gives plain values.
"""

from __future__ import annotations

import datetime as dt
import threading
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path

from leafturn.almanac import Almanac, open_almanac
from leafturn.base import quantities
from leafturn.base.faults import Unreadable
from leafturn.base.value import Value
from leafturn.fleet.tables import LEDGER, Answered, Question, Row, without_answers
from leafturn.garden.model import Place

MOST_SAID = 300  # letters of a sentence on what went wrong


class Asked(Value):
    """One garden and what it is asked.

    Parameters
    ----------
    name : str
        What it is called among the others.
    path : str
        Its folder or file, from the root of the file system, so that any process finds it.
    on : date
    questions : tuple of str
    """

    name: str
    path: str
    on: dt.date
    questions: tuple[Question, ...]


# The units that are spoken are those of the whole process, so gardens of one process are asked one by one.
_ALONE = threading.Lock()


def ask(asked: Asked) -> Answered:
    """Ask one garden; nothing that is wrong with it is raised. Its words are in the units it speaks."""
    with _ALONE, quantities.speaking(quantities.spoken()):  # as before, once it is asked
        return _ask(asked)


def _ask(asked: Asked) -> Answered:
    try:
        almanac = open_almanac(Path(asked.path), asked.on)
        rows = {LEDGER: (_ledger(asked.name, almanac),), "faults": tuple(_faults(asked.name, almanac))}
        for question in asked.questions:
            rows[question] = tuple(_ROWS[question](asked.name, almanac))
    except Unreadable as why:
        return without_answers(asked.name, "cannot be read", why.fault.sentence()[:MOST_SAID])
    except OSError as why:
        return without_answers(asked.name, "cannot be read", str(why)[:MOST_SAID])
    except Exception as why:  # a mistake of the program's own must not cost the other gardens
        said = f"the program failed on it: {type(why).__name__}: {why}"
        return without_answers(asked.name, "failed", said[:MOST_SAID])
    return Answered(garden=asked.name, state="answered", said="", rows=rows)


def area(place: Place) -> str:
    """Where a garden is, as coarsely as gardens are told together: its region, else a cell of a degree."""
    if place.region:
        return " ".join(place.region.lower().split())
    return f"{_whole(place.lat, 'NS')} {_whole(place.lon, 'EW')}"


def _whole(degrees: float, sides: str) -> str:
    return f"{abs(round(degrees))}{sides[round(degrees) < 0]}"


def _begin(name: str, almanac: Almanac) -> tuple[str, str]:
    return name, area(almanac.garden.place)


def _ledger(name: str, almanac: Almanac) -> Row:
    place = almanac.garden.place
    counts = (len(almanac.garden.plants), len(almanac.faults))
    return *_begin(name, almanac), "answered", "", place.name, place.lat, place.lon, *counts


def _faults(name: str, almanac: Almanac) -> Iterator[Row]:
    for fault in almanac.faults:
        yield *_begin(name, almanac), fault.file, fault.line, fault.message, fault.hint


def _round(name: str, almanac: Almanac) -> Iterator[Row]:
    for job in almanac.round().jobs:
        window = (job.open.likely, job.best.likely, job.close.likely)
        told = (job.minutes, job.who, job.why[0] if job.why else "")
        yield *_begin(name, almanac), job.id, job.plant, job.verb, job.state, *window, *told


def _partners(name: str, almanac: Almanac) -> Iterator[Row]:
    for tree in almanac.partners():
        chance = (tree.adequacy, tree.low, tree.high)
        standing = (tree.plant, tree.kind, tree.cultivar or "", tree.standing)
        yield *_begin(name, almanac), *standing, *chance, tree.weakest


def _frost(name: str, almanac: Almanac) -> Iterator[Row]:
    for one in almanac.frost_ahead():
        celsius = (one.tenth_c, one.tonight_c)
        yield *_begin(name, almanac), one.plant, one.kind, one.part, one.chance, *celsius, one.basis


def _forecasts(name: str, almanac: Almanac) -> Iterator[Row]:
    kinds = {plant.id: almanac.day.kind(plant).name for plant in almanac.garden.plants}
    for scored in almanac.score().kinds:
        for miss in scored.misses:
            days = (miss.observed, miss.asked, miss.forecast)
            misses = (miss.miss, miss.fixed_miss, miss.notes_miss)
            yield *_begin(name, almanac), miss.what, miss.plant, kinds.get(miss.plant, ""), *days, *misses


_ROWS: Mapping[Question, Callable[[str, Almanac], Iterator[Row]]] = {
    "round": _round, "partners": _partners, "frost": _frost, "forecasts": _forecasts,
}  # fmt: skip
