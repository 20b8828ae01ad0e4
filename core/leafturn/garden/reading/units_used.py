"""In which units most of a garden file is written, by the endings of its keys."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from leafturn.base.quantities import Units
from leafturn.base.units import TWINS

_METRIC = frozenset(TWINS) - {"at", "line"}  # these two have no ending: whoever writes them chose no unit
_US = frozenset(twin.key for twin in TWINS.values())


def units_used(tables: dict[str, Any]) -> Units:
    """US units where more keys end in feet, inches or Fahrenheit than in metric ones."""
    keys = list(_keys(tables))
    return "us" if sum(key in _US for key in keys) > sum(key in _METRIC for key in keys) else "metric"


def _keys(value: Any) -> Iterator[str]:
    if isinstance(value, dict):
        for key, inner in value.items():
            yield key
            yield from _keys(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from _keys(inner)
