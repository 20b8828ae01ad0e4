"""`leafturn check --report`: what helps to find a fault in the program, without anything private."""

from __future__ import annotations

import argparse
import datetime as dt
import os
import platform
import sys
from collections import Counter
from collections.abc import Iterator
from importlib.metadata import PackageNotFoundError, version
from typing import TYPE_CHECKING

from leafturn import __version__
from leafturn_tui.cli.arguments import OwnWords
from leafturn_tui.cli.statuses import FINE
from leafturn_tui.render.parts.printed import printed
from leafturn_tui.text.phrases import count

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

LIBRARIES = ("textual", "rich", "numpy", "msgspec", "filelock", "icalendar")
SETTINGS = ("TERM", "COLORTERM", "LANG", "LC_ALL", "NO_COLOR", "LEAFTURN_LOOK")
GARDEN_FILE = "the garden file"


def add(parser: argparse.ArgumentParser) -> None:
    """The words of this command that only `check` has."""
    said = "tell what helps to find a fault in leafturn: versions and counts, no name, place, note or text"
    parser.add_argument("--report", action="store_true", help=said)


def reported(given: argparse.Namespace, on: dt.date) -> int | None:
    """Print the report if it is asked for; the exit status, None if it is not."""
    from leafturn_tui.cli.opening import open_garden

    if not given.report:
        return None
    sys.stdout.write(printed(report(open_garden(given.garden, on))))
    return FINE


def report(almanac: AlmanacFace) -> Iterator[str]:
    """The report, line by line. Nothing in it was typed by the steward."""
    yield "Names, places, notes and words of the garden are left out. Read it before you send it."
    machine = f"{platform.system()} {platform.machine()}"
    yield f"leafturn {__version__}, Python {platform.python_version()}, {machine}"
    yield ", ".join(f"{name} {_version(name)}" for name in LIBRARIES)
    yield ", ".join(f"{name}={os.environ[name]}" for name in SETTINGS if name in os.environ) or "no settings"
    yield from _garden(almanac)
    yield from _journal(almanac)
    yield from _faults(almanac)


def _version(name: str) -> str:
    try:
        return version(name)
    except PackageNotFoundError:
        return "not there"


def _garden(almanac: AlmanacFace) -> Iterator[str]:
    garden = almanac.garden
    known = sum(almanac.library.match(plant.kind).exact for plant in garden.plants)
    side = "south" if garden.place.southern else "north"
    latitude = 5 * round(abs(garden.place.lat) / 5)
    yield f"garden file: {almanac.file.stat().st_size:,} bytes, asked for {almanac.on}"
    yield f"about latitude {latitude} {side}"
    yield f"  {count(len(garden.plants), 'plant')}, {known} of kinds that are known"
    for noun, things in (
        ("helper", garden.helpers), ("heap", garden.heaps), ("path", garden.paths), ("seat", garden.seats),
        ("roof", garden.roofs), ("neighbour", garden.neighbours), ("own job", garden.jobs),
        ("own rule", garden.own_rules), ("own number", garden.rules), ("garden beside", garden.also),
    ):  # fmt: skip
        if things:
            yield f"  {count(len(things), noun)}"
    recorded = almanac.weather().recorded
    days = f"{recorded.days:,} days, {recorded.known:,} known" if recorded else ""
    if garden.place.weather is None:
        yield f"no weather file; noted by hand: {days}" if days else "no weather file"
    else:
        yield f"weather file: {days or 'not read'}"


def _journal(almanac: AlmanacFace) -> Iterator[str]:
    from leafturn.journal.store.proof import prove

    found = prove(almanac.folder)
    state = "whole" if found.whole else "not whole"
    yield f"journal: {count(found.notes, 'note')} in {count(len(found.files), 'file')}, {state}" + (
        ", cannot be written" if almanac.read_only else ""
    )
    kinds = Counter(line.entry.what for line in almanac.book())
    yield from (f"  {number} {what}" for what, number in sorted(kinds.items()))


def _faults(almanac: AlmanacFace) -> Iterator[str]:
    """Where faults are, not what they say: they quote the garden's words."""
    yield f"{count(len(almanac.faults), 'fault')}, {count(len(almanac.notes), 'remark')}"
    for fault in almanac.faults[:20]:
        where = {almanac.file.name: GARDEN_FILE, almanac.garden.place.weather: "the weather file"}
        named = where.get(fault.file, "the journal" if fault.file.startswith("journal") else "another file")
        yield f"  {named}" + (f", line {fault.line}" if fault.line else "")


WORDS = OwnWords(add=add, instead=reported, tells_faults=True)
