"""The answers of the pages of tending, in plain lines and as JSON: climbers, heaps, larder, care."""

from __future__ import annotations

import dataclasses
import datetime as dt
import math
from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Any

from leafturn_tui.pages.care import care_groups
from leafturn_tui.pages.climbers import climber_groups, growth_words
from leafturn_tui.pages.heaps import NITROGEN, course_words, heap_groups, mix_words, nitrogen_lines
from leafturn_tui.pages.larder import larder_groups, week_words
from leafturn_tui.pages.told import Groups
from leafturn_tui.text import phrases

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace


def climbers(almanac: AlmanacFace) -> Iterator[str]:
    """Every climber with its growth and its load."""
    views = almanac.climbers()
    for climber in views:
        host = climber.host or "no host given"
        yield f"{climber.plant} on {host}: {climber.verdict}, {growth_words(climber, almanac.on)}"
        yield from told(climber_groups(climber, almanac))
    if not views:
        yield "No climber is in the garden file."


def heaps(almanac: AlmanacFace) -> Iterator[str]:
    """Every heap with all that is told of it."""
    views = almanac.heaps()
    for heap in views:
        yield ", ".join((heap.name, heap.stage, mix_words(heap), course_words(heap)))
        yield from told(heap_groups(heap, almanac))
    if not views:
        yield "No heap is in the garden file."
    lines = nitrogen_lines(almanac.nitrogen())
    if lines:
        yield NITROGEN
        yield from told([("", lines)])


def larder(almanac: AlmanacFace) -> Iterator[str]:
    """Every week on a line, then the gaps."""
    found = almanac.larder()
    for week in found.weeks:
        yield f"week {week.number}, from {phrases.day(week.first, almanac.on)}. {week_words(week)}"
    yield from told(larder_groups(found, almanac))


def care(almanac: AlmanacFace) -> Iterator[str]:
    """Every matter of care under its heading."""
    return told(care_groups(almanac.care(), almanac.water()))


def told(groups: Groups) -> Iterator[str]:
    """Groups of sentences as indented lines."""
    for title, sentences in groups:
        if title and sentences:
            yield f"    {title}:"
        yield from (f"    {'    ' if title else ''}{sentence}" for sentence in sentences)


def climbers_json(almanac: AlmanacFace) -> dict[str, Any]:
    """Every climber."""
    return {"climbers": [as_json(climber) for climber in almanac.climbers()]}


def heaps_json(almanac: AlmanacFace) -> dict[str, Any]:
    """Every heap, and what fixes nitrogen."""
    heaps = [as_json(heap) for heap in almanac.heaps()]
    return {"heaps": heaps, "nitrogen": as_json(almanac.nitrogen())}


def larder_json(almanac: AlmanacFace) -> dict[str, Any]:
    """Weeks, gaps and swings."""
    return {"larder": as_json(almanac.larder())}


def care_json(almanac: AlmanacFace) -> dict[str, Any]:
    """Every matter of care, and how every woody plant stands for water."""
    water = almanac.water()
    dry = {"plants": as_json(water.lines), "rain_question": water.rain_question}
    return {"care": as_json(almanac.care()), "water": dry}


def as_json(value: object) -> Any:
    """A frozen value as JSON can hold it: dates as ISO, numbers finite and with three decimals at most."""
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return {f.name: as_json(getattr(value, f.name)) for f in dataclasses.fields(value)}
    if isinstance(value, tuple) and hasattr(value, "_fields"):
        return {name: as_json(part) for name, part in zip(value._fields, value, strict=True)}
    if isinstance(value, Mapping):
        return {str(key): as_json(part) for key, part in value.items()}
    if isinstance(value, list | tuple):
        return [as_json(part) for part in value]
    if isinstance(value, dt.date):
        return value.isoformat()
    if isinstance(value, float):
        rounded = round(value, 3) if math.isfinite(value) else None
        return int(rounded) if rounded is not None and rounded.is_integer() else rounded
    return value


PLAIN = {
    "climbers": ("Which climber is too much for its host?", climbers),
    "heaps": ("Which heap wants turning?", heaps),
    "care": ("What could hurt someone, or a plant?", care),
    "larder": ("When is there nothing to pick?", larder),
}
JSON = {"climbers": climbers_json, "heaps": heaps_json, "larder": larder_json, "care": care_json}
