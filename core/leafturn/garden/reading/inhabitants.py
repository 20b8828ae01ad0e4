"""What stands in the garden: plants, heaps, helpers, neighbours, seats and roofs, each with its place."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Any, TypeVar

import msgspec

from leafturn.garden.model import Garden, Heap, Helper, Neighbour, OwnJob, Plant, Point, Roof, Seat
from leafturn.garden.reading.frost_dates import month_and_day
from leafturn.garden.reading.names import Called, Finder, give_ids
from leafturn.garden.reading.place_phrases import quoted
from leafturn.garden.reading.positions import place_all
from leafturn.garden.reading.stated_places import StatedPlace
from leafturn.garden.reading.tables import PLACES, Spot, read_table
from leafturn.toml.messages import as_written

PLACED_TABLES = ("plant", "heap", "helper", "neighbour", "seat", "roof")  # tables of what has a place
_OF_A_HELPER = PLACES | {"hours_per_week", "days", "people", "keeper"}  # what one may lose and still help
Table = tuple[dict[str, Any], Spot]

# What is kept of a plant that is left out, so that others can still be placed by it.
_FOR_ITS_PLACE = frozenset({"id", "name", "at", "at_ft", "host"})


def with_inhabitants(garden: Garden, tables: Mapping[str, Sequence[Table]], top: Spot) -> Garden:
    """A garden with all that has a place in it.

    Parameters
    ----------
    garden : Garden
        Its place gives the length of a pace and the name of the datum.
    tables : mapping
        Tables with their spots under each of `PLACED_TABLES`.
    top : Spot
        Of the file.
    """
    place = garden.place
    plants, plant_spots, sound = _plants(tables["plant"])
    heaps, heap_spots = _all(tables["heap"], Heap, "heap")
    called = [Called(plant.id, plant.name, plant.kind[:40]) for plant in plants]
    plant_ids = _own_ids(called, "plant", plant_spots)
    called = [Called(heap.id, heap.name, "heap") for heap in heaps]
    heap_ids = _own_ids(called, "heap", heap_spots)
    helpers, helper_spots = _all(tables["helper"], Helper, "helper")
    _note_namesakes(helpers, helper_spots)
    neighbours, neighbour_spots, unmeasured = _neighbours(tables["neighbour"])
    seats, seat_spots = _all(tables["seat"], Seat, "seat")
    roofs, roof_spots = _all(tables["roof"], Roof, "roof")
    stated_places = [
        *map(_plant_stands, plants, plant_ids, plant_spots),
        *map(_heap_stands, heaps, heap_ids, heap_spots),
        *map(_helper_stands, helpers, helper_spots),
        *map(_neighbour_stands, neighbours, neighbour_spots),
        *(_named_stands(seat, spot, "seat") for seat, spot in zip(seats, seat_spots, strict=True)),
        *(_named_stands(roof, spot, "roof") for roof, spot in zip(roofs, roof_spots, strict=True)),
    ]
    ways = [path.name for path in garden.paths]
    placed = place_all(stated_places, file=top.file, pace_m=place.pace_m, datum=place.datum, ways=ways)
    top.faults.extend(placed.faults)
    points, hosts = iter(placed.points), iter(placed.hosts)
    replace = msgspec.structs.replace
    plants = [
        replace(plant, id=own, point=next(points), host=next(hosts) or plant.host)
        for plant, own in zip(plants, plant_ids, strict=True)
    ]
    heaps = [replace(heap, id=own, point=next(points)) for heap, own in zip(heaps, heap_ids, strict=True)]
    helpers = [replace(helper, reach_point=next(points)) for helper in helpers]
    neighbours = [replace(neighbour, point=next(points)) for neighbour in neighbours]
    seats = [replace(seat, point=next(points)) for seat in seats]
    roofs = [replace(roof, point=next(points)) for roof in roofs]
    placed_plants = tuple(plant for plant, is_sound in zip(plants, sound, strict=True) if is_sound)
    return replace(
        garden,
        plants=placed_plants,
        heaps=tuple(heaps),
        helpers=tuple(helpers),
        neighbours=_measured(neighbours, neighbour_spots, unmeasured, placed_plants),
        seats=tuple(seats),
        roofs=tuple(roofs),
    )


def _plant_stands(plant: Plant, own_id: str, spot: Spot) -> StatedPlace:
    line = spot.line("at" if plant.at is not None else "host")
    return StatedPlace(
        id=own_id,
        name=plant.name,
        cultivar=plant.cultivar,
        kind=plant.kind,
        at=plant.at,
        host=plant.host,
        line=line,
    )


def _heap_stands(heap: Heap, own_id: str, spot: Spot) -> StatedPlace:
    return StatedPlace(id=own_id, name=heap.name, at=heap.at, line=spot.line("at"))


def _helper_stands(helper: Helper, spot: Spot) -> StatedPlace:
    return StatedPlace(id=helper.name, at=helper.reach_from, line=spot.line("reach_from"), anchor=False)


def _neighbour_stands(neighbour: Neighbour, spot: Spot) -> StatedPlace:
    return StatedPlace(id=neighbour.kind, at=neighbour.at, line=spot.line("at"), anchor=False)


def _named_stands(one: Seat | Roof, spot: Spot, noun: str) -> StatedPlace:
    """A seat or roof; others are placed by it only where it has a name."""
    return StatedPlace(id=one.name or noun, at=one.at, line=spot.line("at"), anchor=bool(one.name))


def read_jobs(tables: Sequence[Table], plants: Sequence[Plant]) -> tuple[OwnJob, ...]:
    """The steward's own jobs, each with an id of its own and the id of its plant."""
    jobs, spots = _all(tables, OwnJob, "job")
    ids = _own_ids([Called(job.id, None, job.what[:40]) for job in jobs], "job", spots)
    finder = Finder((plant.id, plant.name, plant.cultivar, plant.kind) for plant in plants)
    read = []
    for job, own, spot in zip(jobs, ids, spots, strict=True):
        found = None if job.plant is None else finder.find(job.plant)
        if job.plant is not None and found is None:
            hint = finder.hint(job.plant) or "Use an id or a name that stands in the file."
            spot.add_fault(f"no plant {quoted(job.plant)}; the job {own} stands without it.", hint, "plant")
        plant_id = None if found is None else plants[found].id
        read.append(msgspec.structs.replace(job, id=own, plant=plant_id, when=_day_or_moment(job.when)))
    return tuple(read)


