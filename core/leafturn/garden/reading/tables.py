"""One table of the garden file made into one typed value, with every slip said in plain words."""

from __future__ import annotations

import datetime as dt
import functools
import re
import types
import typing
from collections.abc import Mapping
from typing import Any, TypeVar

import msgspec
from msgspec import Struct
from msgspec.structs import replace

from leafturn.base.faults import Fault
from leafturn.base.units import TWINS, Twin, in_metric
from leafturn.base.value import Value
from leafturn.garden.reading.faults import FaultList
from leafturn.garden.reading.messages import Slip
from leafturn.garden.reading.natural_keys import hint_for_key
from leafturn.garden.reading.words_meant import Number, number_meant, word_meant
from leafturn.toml.positions import Step, Steps, TomlLines

Kind = TypeVar("Kind", bound=Struct)

# Fields that leafturn fills in itself; written in a file they are unknown keys.
_FILLED_IN = frozenset({"point", "reach_point"})

# Names go into lists and ids of jobs; a line break in one would break those.
_ONE_LINE = frozenset({"id", "name", "kind", "cultivar", "host", "guild", "datum"})

#: Something without its place still has its jobs.
PLACES = frozenset({"at", "reach_from"})


class Spot(Value, kw_only=False):
    """Where in which file a table stands, and where its faults are gathered.

    Parameters
    ----------
    file : str
        The file's name, for faults.
    lines : TomlLines
        Lines of that file.
    path : tuple of str or int
        Keys and list places that lead to the table.
    faults : FaultList
        Of the file; takes what is wrong.
    """

    file: str
    lines: TomlLines
    path: Steps
    faults: FaultList

    def line(self, *steps: Step) -> int | None:
        """Line of what stands under `steps` in the table; without steps, the table's own."""
        return self.lines.line_of(*self.path, *steps)

    def inside(self, *steps: Step) -> Spot:
        """The spot of a table within this one."""
        return replace(self, path=(*self.path, *steps))

    def silent(self) -> Spot:
        """The same spot, whose faults are told nobody."""
        return replace(self, faults=FaultList(self.file))

    def fault(self, message: str, hint: str = "", *steps: Step) -> Fault:
        """A fault of what stands under `steps`."""
        return Fault(file=self.file, line=self.line(*steps), message=message, hint=hint)

    def add_fault(self, message: str, hint: str = "", *steps: Step) -> None:
        """Gather a fault of what stands under `steps`."""
        self.faults.add(self.fault(message, hint, *steps))


class Field(Value, kw_only=False):
    """What a field of a value type takes."""

    words: tuple[str, ...] = ()  # the only words allowed; empty if any are
    is_text: bool = False
    is_text_list: bool = False
    number: Number | None = None
    table: type[Struct] | None = None  # the value type of a table inside


@functools.cache
def fields_of(kind: type[Struct]) -> Mapping[str, Field]:
    """The fields a file may give for `kind`, by name."""
    hints = typing.get_type_hints(kind)
    names = [field.name for field in msgspec.structs.fields(kind) if field.name not in _FILLED_IN]
    taken = {name: _field(hints[name]) for name in names}
    if hints.get("line") is int:
        del taken["line"]  # the table's own line; a path's line is its course and does come from the file
    return taken


def _field(hint: Any) -> Field:
    if typing.get_origin(hint) in (types.UnionType, typing.Union):
        hint = next(one for one in typing.get_args(hint) if one is not type(None))
    arguments = typing.get_args(hint)
    origin = typing.get_origin(hint)
    if origin is typing.Literal:
        return Field(words=arguments, is_text=True)
    if origin is tuple and arguments:
        inner = arguments[0]
        is_table = isinstance(inner, type) and issubclass(inner, Struct)
        return Field(is_text_list=inner is str, table=inner if is_table else None)
    if isinstance(hint, type) and issubclass(hint, Struct):
        return Field(table=hint)
    numbers: Mapping[Any, Number] = {int: "whole", float: "any"}
    return Field(is_text=hint is str, number=numbers.get(hint))


@functools.cache
def _twins_of(kind: type[Struct]) -> Mapping[str, Twin]:
    """The keys in feet, inches or degrees Fahrenheit that `kind` takes."""
    return {TWINS[name].key: TWINS[name] for name in fields_of(kind) if name in TWINS}


@functools.cache
def _needed(kind: type[Struct]) -> frozenset[str]:
    """The fields that no table of `kind` can do without; empty stands for the table itself."""
    return frozenset({"", *(field.name for field in msgspec.structs.fields(kind) if field.required)})


