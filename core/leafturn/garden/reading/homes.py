"""In which tables of a garden file its lists stand.

TOML puts a list into the table whose heading precedes it: `plant = [...]` after [place] or after a [[helper]]
belongs to that table. Nobody means that, so the lists of the file are its own wherever they stand.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from leafturn.toml.positions import Steps

LISTS = ("plant", "heap", "helper", "path", "seat", "roof", "neighbour", "job", "rule")


def homes_of(tables: dict[str, Any]) -> Iterator[tuple[dict[str, Any], Steps]]:
    """The tables in which lists of the file may stand, each with its way: the file, [place], then others."""
    yield tables, ()
    if isinstance(place := tables.get("place"), dict):
        yield place, ("place",)
    for key, value in tables.items():
        listed = isinstance(value, list)
        for place, one in enumerate(value if listed else (value,)):
            if key != "place" and isinstance(one, dict) and any(is_strayed(k, v) for k, v in one.items()):
                yield one, (key, place) if listed else (key,)


def is_strayed(key: str, value: object) -> bool:
    """Whether what stands under a key of some table is a list of the file."""
    return key in LISTS and is_list_of_tables(value)


def is_list_of_tables(value: object) -> bool:
    """Whether a value is a list in which tables are."""
    return isinstance(value, list) and any(isinstance(one, dict) for one in value)
