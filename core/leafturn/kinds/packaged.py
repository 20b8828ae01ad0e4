"""The packaged data: a kind's facts are decoded, and its gaps filled, when it is first asked for."""

import functools
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, TypeVar

import msgspec
from msgspec import Raw, Struct

from leafturn.base.faults import Fault, Unreadable
from leafturn.kinds.defaults import Defaults, fill
from leafturn.kinds.model import Cultivar, Kind
from leafturn.toml.kept_tables import files_below, places, read_tables
from leafturn.toml.positions import TomlLines

T = TypeVar("T")
DATA = Path(__file__).with_name("data")
GROUPS = "groups/"  # the files below this folder hold kinds
FURTHER = "cultivars/"  # and those below this one more cultivars of kinds that stand there


class Names(Struct, frozen=True):
    """What a kind is called, without its facts."""

    name: str = ""
    botanical: str = ""
    common: tuple[str, ...] = ()
    synonyms: tuple[str, ...] = ()
    serves_for: tuple[str, ...] = ()

    @classmethod
    def of(cls, kind: Kind) -> "Names":
        """The names of a kind that is already at hand."""
        return cls(kind.name, kind.botanical, kind.common, kind.synonyms, kind.serves_for)


class _Further(Struct, frozen=True, forbid_unknown_fields=True):
    """The cultivars of a kind that stand in a file of their own."""

    cultivars: dict[str, Cultivar] = {}
    also_grown: dict[str, tuple[str, ...]] = {}


_NAMES = msgspec.msgpack.Decoder(Names)
_KIND = msgspec.msgpack.Decoder(Kind)
_FURTHER = msgspec.msgpack.Decoder(_Further)


class Tables(Mapping[str, dict[str, Any]]):
    """The kinds' tables as TOML gives them, each a value of its own.

    Parameters
    ----------
    packed : mapping of str to Raw
        The table of each kind in MessagePack.
    stands_in : mapping of str to str
        The packaged file each kind stands in.
    further : mapping of str to Raw
        Tables with more cultivars of some of the kinds.
    """

    def __init__(
        self,
        packed: Mapping[str, Raw],
        stands_in: Mapping[str, str],
        further: Mapping[str, Raw] | None = None,
    ) -> None:
        self._packed = packed
        self._stands_in = stands_in
        self._further = further or {}

    def __getitem__(self, name: str) -> dict[str, Any]:
        table = msgspec.msgpack.decode(self._packed[name], type=dict[str, Any])
        if name in self._further:
            more = msgspec.msgpack.decode(self._further[name], type=dict[str, dict[str, Any]])
            table |= {section: table.get(section, {}) | entries for section, entries in more.items()}
        return table

    def __contains__(self, name: object) -> bool:
        return name in self._packed

    def __iter__(self) -> Iterator[str]:
        return iter(self._packed)

    def __len__(self) -> int:
        return len(self._packed)

    def names(self, name: str) -> Names:
        """What a kind is called."""
        return msgspec.structs.replace(_NAMES.decode(self._packed[name]), name=name)

    def kind(self, name: str) -> Kind:
        """The kind as it is written, its gaps not filled."""
        kind = msgspec.structs.replace(_KIND.decode(self._packed[name]), name=name)
        if name not in self._further:
            return kind
        more = _FURTHER.decode(self._further[name])
        return msgspec.structs.replace(
            kind, cultivars=kind.cultivars | more.cultivars, also_grown=kind.also_grown | more.also_grown
        )

    def place_of(self, name: str) -> str:
        """The file and line a kind stands in, in words."""
        file = self._stands_in[name]
        line = _line(file, name)
        return file if line is None else f"{file}, line {line}"


class Kinds(Mapping[str, Kind]):
    """All kinds by name, each decoded and its gaps filled when it is first asked for.

    Parameters
    ----------
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
            self._kinds[name] = fill(self._tables.kind(name), self._defaults)
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
def packaged_tables() -> dict[str, Raw]:
    """The tables of every packaged file by its name below `DATA`, in MessagePack.

    Raises
    ------
    Unreadable
        If a file is no TOML.
    """
    return read_tables(files_below(DATA), places(DATA, "library"), DATA)


def packaged(name: str, into: type[T]) -> T:
    """What the packaged file NAME.toml holds, as a value of the type `into`."""
    return msgspec.msgpack.decode(packaged_tables()[f"{name}.toml"], type=into)


def tables_of_kinds(files: Mapping[str, Raw]) -> Tables:
    """The tables of the kinds in all group files, with the cultivars that stand in files of their own.

    Parameters
    ----------
    files : mapping of str to Raw
        As `packaged_tables` gives them.

    Raises
    ------
    Unreadable
        If two files of one folder hold one kind; the fault names both.
    """
    kinds, stands_in = _by_kind(files, GROUPS)
    return Tables(kinds, stands_in, _by_kind(files, FURTHER)[0])


def _by_kind(files: Mapping[str, Raw], folder: str) -> tuple[dict[str, Raw], dict[str, str]]:
    """The table of each kind in the files below a folder, and the file it stands in."""
    kinds: dict[str, Raw] = {}
    stands_in: dict[str, str] = {}
    for file, packed in files.items():
        if not file.startswith(folder):
            continue
        held = msgspec.msgpack.decode(packed, type=dict[str, Raw])
        for name in held.keys() & kinds.keys():
            first = Tables(kinds, stands_in).place_of(name)
            message = f'The kind "{name}" stands in {first} as well.'
            line = _line(file, name)
            raise Unreadable(Fault(file=file, line=line, message=message, hint="Keep one of the two."))
        kinds |= held
        stands_in |= dict.fromkeys(held, file)
    return kinds, stands_in


@functools.cache
def kind_tables() -> Tables:
    """The tables of all packaged kinds."""
    return tables_of_kinds(packaged_tables())


def _line(file: str, name: str) -> int | None:
    path = DATA / file
    return TomlLines(path.read_text("utf-8")).line_of(name) if path.exists() else None