def _day_or_moment(when: str) -> str:
    """A day in words, "10 May", as "05-10"; a whole date and a moment stay as they are."""
    if when[:4].isdigit():
        return when
    return month_and_day(when) or when


_Kind = TypeVar("_Kind", Heap, Helper, OwnJob, Seat, Roof)


def _all(tables: Sequence[Table], kind: type[_Kind], noun: str) -> tuple[list[_Kind], list[Spot]]:
    """All tables of a kind that can be used, with their spots."""
    values, spots = [], []
    for table, spot in tables:
        # without what they can do or how far they go, helpers would be given any work: left out
        value = read_table(table, kind, spot, noun, may_lose=_OF_A_HELPER if kind is Helper else None)
        if value is not None:
            values.append(value)
            spots.append(spot)
    return values, spots


def _plants(tables: Sequence[Table]) -> tuple[list[Plant], list[Spot], list[bool]]:
    """Plants with their spots, and whether each is sound; the others are kept for their place only."""
    plants: list[Plant] = []
    spots: list[Spot] = []
    sound: list[bool] = []
    for table, spot in tables:
        if "s_alleles" in table:
            table = {**table, "s_alleles": _alleles(table["s_alleles"])}
        table = _with_usual_days(table, spot)
        plant = read_table(table, Plant, spot, "plant")
        is_sound = plant is not None
        if plant is None:
            rest = {key: value for key, value in table.items() if key in _FOR_ITS_PLACE}
            plant = read_table({**rest, "kind": "unnamed"}, Plant, spot.silent(), "plant")
        if plant is not None:
            plants.append(plant)
            spots.append(spot)
            sound.append(is_sound)
    return plants, spots, sound


