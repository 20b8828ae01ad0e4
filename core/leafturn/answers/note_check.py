"""Questions to ask once before an unlikely note is kept."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable
from typing import NamedTuple

from leafturn.base import day_words, quantities
from leafturn.base.bloom_stages import BY_NAME, FLOWERING_NAMES, PICKED, RIPE
from leafturn.base.faults import nearest_word
from leafturn.garden.model import Garden
from leafturn.journal.entries import (
    BloomNote,
    ColdNightNote,
    CrownNote,
    Entry,
    HarvestNote,
    HeapReading,
    LossNote,
    WeatherNote,
)
from leafturn.journal.questions import latest, of_plant
from leafturn.season.axis import SeasonAxis
from leafturn.season.garden_day import GardenDay
from leafturn.tasks.season_model import SeasonModel

COLDEST_C, HOTTEST_HEAP_C = -45.0, 85.0
CROWN_POINTS = 30.0  # between two looks, from which it is asked about; a guess


def question_about(entry: Entry, day: GardenDay, seasons: Callable[[], Iterable[SeasonModel]]) -> str | None:
    """A question in one sentence, or None if nothing is odd about a note.

    Parameters
    ----------
    entry : Entry
        The note as it would be kept.
    day : GardenDay
        A note for a later day is odd.
    seasons : callable
        Gives the seasons that the note may be of, with their forecasts; called only for a note that they may
        doubt.
    """
    garden, entries = day.garden, day.entries
    if entry.on > day.on:
        return f"{day_words.near_day(entry.on, day.on)} is still to come: keep it?"
    unknown = _unknown(entry, garden)
    if unknown:
        return unknown
    match entry:
        case BloomNote() if entry.stage in FLOWERING_NAMES:
            return _noted_before(entry, day) or _odd_date(entry, entry.plant, seasons(), day)
        case HarvestNote() if entry.plant:
            return _odd_date(entry, entry.plant, seasons(), day)
        case HeapReading() if not -30 <= entry.temp_c <= HOTTEST_HEAP_C:
            return f"{quantities.celsius(entry.temp_c, 0)} is no heap's warmth: keep it?"
        case LossNote():
            return _of_several(entry, garden)
        case CrownNote():
            return _odd_look(entry, entries)
        case WeatherNote() | ColdNightNote() if entry.tmin_c is not None:
            night = f"A night of {quantities.celsius(entry.tmin_c)}: keep it?"
            return None if COLDEST_C <= entry.tmin_c <= 30 else night
        case _:
            return None


def _of_several(entry: LossNote, garden: Garden) -> str | None:
    """Asked where one id stands for several plants: a loss takes all of them out of the garden."""
    plant = garden.plant(entry.plant or "")
    if plant is None or plant.count < 2:
        return None
    return f"{plant.id} is {plant.count} plants: are all of them lost? Of some of them, note damage."


def _odd_look(entry: CrownNote, entries: Iterable[Entry]) -> str | None:
    """Asked where a crown is far from what the last look found: most likely a slip of the hand."""
    last = latest(entries, CrownNote, entry.plant, entry.on)
    if last is None or abs(entry.live_percent - last.live_percent) < CROWN_POINTS:
        return None
    found = f"The last look at {entry.plant} found {last.live_percent:.0f} % alive"
    return f"{found}: keep {entry.live_percent:.0f} %?"


def _unknown(entry: Entry, garden: Garden) -> str | None:
    named = entry.plant or entry.heap
    known = [*(p.id for p in garden.plants), *(h.id for h in garden.heaps)]
    if named is None or named in known:
        return None
    near = nearest_word(named, known)
    meant = f" Nearest is {near}." if near else ""
    return f"Nothing here is called {named}.{meant} Keep the note as it is?"


def _noted_before(entry: BloomNote, day: GardenDay) -> str | None:
    axis = SeasonAxis.holding(entry.on, day.garden.place.southern)
    blooms = of_plant(day.entries, BloomNote, entry.plant)
    same = [e for e in blooms if e.stage == entry.stage and axis.first <= e.on < axis.next.first]
    if not same:
        return None
    noted = day_words.day(same[-1].on, day.on)
    return f"{entry.stage} of {entry.plant} is already noted for {noted}: keep both?"


class _Miss(NamedTuple):
    """By how many days a date lies outside of what a season expects, on which side, and of which day."""

    days: int
    side: str
    of: dt.date | None


def _odd_date(
    entry: BloomNote | HarvestNote, plant: str, seasons: Iterable[SeasonModel], day: GardenDay
) -> str | None:
    """A question if the date lies far outside of what is expected in the season that it lies nearest to."""
    misses = [miss for season in seasons if (miss := _miss(entry, plant, season)) is not None]
    if not misses:
        return None
    days, side, of = min(misses, key=lambda miss: miss.days)
    if days <= day.numbers["note_far_days"]:
        return None
    return f"That is {days} days {side} anything expected here ({day_words.day(of, day.on)}): keep it?"


def _miss(entry: BloomNote | HarvestNote, plant: str, season: SeasonModel) -> _Miss | None:
    """None where nothing is foretold, or stages noted in that season settle it."""
    forecast, likely = season.forecasts.get(plant), season.weather.now.likely
    if forecast is None or (isinstance(entry, BloomNote) and forecast.observed):
        return None
    flowering = BY_NAME.get(entry.stage or "") if isinstance(entry, BloomNote) else None
    first, last = (forecast.days(stage) for stage in ((flowering,) * 2 if flowering else (RIPE, PICKED)))
    if first is None or last is None:
        return None
    early, late = likely(first).early, likely(last).late
    before = _Miss((early - entry.on).days if early else 0, "before", early)
    after = _Miss((entry.on - late).days if late else 0, "after", late)
    return max(before, after, key=lambda miss: miss.days)
