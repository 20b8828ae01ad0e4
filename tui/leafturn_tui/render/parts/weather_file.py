"""How a weather file is read, in plain lines and as JSON."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from leafturn_tui.render.parts.fetched_weather import months_beside
from leafturn_tui.render.parts.printed import fault_lines
from leafturn_tui.render.parts.values import Answer, fault, fields
from leafturn_tui.render.weather import BASES, recorded_json, recorded_lines

if TYPE_CHECKING:
    from leafturn.answers.weather_file import WeatherFileRead

WIDEST_NAME = 32  # cells of a column's name; longer ones push their line


def lines(found: WeatherFileRead) -> Iterator[str]:
    """Its columns, days and gaps, what is wrong or set aside, and its usual months beside the place's."""
    yield f"How is {found.name} read?"
    yield ""
    width = min(max((len(column.name) for column in found.columns), default=0), WIDEST_NAME)
    for column in found.columns:
        yield f"{column.name:<{width}}  {column.words}"
    if found.columns:
        yield ""
    yield from fault_lines(found.faults)
    yield from found.notes
    if found.recorded is None:
        yield "Nothing of it could be used."
        return
    yield from recorded_lines(found.recorded)
    if not found.months:
        yield "It has too few days to tell what is usual in it."
    elif found.basis is not None:
        yield ""
        yield from months_beside(found.months, found.without, "without")
        yield ""
        yield f"Without this file: {BASES[found.basis]}"


def as_json(found: WeatherFileRead) -> Answer:
    """The same as plain nouns."""
    recorded = None if found.recorded is None else recorded_json(found.recorded)
    return {
        "file": found.name,
        "columns": [fields(column, "name", read_as="words") for column in found.columns],
        "recorded": recorded,
        "faults": [fault(one) for one in found.faults],
        **fields(found, "notes", "months", "without", "basis"),
    }
