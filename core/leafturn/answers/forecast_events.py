"""What is foretold and can be noted: bloom, leaves, picking and frost of each season."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator, Mapping
from typing import Literal, NamedTuple

from leafturn.base.bloom_stages import FIRST_OPEN
from leafturn.journal.entries import BloomNote, Entry, HarvestNote
from leafturn.season.axis import SeasonAxis

LEAD_DAYS = 14  # a forecast is judged by what it said so long before

What = Literal["first open", "leaf-out", "picking", "leaf fall", "last frost", "first frost"]
OF_PLANTS: tuple[What, ...] = ("first open", "leaf-out", "picking", "leaf fall")
FROSTS: tuple[What, ...] = ("last frost", "first frost")
BUD_BREAK, LEAVES_DOWN = range(7, 13), range(93, 98)  # BBCH of leaf-out and of leaf fall


class Event(NamedTuple):
    """What is foretold of a plant; of frost the plant is empty."""

    what: What
    plant: str = ""


class Hindcast(NamedTuple):
    """A hindcast of one event: the day foretold, and its usual day as published."""

    likely: dt.date | None
    published: dt.date | None


class ObservedEvent(NamedTuple):
    """An event of one season, on the day it was first noted."""

    event: Event
    season: SeasonAxis
    on: dt.date

    @property
    def asked(self) -> dt.date:
        """The day whose forecast is judged.

        Of anything but flowers it is the Monday of that week: several are then judged by one forecast.
        """
        day = self.on - dt.timedelta(days=LEAD_DAYS)
        return day if self.event.what == FIRST_OPEN.name else day - dt.timedelta(days=day.weekday())


def observed_events(
    axis: SeasonAxis,
    entries: Iterable[Entry],
    usual: Mapping[Event, dt.date | None],
    frosts: Iterable[ObservedEvent] = (),
) -> list[ObservedEvent]:
    """The first note of each event and season, oldest first.

    Parameters
    ----------
    axis : SeasonAxis
    entries : iterable of Entry
        Notes not taken back.
    usual : mapping of Event to date or None
        Usual day in `axis`, to tell which season a note in midwinter is of. Only events named here are told.
    frosts : iterable of ObservedEvent
        Last and first frosts as the weather record has them.
    """
    first: dict[tuple[Event, SeasonAxis], dt.date] = {}
    for event, on in _events_of(entries):
        if event not in usual:
            continue
        key = (event, _season(on, axis, usual[event]))
        first[key] = min(on, first.get(key, on))
    noted = [ObservedEvent(event, season, on) for (event, season), on in first.items()]
    return sorted([*noted, *frosts], key=lambda one: (one.on, one.event))


def _events_of(entries: Iterable[Entry]) -> Iterator[tuple[Event, dt.date]]:
    for entry in entries:
        if entry.plant and (what := _what(entry)):
            yield Event(what, entry.plant), entry.on


def _what(entry: Entry) -> What | None:
    if isinstance(entry, HarvestNote):
        return "picking"
    if not isinstance(entry, BloomNote):
        return None
    if entry.stage == FIRST_OPEN.name:
        return "first open"
    if entry.stage == "bud break" or (entry.stage is None and entry.bbch in BUD_BREAK):
        return "leaf-out"
    if entry.stage == "leaf fall" or (entry.stage is None and entry.bbch in LEAVES_DOWN):
        return "leaf fall"
    return None


def _season(on: dt.date, axis: SeasonAxis, usual: dt.date | None) -> SeasonAxis:
    """The season a note is of: that in which it lies nearest to the event's usual day."""
    held = SeasonAxis.holding(on, axis.southern)
    if usual is None:
        return held
    day = axis.day(usual)
    return min((held, held.before, held.next), key=lambda season: abs(season.day(on) - day))
