"""Reading everything a garden consists of: its file, journal, weather and the plant library."""

from __future__ import annotations

import os
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path

import msgspec

from leafturn.base import quantities
from leafturn.base.faults import Fault, clipped, did_you_mean
from leafturn.base.tunables import NUMBERS, complaints, number_named
from leafturn.base.value import Value
from leafturn.bloom.priors.prior import BloomPrior
from leafturn.garden.model import Garden
from leafturn.garden.reading.file import find_garden_file
from leafturn.garden.reading.reader import GardenReading, bytes_found, reading_of
from leafturn.garden.regions import dates_that_follow
from leafturn.journal.entries import Entry, LossNote
from leafturn.journal.store.store import JournalReading, Store
from leafturn.kinds.cultivar_elsewhere import kind_of_cultivar
from leafturn.kinds.library import Library, load_library
from leafturn.kinds.model import Kind
from leafturn.kinds.names import normalised
from leafturn.kinds.specimen import match_of
from leafturn.tasks.garden_rules import book_with, read_own_rules, replaced
from leafturn.tasks.rule_model import RuleBook, load_rules
from leafturn.tasks.timing.phrases import NoMoment, read_moment, stranger
from leafturn.toml.positions import TomlLines
from leafturn.weather.normals.normals import rough_year
from leafturn.weather.readers.reading import read_weather
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
    own_rules, own_faults = read_own_rules(garden.own_rules, reading.file.name, library, garden.plants)
    faults = [*reading.faults, *job_faults, *own_faults, *_rule_faults(reading)]
    faults += [*library_faults, *journal.faults]
    notes = [*journal.notes, *_kind_notes(reading, library), *_unmatched(journal.entries, reading.garden)]
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
    place = reading.garden.place
    usual = rough_year(place.lat, place.lon, place.height_m or 0.0, None, None)
    with quantities.speaking(place.units):
        weather = read_weather(reading.folder / name, name, usual, within=reading.folder)
    faults += weather.faults
    notes += weather.notes
    return weather.record


def stamp_of(file: Path, folder: Path, garden: Garden) -> Stamp:
    """Name, size and time of change of every file that matters; missing ones count as empty."""
    weather = [folder / name for name in _weather_files(garden) if name]
    years = sorted((folder / "journal").glob("*.toml")) if os.path.isdir(folder / "journal") else []
    return tuple(_stamp(p) for p in (file, folder / OWN_KINDS, folder / "journal.toml", *weather, *years))


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
        try:
            wrong = stranger(read_moment(job.when), plants)
        except NoMoment as error:
            wrong = str(error)
        if wrong:
            message = f"job {clipped(job.what)!r} is left out: when = {wrong}"
            faults.append(Fault(file=reading.file.name, line=job.line, message=message))
        else:
            kept.append(job)
    if not faults:
        return reading.garden, []
    return msgspec.structs.replace(reading.garden, jobs=tuple(kept)), faults


def _rule_faults(reading: GardenReading) -> list[Fault]:
    """Values under [rule] that cannot be used, or that nothing reads."""
    said = list(complaints(reading.garden.rules))
    holds = {f"{hold.replace(' ', '_')}_{end}" for hold in load_rules().holds for end in ("from", "to")}
    for name, value in reading.garden.rules.items():
        if name in holds:
            said += [(name, wrong) for wrong in _hold_complaint(name, value)]
        elif number_named(name) is None:
            near = did_you_mean(name, [*NUMBERS, *holds])
            said.append((name, f"{name} is no rule the program has, and changes nothing. {near}".strip()))
    return [
        Fault(file=reading.file.name, line=_line_of_rule(reading.lines, name), message=sentence)
        for name, sentence in said
    ]


def _line_of_rule(lines: TomlLines, name: str) -> int | None:
    """Where a number stands: under [rule], or in whichever [[rule]] holds it."""
    whole, place = lines.line_of("rule"), 0
    while place == 0 or lines.line_of("rule", place) != whole:  # a place that is not there gives the whole
        if (line := lines.line_of("rule", place, name)) != lines.line_of("rule", place):
            return line
        place += 1
    return lines.line_of("rule", name)


def _hold_complaint(name: str, value: float | str | bool) -> list[str]:
    try:
        read_moment(str(value))
    except NoMoment as error:
        return [f"{name} = {value} is not used: {error}"]
    return []


def _kind_notes(reading: GardenReading, library: Library) -> Iterable[str]:
    said: dict[str, int] = {}
    for plant in reading.garden.plants:
        match = match_of(plant, library)
        if not match.exact and match.sentence:
            said.setdefault(match.sentence, plant.line)
        if plant.cultivar and (meant := _cultivar_slip(library, match.kind, plant.cultivar)):
            said.setdefault(f'"{plant.cultivar}" was read as {meant}.', plant.line)
        if other := kind_of_cultivar(library, match.kind, plant.cultivar):
            whose = f'"{plant.cultivar}" is a cultivar of {other}, not of {match.kind.name}'
            said.setdefault(f'{whose}: if it is that, write kind = "{other}".', plant.line)
    return [f"{reading.file.name}, line {line}: {sentence}" for sentence, line in said.items()]


def _cultivar_slip(library: Library, kind: Kind, name: str) -> str | None:
    """The cultivar a misspelt name was taken for; None where it was written in words the library has."""
    found = library.cultivar(kind, name)
    if found is None:
        return None
    cultivar, facts = found
    known = {word for said in (cultivar, *facts.also_called) for word in normalised(said).split()}
    return None if known & set(normalised(name).split()) else cultivar


def _unmatched(entries: Sequence[Entry], garden: Garden) -> Iterable[str]:
    known = {p.id for p in garden.plants} | {h.id for h in garden.heaps} | {p.name for p in garden.plants}
    strange = {e.plant for e in entries if e.plant} - known  # hardly ever any, of however many notes
    names = (
        {e.plant for e in entries if e.plant in strange and not isinstance(e, LossNote)} if strange else ()
    )
    if not names:
        return []
    listed = ", ".join(sorted(names)[:5]) + (" and others" if len(names) > 5 else "")
    return [f"Notes name plants that are not in the garden file: {listed}. They are kept."]