def _with_usual_days(table: dict[str, Any], spot: Spot) -> dict[str, Any]:
    """The table with its usual days as "MM-DD"; one that is no day is left out and said."""
    for key in ("opens", "ripe"):
        if key not in table:
            continue
        day = month_and_day(table[key])
        rest = {name: value for name, value in table.items() if name != key}
        if day is None:
            spot.add_fault(
                f"{key} = {as_written(table[key])} is no day of the year; the plant is kept without it.",
                f'Write {key} = "04-28" or "28 April".',
                key,
            )
        table = rest if day is None else {**rest, key: day}
    return table


def _alleles(value: Any) -> Any:
    """ "S4S5" or "S4 S5" as a list; anything but text stays as it is."""
    words = [value] if isinstance(value, str) else value
    if not isinstance(words, list) or not all(isinstance(word, str) for word in words):
        return value
    return [one for word in words for one in re.split(r"[\s,/]+|(?<=\w)(?=S[0-9])", word) if one]


def _own_ids(called: Sequence[Called], noun: str, spots: Sequence[Spot]) -> list[str]:
    """An id of its own for each; an id given twice is said."""
    fit = [Called(_fit_id(one.given), one.name, one.fallback) for one in called]
    for one, fitting, spot in zip(called, fit, spots, strict=True):
        if one.given and one.given != fitting.given:
            spot.add_fault(
                f"the id {quoted(one.given)} holds a colon; it is read as {quoted(fitting.given or '')}.",
                "Use a hyphen.",
                "id",
            )
    ids, clashes = give_ids(fit)
    for clash in clashes:
        lines = spots[clash.first].line("id"), spots[clash.second].line("id")
        spots[clash.second].add_fault(
            f"{quoted(clash.id)} is the id of two {noun}s, on lines {lines[0]} and {lines[1]}; "
            f"the second is called {clash.instead} here.",
            "Give it an id of its own.",
            "id",
        )
    return list(ids)


def _fit_id(given: str | None) -> str | None:
    """An id without colons, which part the ids of jobs."""
    return given.replace(":", "-") if given else None


def _note_namesakes(helpers: Sequence[Helper], spots: Sequence[Spot]) -> None:
    first_spots: dict[str, Spot] = {}
    for helper, spot in zip(helpers, spots, strict=True):
        first = first_spots.setdefault(helper.name, spot)
        if first is not spot:
            lines = first.line("name"), spot.line("name")
            spot.add_fault(
                f"two helpers are called {quoted(helper.name)}, on lines {lines[0]} and {lines[1]}.",
                "Give each a name of its own, or write people = 2 for a pair.",
                "name",
            )


def _neighbours(tables: Sequence[Table]) -> tuple[list[Neighbour], list[Spot], set[int]]:
    """Neighbours with their spots, and which of them give a place instead of a distance."""
    neighbours: list[Neighbour] = []
    spots: list[Spot] = []
    unmeasured: set[int] = set()
    for table, spot in tables:
        measured = "how_far_m" in table or "how_far_ft" in table
        placed = "at" in table or "at_ft" in table
        ready = table if measured or not placed else {**table, "how_far_m": 0.0}
        neighbour = read_table(ready, Neighbour, spot, "neighbour")
        if neighbour is not None:
            if ready is not table:
                unmeasured.add(len(neighbours))
            neighbours.append(neighbour)
            spots.append(spot)
    return neighbours, spots, unmeasured


def _measured(
    neighbours: Sequence[Neighbour],
    spots: Sequence[Spot],
    unmeasured: set[int],
    plants: Sequence[Plant],
) -> tuple[Neighbour, ...]:
    """The neighbours, each with its distance to the nearest of its kind, or else to the datum."""
    kept = []
    for place, (neighbour, spot) in enumerate(zip(neighbours, spots, strict=True)):
        if place not in unmeasured:
            kept.append(neighbour)
        elif neighbour.point is None:
            spot.add_fault("how_far_m is missing; this neighbour is left out.", "Write how_far_m = 60", "at")
        else:
            kin = [
                plant.point for plant in plants if plant.kind == neighbour.kind and plant.point is not None
            ]
            metres = min(neighbour.point.metres_to(point) for point in kin or [Point(0.0, 0.0)])
            kept.append(msgspec.structs.replace(neighbour, how_far_m=metres))
    return tuple(kept)
