"""Reads a garden file: all of it that can be used, and a fault for every part that cannot."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from msgspec import structs

from leafturn.base.faults import Fault, Unreadable, clipped, nearest_word
from leafturn.base.value import Value
from leafturn.garden.model import Climate, Garden, Place
from leafturn.garden.model import Path as Way
from leafturn.garden.reading.climate import CLIMATE_KEYS, read_climate
from leafturn.garden.reading.faults import FaultList
from leafturn.garden.reading.file import bytes_of, find_garden_file
from leafturn.garden.reading.frost_sides import without_half_never, without_swapped_frosts
from leafturn.garden.reading.homes import LISTS, homes_of, is_list_of_tables, is_strayed
from leafturn.garden.reading.inhabitants import PLACED_TABLES, Table, read_jobs, with_inhabitants
from leafturn.garden.reading.natural_keys import hint_for_key, hint_for_table
from leafturn.garden.reading.other_gardens import ALSO, read_also
from leafturn.garden.reading.place_table import TWO_LINES, read_place
from leafturn.garden.reading.tables import Spot, known_keys, read_table
from leafturn.garden.reading.units_used import units_used
from leafturn.toml.positions import TomlLines
from leafturn.toml.rest import parse_round_slips

MOST_OF_A_LIST = 5_000  # plants, and anything else that comes in lists

_TABLES = ("place", "climate", ALSO, *LISTS)
_WORDS_OF_A_RULE = frozenset(("id", "verb", "title", "applies", "open", "best", "close"))
_EXAMPLES = {
    "plant": '{ kind = "pear" }',
    "helper": '{ name = "steward" }',
    "heap": '{ name = "by the gate" }',
    "seat": '{ name = "bench", at = [4, 30] }',
    "roof": '{ name = "shed", at = [4, 30], size_m = [3, 4] }',
}


class GardenReading(Value):
    """A garden and what is wrong with its file.

    Parameters
    ----------
    garden : Garden
        All that could be used.
    faults : tuple of Fault
        What could not, by line.
    folder, file : Path
        The garden's folder, and the file that was read.
    lines : TomlLines
        Where in the file things stand.
    """

    garden: Garden
    faults: tuple[Fault, ...]
    folder: Path
    file: Path
    lines: TomlLines


def read_garden(path: Path) -> GardenReading:
    """Read a garden.

    Parameters
    ----------
    path : Path
        A garden file, or a folder that holds `garden.toml` or one other TOML file with a [place].

    Raises
    ------
    Unreadable
        If there is no such file, it is not TOML, or it does not say where the garden is.
    """
    file = find_garden_file(path)
    return reading_of(bytes_found(path, file), file)


def bytes_found(path: Path, file: Path) -> bytes:
    """What the garden file holds that was found at `path`.

    A file that the user named may lie anywhere; one that was found in a folder lies there.
    """
    return bytes_of(file, within=path if path.is_dir() else None)


def reading_of(data: bytes, file: Path) -> GardenReading:
    """The garden that the bytes of a file hold, whether or not they lie there yet; else as `read_garden`."""
    rest = parse_round_slips(data, file.name, LISTS)
    faults = FaultList(file.name)
    faults.extend(rest.faults)
    try:
        lines = TomlLines(rest.text)
        garden = _garden_of(rest.tables, Spot(file.name, lines, (), faults), file)
    except Unreadable as why:
        raise (Unreadable(rest.slips[0]) if rest.slips else why) from None
    return GardenReading(garden=garden, faults=faults.in_order(), folder=file.parent, file=file, lines=lines)


def _garden_of(tables: dict[str, Any], top: Spot, file: Path) -> Garden:
    _settle_on_one_place(tables, top)
    place_table = tables.get("place")
    if not isinstance(place_table, dict):
        said = "There is no [place]" if place_table is None else "place is not a table"
        raise Unreadable(top.fault(f"{said}, so no season can be reckoned.", TWO_LINES, "place"))
    homes = [(home, top.inside(*way)) for home, way in homes_of(tables)]
    of_file_and_place = homes[:2]
    place, climate = _place_and_climate(of_file_and_place, file.parent)
    _note_unknown_tables(of_file_and_place)
    rules, own_rules = _rules(_tables_of("rule", homes))
    if "units" not in place_table:
        place = structs.replace(place, units=units_used(tables))
    paths = _ways(_tables_of("path", homes))
    garden = Garden(place=place, climate=climate, rules=rules, own_rules=own_rules, paths=paths)
    also, not_there = _also(of_file_and_place, file)
    garden = with_inhabitants(garden, {key: _tables_of(key, homes) for key in PLACED_TABLES}, top)
    return structs.replace(
        garden,
        jobs=read_jobs(_tables_of("job", homes), garden.plants),
        also=also,
        not_there=not_there,
    )


def _settle_on_one_place(tables: dict[str, Any], top: Spot) -> None:
    """Where the place is written as a list, put the first of it into the tables."""
    listed = tables.get("place")
    if isinstance(listed, list) and listed and isinstance(listed[0], dict):
        rest = " The first of them is read." if len(listed) > 1 else ""
        said = f"[[place]] has two pairs of brackets, and a garden has one place.{rest}"
        top.add_fault(said, "Write [place]", "place")
        tables["place"] = listed[0]


def _also(homes: Sequence[Table], file: Path) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The gardens named beside this one, at the top or after [place]; then those that are not there."""
    named = [(home[ALSO], spot) for home, spot in homes if ALSO in home]
    return read_also(*named[0], file) if named else ((), ())


