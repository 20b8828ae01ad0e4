"""A garden file ready to be changed: a plant, heap or helper added, or keys of a plant or helper changed.

An edit keeps every other byte of the file. It is read again and held against what was meant twice: the
tables of the file may differ in the keys that were to change and in nothing else, and the garden that is read
from them in that one plant, heap or helper.
"""

from __future__ import annotations

import copy
from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import cached_property
from pathlib import Path
from typing import Any, NamedTuple

from leafturn.base import prose
from leafturn.base.faults import Unreadable, clipped
from leafturn.base.units import TWINS
from leafturn.base.value import Value
from leafturn.garden.editing.checks import new_fault, same, without
from leafturn.garden.editing.edits import Edit, NotTaken, TooUnusual
from leafturn.garden.editing.toml_text import (
    HELPERS,
    PLANTS,
    by_hand,
    key_lines,
    plant_tables,
    with_changes,
    with_one_more,
)
from leafturn.garden.model import Garden, Heap, Plant
from leafturn.garden.reading.file import find_garden_file
from leafturn.garden.reading.homes import homes_of
from leafturn.garden.reading.names import plain_id
from leafturn.garden.reading.reader import GardenReading, bytes_found, reading_of
from leafturn.garden.things import helper_named
from leafturn.toml.guard import decode_toml, parse_toml
from leafturn.toml.positions import Steps, TomlLines
from leafturn.toml.spans import TableSpan, lists_of_tables

Tables = dict[str, Any]


class _Table(NamedTuple):
    """One of the file's tables of plants or helpers: which, where it stands if known, and that in words."""

    listed: Callable[[Tables], list[Any]]
    number: int | None
    span: TableSpan | None
    where: str


class GardenText(Value, eq=False):
    """A garden file as it lies on disk, or will lie there, with what was read from it."""

    data: bytes
    reading: GardenReading

    @property
    def file(self) -> Path:
        """The file."""
        return self.reading.file

    @property
    def _text(self) -> str:
        return self.data.decode("utf-8")

    @cached_property
    def _tables(self) -> Tables:
        return parse_toml(self.data, self.file.name)

    def adding(self, fields: Mapping[str, Any], into: Steps = PLANTS) -> Edit:
        """A plant more, or a heap or helper.

        Parameters
        ----------
        fields : mapping
            Keys of the file with their values, a free `id` among them, of a helper a `name`; those without a
            value are left out.
        into : tuple of str
            `PLANTS`, `HEAPS` or `HELPERS`.

        Raises
        ------
        NotTaken
            With what is wrong with a value, in the words of the reader.
        TooUnusual
            If this file's way of writing them is not known here.
        """
        key = str(into[-1])
        if not isinstance(self._tables.get(key, []), list):
            raise NotTaken(f"The {key}s of this file do not stand under [[{key}]]; write that there first.")
        fields = {key: value for key, value in fields.items() if value not in ("", None)}

        def meant(tables: Tables) -> None:
            tables.setdefault(key, []).append(dict(fields))

        unusual = TooUnusual(*by_hand(self._text, fields, into))
        about = str(fields.get("id") or fields["name"])
        return self._checked(with_one_more(self._text, fields, into), meant, about, unusual)

    def changing(self, plant_id: str, changes: Mapping[str, Any]) -> Edit:
        """Some keys of a plant changed.

        Parameters
        ----------
        plant_id : str
        changes : mapping
            Keys of the file with their new values; None takes a key away. A key in feet goes with its twin.

        Raises
        ------
        NotTaken
            If there is no such plant, nothing changes, or a value is wrong.
        TooUnusual
            If this file's way of writing the plant is not known here.
        """
        plant = self.reading.garden.plant(plant_id)
        if plant is None:
            raise NotTaken(f"{self.file.name} holds no plant {clipped(plant_id)!r}.")
        index = self._index(plant)
        written = {} if index is None else _plants_in(self._tables)[index]
        if "id" not in written and changes.keys() & {"kind", "name"}:
            changes = {"id": plant_id, **changes}  # an id that was made of these words stays what it is
        changes = {**dict.fromkeys(_twins(changes) & written.keys()), **changes}
        table = _Table(_plants_in, index, self._span(index), f"in the plant of line {plant.line}")
        return self._changed(table, changes, plant_id)

    def changing_helper(self, name: str, changes: Mapping[str, Any]) -> Edit:
        """Some keys of a helper changed; parameters and errors as of `changing`, the helper by name."""
        helper = helper_named(self.reading.garden, name)
        if helper is None:
            raise NotTaken(f"{self.file.name} holds no helper {clipped(name)!r}.")
        named = [
            isinstance(one, dict) and one.get("name") == helper.name for one in _helpers_in(self._tables)
        ]
        spans = lists_of_tables(self._text, HELPERS)[HELPERS]
        index = named.index(True) if named.count(True) == 1 and len(spans) == len(named) else None
        span = None if index is None else spans[index]
        table = _Table(_helpers_in, index, span, f"in the helper of line {helper.line}")
        return self._changed(table, changes, helper.name)

    def _changed(self, table: _Table, changes: Mapping[str, Any], about: str) -> Edit:
        """The edit of some keys of one table."""
        written = {} if table.number is None else table.listed(self._tables)[table.number]
        left = {key: value for key, value in changes.items() if not same(written.get(key), value)}
        if not left:
            raise NotTaken(f"Nothing changes: {self.file.name} says so already.")
        new = {key: value for key, value in left.items() if value is not None}
        unusual = TooUnusual(tuple(key_lines(new)), table.where)
        index, span = table.number, table.span
        if index is None or span is None or any(pair.dotted and pair.key in left for pair in span.pairs):
            raise unusual

        def meant(tables: Tables) -> None:
            one = table.listed(tables)[index]
            one.update(new)
            for key in left.keys() - new.keys():
                del one[key]

        return self._checked(with_changes(self._text, span, left), meant, about, unusual)

    def _index(self, plant: Plant) -> int | None:
        """Which of the file's tables of plants it is, by the line it stands on; None if that is not known."""
        tables, lines = self._tables, TomlLines(decode_toml(self.data, self.file.name))
        ways: list[Steps] = [
            (*way, n) for way, plants in _lists_of_plants(tables) for n, _ in enumerate(plants)
        ]
        on_line = [index for index, way in enumerate(ways) if lines.line_of(*way) == plant.line]
        here = [p.id for p in self.reading.garden.plants if p.line == plant.line]
        return on_line[here.index(plant.id)] if len(on_line) == len(here) else None

    def _span(self, index: int | None) -> TableSpan | None:
        """Where that table stands in the text."""
        spans = plant_tables(self._text)
        known = index is not None and len(spans) == len(_plants_in(self._tables))
        return spans[index] if known and index is not None else None

    def _checked(self, text: str, meant: Callable[[Tables], None], about: str, unusual: TooUnusual) -> Edit:
        """The edit, if the file and the garden differ as they should; else why not."""
        after = text.encode("utf-8")
        expected = copy.deepcopy(self._tables)
        meant(expected)
        try:
            tables = parse_toml(after, self.file.name)
            reading = reading_of(after, self.file)
        except Unreadable as why:
            raise unusual from why
        if not same(tables, expected):
            raise unusual
        fault = new_fault(self.reading.faults, reading.faults)
        if fault is not None:
            raise NotTaken(f"{prose.capital(fault.message)} {fault.hint}".strip())
        if without(reading.garden, about) != without(self.reading.garden, about):
            raise unusual
        return Edit(file=self.file, before=self.data, after=after, about=about)


