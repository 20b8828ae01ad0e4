"""Questions to ask once before an unlikely note is kept."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping

import numpy as np

from leafturn import wording
from leafturn.bloom.model import BloomForecast
from leafturn.faults import nearest_word
from leafturn.garden.model import Garden
from leafturn.journal.entries import Entry
from leafturn.season.ensemble import Ensemble

FAR_DAYS = 14
_FIELDS = {"first open": "first_open", "full bloom": "full", "petal fall": "end"}
COLDEST_C, HOTTEST_HEAP_C = -45.0, 85.0


def doubt_about(
    entry: Entry,
    garden: Garden,
    forecasts: Mapping[str, BloomForecast],
    entries: Iterable[Entry],
    ensemble: Ensemble,
    on: dt.date,
) -> str | None:
    """A question in one sentence, or None if nothing is odd about a note.

    Parameters
    ----------
    entry : Entry
        The note as it would be kept.
    on : date
        The day of asking; a note for a later day is odd.
    """
    if entry.on > on:
        return f"{wording.day(entry.on, on)} is still to come: keep it?"
    if entry.plant and garden.plant(entry.plant) is None and garden.heap(entry.plant) is None:
        near = nearest_word(entry.plant, [p.id for p in garden.plants])
        meant = f" Nearest is {near}." if near else ""
        return f"No plant here is called {entry.plant}.{meant} Keep the note as it is?"
    if entry.what == "bloom" and entry.plant and entry.stage in _FIELDS:
        return _odd_bloom(entry, forecasts.get(entry.plant), entries, ensemble)
    if entry.what == "harvest" and entry.plant:
        forecast = forecasts.get(entry.plant)
        if forecast is not None and forecast.ripe is not None and forecast.picked is not None:
            return _odd_date(entry, forecast.ripe, forecast.picked, ensemble)
    if entry.temp_c is not None and not -30 <= entry.temp_c <= HOTTEST_HEAP_C:
        return f"{entry.temp_c:.0f} C is no heap's warmth: keep it?"
    if entry.tmin_c is not None and not COLDEST_C <= entry.tmin_c <= 30:
        return f"A night of {entry.tmin_c:.1f} C: keep it?"
    return None


def _odd_bloom(
    entry: Entry, forecast: BloomForecast | None, entries: Iterable[Entry], ensemble: Ensemble
) -> str | None:
    axis = ensemble.axis
    blooms = (e for e in entries if (e.what, e.plant, e.stage) == ("bloom", entry.plant, entry.stage))
    same = [e for e in blooms if axis.day(axis.first) <= axis.day(e.on) < axis.day(axis.next.first)]
    if same:
        seen = wording.day(same[-1].on)
        return f"{entry.stage} of {entry.plant} is already noted for {seen}: keep both?"
    if forecast is None or forecast.observed:
        return None
    days = getattr(forecast, _FIELDS[entry.stage or "first open"])
    return _odd_date(entry, days, days, ensemble)


def _odd_date(
    entry: Entry, first: np.ndarray[tuple[int, ...], np.dtype[np.float64]],
    last: np.ndarray[tuple[int, ...], np.dtype[np.float64]], ensemble: Ensemble,
) -> str | None:  # fmt: skip
    early, late = ensemble.likely(first).early, ensemble.likely(last).late
    if early is not None and (early - entry.on).days > FAR_DAYS:
        days = (early - entry.on).days
        return f"That is {days} days before anything expected here ({wording.day(early)}): keep it?"
    if late is not None and (entry.on - late).days > FAR_DAYS:
        days = (entry.on - late).days
        return f"That is {days} days after anything expected here ({wording.day(late)}): keep it?"
    return None
