"""What is worth a look in a garden's files though it could be read, in one sentence each."""

from __future__ import annotations

import functools
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence

from leafturn.base.bounds import LAST_YEAR
from leafturn.base.closed_words import SKILLS
from leafturn.base.day_words import WEEKDAYS
from leafturn.base.faults import clipped, did_you_mean, nearest_word
from leafturn.garden.model import Garden, Helper, Place, Plant
from leafturn.garden.reading.planted import far_ahead
from leafturn.garden.reading.reader import GardenReading
from leafturn.journal.entries import Entry, LossNote
from leafturn.kinds.cultivar_elsewhere import kind_of_cultivar
from leafturn.kinds.library import Library
from leafturn.kinds.model import Kind
from leafturn.kinds.names import normalised
from leafturn.kinds.specimen import match_of

_NEAR_DEG = 0.5  # a place whose two numbers are so near those of the garden was copied from a map; a guess
# No tree is so many times as high as its kind grows; feet under metres are 3.3 times. A guess.
_TOO_HIGH = 3.0
_MOST_NAMED = 5
_MOST_SAID = 20


def remarks_on(reading: GardenReading, library: Library) -> list[str]:
    """How kinds and cultivars were read, and values that are of another unit by their looks, with lines."""
    said: dict[str, int] = {}
    for plant in reading.garden.plants:
        match = match_of(plant, library)
        for odd in (_in_degrees(plant, reading.garden.place), _in_feet(plant, match.kind)):
            if odd:
                said.setdefault(odd, plant.line)
        if not match.exact and match.sentence:
            said.setdefault(match.sentence, plant.line)
        if plant.cultivar and (meant := _cultivar_slip(library, match.kind, plant.cultivar)):
            said.setdefault(f'"{plant.cultivar}" was read as {meant}.', plant.line)
        if other := kind_of_cultivar(library, match.kind, plant.cultivar):
            whose = f'"{plant.cultivar}" is a cultivar of {other}, not of {match.kind.name}'
            said.setdefault(f'{whose}: if it is that, write kind = "{other}".', plant.line)
    for helper in reading.garden.helpers:
        said.update(dict.fromkeys(_of_helper(helper, reading.garden), helper.line))
    return [f"{reading.file.name}, line {line}: {sentence}" for sentence, line in said.items()]


def remarks_on_years(garden: Garden, file: str, now: int) -> list[str]:
    """Years of planting that are most likely slips, as asked in the year `now`."""
    years = [(plant, far_ahead(plant.year, now)) for plant in garden.plants if plant.year is not None]
    return [f"{file}, line {plant.line}: {plant.id}, year: {said}" for plant, said in years if said]


def _cultivar_slip(library: Library, kind: Kind, name: str) -> str | None:
    """The cultivar a misspelt name was taken for; None where it was written in words the library has."""
    found = library.cultivar(kind, name)
    if found is None:
        return None
    cultivar, facts = found
    known = {word for said in (cultivar, *facts.also_called) for word in normalised(said).split()}
    return None if known & set(normalised(name).split()) else cultivar


def _in_degrees(plant: Plant, place: Place) -> str:
    """A sentence where a place looks like degrees of latitude and longitude; else empty."""
    if not isinstance(plant.at, tuple):
        return ""
    degrees = (place.lat, place.lon)
    near = (
        all(abs(a - b) <= _NEAR_DEG for a, b in zip(plant.at, each, strict=True))
        for each in (degrees, degrees[::-1])
    )
    if max(map(abs, degrees)) < 1 or not any(near):
        return ""
    return (
        f"at of {plant.id} looks like latitude and longitude, and is read as metres east and north. "
        "leafturn points makes metres of such."
    )


def _in_feet(plant: Plant, kind: Kind) -> str:
    """A sentence where a height can hardly be one of metres; else empty."""
    grown = kind.size.height_m
    if plant.height_m is None or grown is None or plant.height_m <= _TOO_HIGH * grown.value:
        return ""
    return (
        f"{plant.id} is {plant.height_m:g} m high, and {kind.name} grows to about {grown.value:g} m. "
        "In feet it is written height_ft."
    )


def _of_helper(helper: Helper, garden: Garden) -> Iterator[str]:
    """Words said of a helper that no job and no week has."""
    of_rules = [rule.get("demands") for rule in garden.own_rules]
    own = {word for job in garden.jobs for word in job.demands}
    asked = own.union(*(words for words in of_rules if isinstance(words, list)))
    for word in helper.can:
        if word not in SKILLS and word not in asked:
            near = did_you_mean(clipped(word), SKILLS) or f"The words are: {', '.join(SKILLS)}."
            yield f'can of {helper.name} holds "{clipped(word)}", which no job asks for. {near}'
    for word in helper.days:
        if word[:3].title() not in WEEKDAYS:
            near = f'Write days = ["{WEEKDAYS[5].lower()}"], or whichever it is.'
            yield f'days of {helper.name} holds "{clipped(word)}", which is no day of the week. {near}'
    if helper.slope is not None and "level" not in helper.slope.lower():
        yield f'slope of {helper.name} is passed over. Write slope = "level only" if slopes are too much.'


def remarks_on_notes(entries: Sequence[Entry], garden: Garden) -> list[str]:
    """Names in notes that nothing here has, jobs that are none, and notes of years to come."""
    heaps = {heap.id for heap in garden.heaps}
    plants = {plant.id for plant in garden.plants} | heaps | {plant.name for plant in garden.plants}
    of_plants = {
        e.plant: e for e in entries if e.plant and e.plant not in plants and not isinstance(e, LossNote)
    }
    of_heaps = {e.heap: e for e in entries if e.heap and e.heap not in heaps}
    said = [_strangers("plants", of_plants, filter(None, plants)), _strangers("heaps", of_heaps, heaps)]
    for entry in [entry for entry in entries if not entry.sum]:  # by hand: of others the program has asked
        if entry.on.year > _year_of(entry.file) + 1:
            said.append(f"{_there(entry)}: this note is of {entry.on.year}, and counts from then on.")
        said += [
            f'{_there(entry)}: "{clipped(job)}" is no job, so this note closes none. '
            "A job is written plant:verb:year, as leafturn round --ids tells it."
            for job in entry.closes
            if ":" not in job
        ]
    return [sentence for sentence in said if sentence][:_MOST_SAID]


def _strangers(noun: str, notes: Mapping[str, Entry], known: Iterable[str]) -> str:
    """A sentence that lists names of what is not there, with where the first stands; empty for none."""
    if not notes:
        return ""
    names = sorted(notes)
    listed = ", ".join(names[:_MOST_NAMED]) + (" and others" if len(names) > _MOST_NAMED else "")
    near = did_you_mean(clipped(names[0]), known) if len(names) == 1 else _meant(names[:_MOST_NAMED], known)
    first = f"Notes name {noun} that are not in the garden file: {listed} ({_there(notes[names[0]])})."
    return f"{first} They are kept. {near}".strip()


def _meant(names: Iterable[str], known: Iterable[str]) -> str:
    """What several names were most likely meant for, as a question; empty where none lies near."""
    there = list(known)
    meant = [f"{near} for {clipped(name)}" for name in names if (near := nearest_word(name, there))]
    return f"Did you mean {', '.join(meant)}?" if meant else ""


def _there(entry: Entry) -> str:
    return f"{entry.file}, line {entry.line}"


@functools.cache
def _year_of(file: str) -> int:
    """The year a journal file is of; of one whose name tells none, the last."""
    found = re.search(r"\b(\d{4})\b[^/]*$", file)
    return int(found[1]) if found else LAST_YEAR