def garden_text(path: Path) -> GardenText:
    """A garden file, ready to be changed.

    Raises
    ------
    Unreadable
        If no garden can be read there, or only round a slip.
    """
    file = find_garden_file(path)
    return text_of(bytes_found(path, file), file)


def text_of(data: bytes, file: Path) -> GardenText:
    """The text of a garden file that need not be written yet.

    Raises
    ------
    Unreadable
        If there is a slip in it: what was read round one is not what the file says.
    """
    parse_toml(data, file.name)
    return GardenText(data=data, reading=reading_of(data, file))


def free_id(garden: Garden, words: str) -> str:
    """An id made of a cultivar or kind that nothing in the garden has yet: "comice", "comice-2"."""
    named: tuple[Plant | Heap, ...] = (*garden.plants, *garden.heaps)
    taken = {one.id for one in named} | {plain_id(one.name or "") for one in named}
    base = plain_id(words) or "plant"
    numbers = (f"{base}-{n}" for n in range(2, len(taken) + 3))
    return next(name for name in (base, *numbers) if name not in taken)


def _twins(keys: Iterable[str]) -> set[str]:
    """The keys in other units that stand for the same."""
    return {b for t in TWINS.values() for a, b in ((t.key, t.metric_key), (t.metric_key, t.key)) if a in keys}


def _lists_of_plants(tables: Tables) -> Iterator[tuple[Steps, list[Any]]]:
    """The lists of plants of a file and the way to each."""
    for home, way in homes_of(tables):
        if isinstance(plants := home.get("plant"), list):
            yield (*way, "plant"), plants


def _plants_in(tables: Tables) -> list[Any]:
    return [plant for _, plants in _lists_of_plants(tables) for plant in plants]


def _helpers_in(tables: Tables) -> list[Any]:
    helpers = tables.get("helper", [])
    return helpers if isinstance(helpers, list) else []