def _place_and_climate(homes: Sequence[Table], folder: Path) -> tuple[Place, Climate | None]:
    """[place], and the climate that stands under [climate] or, as in a short file, under [place]."""
    place_table, spot = homes[-1]
    own: dict[str, Any] = {}
    climate: dict[str, Any] = {}
    for key, value in place_table.items():
        if key in CLIMATE_KEYS or _is_meant_for_climate(key, value):
            climate[key] = value
        elif key not in ("climate", ALSO, *LISTS) and not is_list_of_tables(value):
            own[key] = value
    place = read_place(own, spot, folder)
    sources = _tables_of("climate", homes)
    if climate:
        sources.append((climate, spot))
    spots = tuple(source for _, source in sources)
    read = without_half_never(read_climate(sources), spots)
    return place, without_swapped_frosts(read, place.lat, spots)


def _is_meant_for_climate(key: str, value: object) -> bool:
    """Whether a key of [place] that is not known there was most likely meant for one of the climate's."""
    places = known_keys(Place)
    if key in places or not isinstance(value, str | list) or hint_for_key(key, "place", value):
        return False
    return nearest_word(key, (*places, *CLIMATE_KEYS)) in CLIMATE_KEYS


def _note_unknown_tables(homes: Sequence[Table]) -> None:
    placed = known_keys(Place) | CLIMATE_KEYS
    for home, spot in homes:
        for key, value in home.items():
            if key in _TABLES or (spot.path and not is_list_of_tables(value)):
                continue
            if key in placed:
                spot.add_fault(f"{key} stands outside [place]; it is left out.", "Move it there.", key)
            else:
                hint = hint_for_table(key)
                spot.faults.add_unknown_key(key, "file", spot.line(key), lambda: _TABLES, hint)


def _tables_of(key: str, homes: Sequence[Table]) -> list[Table]:
    """All tables called `key`, wherever TOML put them and in whichever form they are written."""
    found: list[Table] = []
    for home, spot in homes:
        value = home.get(key, [])
        listed = isinstance(value, list)
        for number, one in enumerate(value if listed else [value]):
            inside = spot.inside(key, number) if listed else spot.inside(key)
            if isinstance(one, dict):
                found.append(({k: v for k, v in one.items() if not is_strayed(k, v)}, inside))
            else:
                example = f"Write {_EXAMPLES.get(key, '{ ... }')}"
                inside.add_fault(f"this {key} is not a table; it is left out.", example)
    if len(found) > MOST_OF_A_LIST:
        said = f"the file holds {len(found):,} {key}s; only the first {MOST_OF_A_LIST:,} are read."
        found[MOST_OF_A_LIST][1].add_fault(said)
    return found[:MOST_OF_A_LIST]


def _ways(tables: Sequence[Table]) -> tuple[Way, ...]:
    ways = []
    for table, spot in tables:
        way = read_table(table, Way, spot, "path")
        if way is not None and len(way.line) < 2:
            spot.add_fault(
                "a path with fewer than two points has no length; this path is left out.",
                "Write line = [[31, -30], [30, 20]]",
                "line",
            )
        elif way is not None:
            ways.append(way)
    return tuple(ways)


def _rules(tables: Sequence[Table]) -> tuple[dict[str, float | str | bool], tuple[dict[str, Any], ...]]:
    """The steward's own numbers, flat; and whole rules of their own, as they stand."""
    rules: dict[str, float | str | bool] = {}
    own: list[dict[str, Any]] = []
    for table, spot in tables:
        # An item of [[rule]] may hold numbers too: TOML lets no file have both [rule] and [[rule]].
        if spot.path[-1] != "rule" and (not table or _WORDS_OF_A_RULE & table.keys()):
            own.append({**table, "line": spot.line() or 0})
            continue
        for key, value in table.items():
            if isinstance(value, (bool, int, float, str)):
                rules[key] = value
            else:
                spot.add_fault(
                    f"rule {clipped(key, 40)} is no number, text, true or false; it is left out.",
                    f"Write {clipped(key, 40)} = 0.12",
                    key,
                )
    return rules, tuple(own)
