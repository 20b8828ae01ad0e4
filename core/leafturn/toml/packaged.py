"""Tables that come with the program, each a TOML file beside the module that reads it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cache
from importlib import import_module
from pathlib import Path
from typing import Protocol, TypeVar

import msgspec

from leafturn.toml.kept_tables import places, read_tables

T = TypeVar("T")


class Row(Protocol):
    """A row of a table that is looked up by name: its own, or one of those in `also`."""

    @property
    def also(self) -> tuple[str, ...]:
        """Other names, in lower case."""
        ...


R = TypeVar("R", bound=Row)


def packaged(package: str, file: str, shape: type[T]) -> Callable[[], T]:
    """A packaged TOML file: called, it gives what the file holds, read once and checked against its shape.

    Parsed it is kept, as `kept_tables` has it.

    Parameters
    ----------
    package : str
        Where it lies, as in `import`.
    file : str
        Its name, "materials.toml".
    shape : type
        What it holds.

    Raises
    ------
    msgspec.ValidationError
        When called, if the file is not of that shape; a test reads them all.
    """

    def read() -> T:
        path = folder_of(package) / file
        kept = places(path, f"tables/{package}.{path.name}")
        tables = read_tables({path.name: path.read_bytes()}, kept, path)
        return msgspec.msgpack.decode(tables[path.name], type=shape)

    return cache(read)


def folder_of(package: str) -> Path:
    """Where the files of a package lie."""
    return Path(import_module(package).__path__[0])


def rows_by_name(package: str, file: str, shape: type[T]) -> Callable[[], dict[str, T]]:
    """A packaged file of rows under their names, each of which holds its own as `name`; as `packaged`."""
    table = packaged(package, file, dict[str, shape])  # type: ignore[valid-type]

    def read() -> dict[str, T]:
        return {name: msgspec.structs.replace(row, name=name) for name, row in table().items()}

    return cache(read)


def row_named(rows: Mapping[str, R], text: str | None) -> R | None:
    """The row of a table that has this name, in whatever case and spacing; None if there is none."""
    wanted = " ".join((text or "").lower().replace(".", "").split())
    return rows.get(wanted) or next((row for row in rows.values() if wanted in row.also), None)
