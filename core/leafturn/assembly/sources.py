"""Reading everything a garden consists of: its file, journal, weather and the plant library."""

from __future__ import annotations

import os
from collections.abc import Mapping
from pathlib import Path

import msgspec

from leafturn.assembly.own_numbers import with_sound_numbers
from leafturn.assembly.remarks import remarks_on, remarks_on_notes
from leafturn.base import quantities
from leafturn.base.faults import Fault, clipped
from leafturn.base.value import Value
from leafturn.bloom.priors.prior import BloomPrior
from leafturn.garden.model import Garden
from leafturn.garden.reading.file import GARDEN_FILE, find_garden_file
from leafturn.garden.reading.reader import GardenReading, bytes_found, reading_of
from leafturn.garden.regions import dates_that_follow
from leafturn.journal.store.store import JournalReading, Store
from leafturn.kinds.library import Library, load_library
from leafturn.tasks.garden_rules import book_with, read_own_rules, replaced
from leafturn.tasks.rule_model import RuleBook
from leafturn.tasks.timing.phrases import wrong_with
from leafturn.weather.normals.rough_year import year_by_place
from leafturn.weather.record import DailyRecord

OWN_KINDS = "kinds.toml"

Stamp = tuple[tuple[str, int, int], ...]


class Sources(Value, eq=False):
    """What was read, before anything is computed.

    `reading` is the garden file as it was read, `data` its bytes; `faults` are things to mend in the files,
    `notes` things worth knowing; `stamp` tells whether a file
    has changed since; `record` are days as a weather file has them, `forecast` days ahead; `store` is where
    notes are written; `rules` are those in force, the garden's own among them; `priors` stand in for
    packaged ones of kinds.
    """

    reading: GardenReading
    data: bytes
    file: Path
    folder: Path
    garden: Garden
    journal: JournalReading
    library: Library
    record: DailyRecord | None
    forecast: DailyRecord | None
    faults: tuple[Fault, ...]
    notes: tuple[str, ...]
    stamp: Stamp
    store: Store
    rules: RuleBook
    priors: Mapping[str, BloomPrior | None] | None = None

    def changed(self) -> bool:
        """Whether any file differs from what was read."""
        return stamp_of(self.file, self.folder, self.garden) != self.stamp


def read_sources(path: Path, before: Sources | None = None) -> Sources:
    """Read a garden with all that belongs to it.

    Parameters
    ----------
    path : Path
        The garden's folder or file.
    before : Sources or None
        The same garden as read before: of its journal only the years that have changed are read again, and
        a garden file without faults only if it holds other bytes.

    Raises
    ------
    Unreadable
        If there is no garden file there, or it cannot be read at all.
    """
    file = find_garden_file(path)
    data = bytes_found(path, file)
    is_as_before = before is not None and (file, data) == (before.file, before.data)
    reading = (
        before.reading if before and is_as_before and not before.reading.faults else reading_of(data, file)
    )
    stamp = stamp_of(reading.file, reading.folder, reading.garden)
    store = before.store if before is not None else Store(reading.folder)
    journal = store.read()
    own = reading.folder / OWN_KINDS
    library, library_faults = load_library(own if os.path.lexists(own) else None)
    garden, job_faults = _own_jobs_checked(reading)
    garden, number_faults = with_sound_numbers(garden, reading)
    own_rules, own_faults = read_own_rules(garden.own_rules, reading.file.name, library, garden.plants)
    faults = [*reading.faults, *job_faults, *own_faults, *number_faults]
    faults += [*library_faults, *journal.faults]
    notes = [*journal.notes, *remarks_on(reading, library)]
    notes += remarks_on_notes(journal.entries, reading.garden)
    notes += [f"{reading.file.name}: {said}" for said in [dates_that_follow(garden.place)] if said]
    notes += replaced(garden.own_rules, reading.file.name, own_rules)
    days = {name: _weather(reading, name, faults, notes) for name in dict.fromkeys(_weather_files(garden))}
    return Sources(
        reading=reading,
        data=data,
        file=reading.file,
        folder=reading.folder,
        garden=garden,
        journal=journal,
        library=library,
        record=days[garden.place.weather],
        forecast=days[garden.place.forecast],
        faults=tuple(faults),
        notes=tuple(notes),
        stamp=stamp,
        store=store,
        rules=book_with(own_rules, garden.place),
        priors=None if before is None else before.priors,
    )


def _weather_files(garden: Garden) -> tuple[str | None, str | None]:
    """What the garden file names of weather that was, and of weather foreseen."""
    return garden.place.weather, garden.place.forecast


def _weather(
    reading: GardenReading, name: str | None, faults: list[Fault], notes: list[str]
) -> DailyRecord | None:
    """The days of a weather file; what is wrong with it, or was set aside, is added to faults and notes."""
    if not name:
        return None
    from leafturn.weather.readers.reading import read_weather

    place = reading.garden.place
    usual = year_by_place(place)
    with quantities.speaking(place.units):
        weather = read_weather(reading.folder / name, name, usual, within=reading.folder)
    faults += weather.faults
    notes += weather.notes
    return weather.record


def stamp_of(file: Path, folder: Path, garden: Garden) -> Stamp:
    """Name, size and time of change of every file that matters; missing ones count as empty.

    Among them are folders that the file names and that are not there: they may still come.
    """
    still_to_come = [folder / name for name in garden.not_there]
    weather = [folder / name for name in _weather_files(garden) if name]
    years = sorted((folder / "journal").glob("*.toml")) if os.path.isdir(folder / "journal") else []
    own = (file, folder / OWN_KINDS, folder / "journal.toml")
    return tuple(_stamp(p) for p in (*own, *weather, *years, *still_to_come))


def stamp_of_folder(path: Path) -> Stamp:
    """The same of a garden that could not be read: its folder, and the garden file in it."""
    return tuple(_stamp(p) for p in (path, path / GARDEN_FILE))


def _stamp(path: Path) -> tuple[str, int, int]:
    try:
        stat = os.stat(path)
    except OSError:
        return str(path), -1, -1
    return str(path), stat.st_size, stat.st_mtime_ns


def _own_jobs_checked(reading: GardenReading) -> tuple[Garden, list[Fault]]:
    """The garden without own jobs whose moment cannot be read, and the faults that say so."""
    kept, faults = [], []
    plants = [plant.id for plant in reading.garden.plants]
    for job in reading.garden.jobs:
        if wrong := wrong_with(job.when, plants):
            message = f"job {clipped(job.what)!r} is left out: when = {wrong}"
            faults.append(Fault(file=reading.file.name, line=job.line, message=message))
        else:
            kept.append(job)
    if not faults:
        return reading.garden, []
    return msgspec.structs.replace(reading.garden, jobs=tuple(kept)), faults
