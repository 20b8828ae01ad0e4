"""The heat this garden's own plants took to open, from notes of earlier seasons."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping
from functools import cached_property, lru_cache

import numpy as np

from leafturn.bloom.clock import HeatClock
from leafturn.bloom.need_from_notes import HeatNote
from leafturn.journal.entries import Entry
from leafturn.season.axis import SeasonAxis
from leafturn.season.degree_days import single_sine
from leafturn.season.winter_chill import COUNTED_DAYS, WinterChill
from leafturn.weather.record import DailyRecord

MOST_GAPS = 0.1
GAIN_DAYS = 7  # over so many days the heat of one day is averaged
LEAST_GAIN = 0.5  # [degC d/day]; colder days would make a note tell of weeks


class PastHeat:
    """Heat of past seasons, straight from the daily record.

    Parameters
    ----------
    record : DailyRecord or None
        The garden's own weather; with None there is nothing to ask.
    southern : bool
        Whether seasons start in July.
    latitude : float [deg]
        For the hours of winter days, from which chill is counted.
    """

    def __init__(self, record: DailyRecord | None, southern: bool, latitude: float) -> None:
        self._record = record
        self._southern = southern
        self._latitude = latitude
        self.total = lru_cache(maxsize=None)(self._total)

    def _total(self, on: dt.date, clock: HeatClock) -> float | None:
        """Heat [degC d] from a clock's start to the end of the day `on`; None where the record is thin."""
        if self._record is None:
            return None
        axis = SeasonAxis.holding(on, self._southern)
        if clock.start != "season" and on > axis.date(axis.month_day("11-01")):
            axis = axis.next
        begin = clock.first_day(axis)
        if clock.portions is not None:
            begin = max(begin, self._rest_over(axis, clock.portions))
        first = (axis.date(begin) - self._record.first).days
        after = (on - self._record.first).days + 1
        if first < 0 or after > len(self._record) or after <= first:
            return None
        days = single_sine(self._record.tmin[first:after], self._record.tmax[first:after], clock.base)
        missing = np.isnan(days)
        if missing.mean() > MOST_GAPS:
            return None
        return float(np.where(missing, np.nanmean(days) if not missing.all() else 0.0, days).sum())

    @cached_property
    def _winters(self) -> tuple[list[int], WinterChill] | None:
        """The chill of every winter that the record holds whole, by year of the season; all in one go."""
        if self._record is None:
            return None
        span = range(self._record.first.year, self._record.last.year + 2)
        first = {year: (SeasonAxis(year, self._southern).first - self._record.first).days for year in span}
        whole = [y for y in span if first[y] >= 0 and first[y] + COUNTED_DAYS <= len(self._record)]
        if not whole:
            return None
        days = np.array([first[year] for year in whole])[:, None] + np.arange(COUNTED_DAYS)
        axis = SeasonAxis(whole[-1], self._southern)
        return whole, WinterChill(axis, self._record.tmin[days], self._record.tmax[days], self._latitude)

    def _rest_over(self, axis: SeasonAxis, portions: float) -> int:
        """Day number on which a past winter's rest was over; 0 where the record does not hold it whole."""
        if self._winters is None or axis.year not in self._winters[0]:
            return 0
        years, chill = self._winters
        return int(chill.rest_over(portions)[years.index(axis.year)])


def heat_notes(
    entries: Iterable[Entry],
    before: dt.date,
    clocks: Mapping[str, HeatClock],
    late_days: Mapping[str, float],
    past: PastHeat,
) -> list[HeatNote]:
    """Noted first opens of earlier seasons as the heat they took, oldest first.

    Parameters
    ----------
    entries : iterable of Entry
        Standing notes.
    before : date
        Notes from this day on are left out.
    clocks : mapping of plant id to HeatClock
    late_days : mapping of plant id to float [d]
        How much later than its kind each cultivar opens: taken off, so that a note tells of its kind.
    past : PastHeat
    """
    notes = []
    for entry in entries:
        plant = entry.plant
        if (entry.what, entry.stage) != ("bloom", "first open") or plant is None or plant not in clocks:
            continue
        clock = clocks[plant]
        day = entry.on - dt.timedelta(days=round(late_days.get(plant, 0.0)))
        heat = past.total(day, clock) if entry.on < before else None
        earlier = past.total(day - dt.timedelta(days=GAIN_DAYS), clock) if heat is not None else None
        if heat is not None and earlier is not None:
            gain = max((heat - earlier) / GAIN_DAYS, LEAST_GAIN)
            notes.append(HeatNote(plant=plant, on=entry.on, heat=heat, gain=gain, by=entry.by))
    return sorted(notes, key=lambda note: note.on)
