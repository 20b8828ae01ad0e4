"""Weather noted by hand in the journal, laid over the record."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable

import numpy as np

from leafturn.journal.entries import Entry, WeatherNote
from leafturn.journal.noted import of_kind
from leafturn.weather.record import DailyRecord


def with_noted_weather(
    record: DailyRecord | None, entries: Iterable[Entry], on: dt.date, pocket_c: float = 0.0
) -> DailyRecord | None:
    """The record up to `on`, with what was noted by hand in place of what it says for those days.

    Parameters
    ----------
    record : DailyRecord or None
        None makes a record of the noted days alone.
    entries : iterable of Entry
        Notes not taken back; those with `what = "weather"` and a value count.
    on : date
        Days after it are left out.
    pocket_c : float [degC]
        How much warmer the garden is than the station on still nights: minima noted by hand were read in
        the garden, the record is the station's.

    Returns
    -------
    DailyRecord or None
        None if neither the record nor the notes know a day up to `on`.
    """
    noted = [
        e
        for e in of_kind(entries, WeatherNote)
        if e.on <= on and (e.tmin_c, e.tmax_c, e.rain_mm) != (None, None, None)
    ]
    days = [e.on for e in noted]
    if record is not None and record.first <= on:
        days += [record.first, min(record.last, on)]
    if not days:
        return None
    first = min(days)
    length = (max(days) - first).days + 1
    values = {name: np.full(length, np.nan) for name in ("tmin", "tmax", "rain")}
    if record is not None and record.first <= on:
        start = (record.first - first).days
        known = min(len(record), length - start)
        for name, column in values.items():
            column[start : start + known] = getattr(record, name)[:known]
    for entry in noted:
        day = (entry.on - first).days
        night = None if entry.tmin_c is None else entry.tmin_c - pocket_c
        for name, value in (("tmin", night), ("tmax", entry.tmax_c), ("rain", entry.rain_mm)):
            if value is not None:
                values[name][day] = value
    return DailyRecord(first=first, notes=record.notes if record else (), **values)
