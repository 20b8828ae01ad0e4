"""The packaged data, read as it is needed: names at once, a kind's facts when it is first asked for."""

from __future__ import annotations

import functools
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import Any, Generic, NamedTuple, TypeVar

import msgspec

from leafturn.kinds import plain_toml
from leafturn.kinds.defaults import Defaults, fill
from leafturn.kinds.model import Kind

T = TypeVar("T")
_DATA = Path(__file__).with_name("data")
NOT_KINDS = (
    "sources",
    "rootstocks",
    "defaults",
    "shared_names",
    "crosses",
    "pests",
    "conflicts",
    "stages",
    "pruning",
)


class Names(NamedTuple):
    """What a kind is called, without its facts."""

    name: str
    botanical: str = ""
    common: tuple[str, ...] = ()
    synonyms: tuple[str, ...] = ()
    serves_for: tuple[str, ...] = ()

    @classmethod
    def of(cls, kind: Kind) -> Names:
        """The names of a kind that is already at hand."""
        return cls(kind.name, kind.botanical, kind.common, kind.synonyms, kind.serves_for)


_NAME_KEYS = Names._fields[1:]


class Later(Mapping[str, T], Generic[T]):
    """A mapping that is read when it is first looked into.

    Parameters
    ----------
    read : callable
        Gives the whole mapping; called once at most.
    """

    def __init__(self, read: Callable[[], Mapping[str, T]]) -> None:
        self._read = read

    @functools.cached_property
    def _whole(self) -> Mapping[str, T]:
        return self._read()

    def __getitem__(self, key: str) -> T:
        return self._whole[key]

    def __iter__(self) -> Iterator[str]:
        return iter(self._whole)

    def __len__(self) -> int:
        return len(self._whole)


class Tables(Mapping[str, dict[str, Any]]):
    """The kinds' tables as TOML gives them, each parsed when it is asked for; do not change them."""

    def __init__(self, texts: Mapping[str, str]) -> None:
        self._texts = texts
        self._parsed: dict[str, dict[str, Any]] = {}

    def __getitem__(self, name: str) -> dict[str, Any]:
        if name not in self._parsed:
            self._parsed[name] = plain_toml.loads(self._texts[name])[name]
        return self._parsed[name]

    def __contains__(self, name: object) -> bool:
        return name in self._texts

    def __iter__(self) -> Iterator[str]:
        return iter(self._texts)

    def __len__(self) -> int:
        return len(self._texts)

    def names(self, name: str) -> Names:
        """What a kind is called, found without parsing its facts where the text is plain."""
        head = self._texts[name].partition("\n[")[0]
        found: dict[str, Any] = {}
        lines = iter(head.split("\n"))
        for line in lines:
            key, _, value = line.partition(" = ")
            if key in _NAME_KEYS:
                found[key] = msgspec.json.decode(plain_toml.value_text(value, lines))
        words = {key: tuple(found.get(key, ())) for key in _NAME_KEYS[1:]}
        return Names(name, found["botanical"], **words)


class Kinds(Mapping[str, Kind]):
    """All kinds by name; a kind's facts are decoded, and its gaps filled, when it is first asked for.

    Parameters
    ----------
    tables : Tables
    defaults : Defaults
        What fills the gaps.
    added : mapping of str to Kind
        Kinds that stand before those of the same name in the tables.
    """

    def __init__(self, tables: Tables, defaults: Defaults, added: Mapping[str, Kind] | None = None) -> None:
        self._tables = tables
        self._defaults = defaults
        self._kinds = dict(added or {})
        self._names = [*tables, *(name for name in self._kinds if name not in tables)]

    def __getitem__(self, name: str) -> Kind:
        if name not in self._kinds:
            kind = msgspec.structs.replace(msgspec.convert(self._tables[name], Kind), name=name)
            self._kinds[name] = fill(kind, self._defaults)
        return self._kinds[name]

    def __contains__(self, name: object) -> bool:
        return name in self._kinds or name in self._tables

    def __iter__(self) -> Iterator[str]:
        return iter(self._names)

    def __len__(self) -> int:
        return len(self._names)

    def names(self) -> Iterator[Names]:
        """What every kind is called."""
        for name in self._names:
            yield Names.of(self._kinds[name]) if name in self._kinds else self._tables.names(name)


@functools.cache
def kind_tables() -> Tables:
    """The tables of all group files."""
    texts: dict[str, str] = {}
    for file in sorted(_DATA.glob("*.toml")):
        if file.stem not in NOT_KINDS:
            texts.update(_kind_texts(file.read_text("utf-8")))
    return Tables(texts)


def data(name: str) -> dict[str, Any]:
    """One packaged file that holds no kinds, whole."""
    return plain_toml.loads((_DATA / f"{name}.toml").read_text("utf-8"))


def later(name: str, into: type[T]) -> Later[T]:
    """A packaged file of tables of one shape, read when it is first looked into."""
    return Later(lambda: msgspec.convert(data(name), dict[str, into]))  # type: ignore[valid-type]


def _kind_texts(text: str) -> Iterator[tuple[str, str]]:
    """The kinds of a file with the text of each: its own table and those under it.

    Raises
    ------
    ValueError
        If a table stands before or away from its kind.
    """
    name, part = "", []
    for table in text.partition("\n[")[2].split("\n["):
        header = table.partition("]")[0]
        whose = header[1:].partition('"')[0] if header[0] == '"' else header.partition(".")[0]
        if whose == name:
            part.append(table)
            continue
        if name:
            yield name, "[" + "\n[".join(part)
        name, part = whose, [table]
    if name:
        yield name, "[" + "\n[".join(part)