def known_keys(kind: type[Struct]) -> set[str]:
    """Every key a table of `kind` may hold, feet and Fahrenheit among them."""
    return {*fields_of(kind), *_twins_of(kind)}


def read_table(
    table: Mapping[str, Any],
    kind: type[Kind],
    spot: Spot,
    noun: str,
    *,
    may_lose: frozenset[str] | None = None,
) -> Kind | None:
    """One table as one value.

    Parameters
    ----------
    table : mapping
        As tomllib gives it.
    kind : type
        The value type.
    spot : Spot
        Where it stands.
    noun : str
        What it is called in faults: "plant".
    may_lose : frozenset of str or None
        Metric keys that may be wrong without the whole table being left out, of those that it can do
        without; None for all of these.

    Returns
    -------
    Struct or None
        None if something is wrong and the table is left out; the faults say what, all at once.
    """
    ready, written = _prepared(table, kind, spot, noun)
    if "line" in kind.__struct_fields__ and "line" not in fields_of(kind):
        ready["line"] = spot.line() or 0
    sound = True
    needed = _needed(kind)
    while True:
        try:
            value = msgspec.convert(ready, kind)
        except msgspec.ValidationError as error:
            slip = Slip(str(error), ready, written)
            if not slip.steps and slip.missing in written and not sound:
                return None  # it is there, but was found wrong a moment ago
            bearable = slip.key not in needed and (may_lose is None or slip.key in may_lose)
            outcome = f"{slip.written} is left out." if bearable else f"this {noun} is left out."
            hint = slip.hint(fields_of(kind)[slip.key].words if slip.key else ())
            spot.add_fault(slip.message(outcome), hint, *slip.steps_written)
            sound = sound and bearable
            if not slip.steps:
                return None
            del ready[slip.key]
        else:
            return value if sound else None


def _prepared(
    table: Mapping[str, Any], kind: type[Struct], spot: Spot, noun: str
) -> tuple[dict[str, Any], dict[str, str]]:
    """The table in metric, without unknown keys; and how each key was written."""
    fields = fields_of(kind)
    twins = _twins_of(kind)
    ready: dict[str, Any] = {}
    written: dict[str, str] = {}
    for key, value in table.items():
        twin = twins.get(key)
        name = key if twin is None else twin.metric_key
        if name not in fields:
            known = functools.partial(known_keys, kind)
            hint = hint_for_key(key, noun, value)
            spot.faults.add_unknown_key(key, noun, spot.line(key), known, hint)
        elif name in written:
            other = written[name]
            spot.add_fault(
                f"{other} (line {spot.line(other)}) and {key} (line {spot.line(key)}) "
                f"are both given; {other} is used.",
                "Keep one of them.",
                key,
            )
        else:
            written[name] = key
            field = fields[name]
            if field.table is not None:
                inner = f"{name} of this {noun}"
                ready[name] = _prepared_inside(value, field.table, spot.inside(key), inner)
            elif not (field.is_text and isinstance(value, str) and not value.strip()):
                ready[name] = _tidied(_metric(value, name, field, twin), name, field)
    return ready, written


def _prepared_inside(value: Any, kind: type[Struct], spot: Spot, noun: str) -> Any:
    """A table within a table, or a list of such; anything else stays for msgspec to find wrong."""
    if isinstance(value, dict):
        return _prepared(value, kind, spot, noun)[0]
    if isinstance(value, list):
        return [
            _prepared_inside(item, kind, spot.inside(place), noun) if isinstance(item, dict) else item
            for place, item in enumerate(value)
        ]
    return value


def _metric(value: Any, name: str, field: Field, twin: Twin | None) -> Any:
    """A value in the unit of its metric key; a number written as text is read where it is plain."""
    if field.number is not None and (meant := number_meant(value, name, field.number)) is not None:
        number, in_its_unit = meant
        value = int(number) if field.number == "whole" else number
        if in_its_unit:
            return value
    return in_metric(value, twin.convert) if twin else value


def _tidied(value: Any, name: str, field: Field) -> Any:
    """A value with what needs no asking put right: capitals, a lone word for a list, a bare date."""
    if isinstance(value, str):
        one_line = field.words or field.is_text_list or name in _ONE_LINE
        words = " ".join(value.split()) if one_line else value.strip()
        if field.words and words.lower() in field.words:
            return words.lower()
        if field.words and (meant := word_meant(words, name)):
            return meant
        return [word for word in re.split(r"\s*,\s*", words) if word] if field.is_text_list else words
    if isinstance(value, dt.date) and field.is_text:
        return value.isoformat()
    return value
