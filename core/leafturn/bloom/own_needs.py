"""The heat this garden's own plants took to open, from notes of earlier seasons."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property, lru_cache

import numpy as np

from leafturn.bloom.clock import HeatClock
from leafturn.journal.entries import Entry
from leafturn.season.axis import SeasonAxis
from leafturn.season.degree_days import single_sine
from leafturn.season.winter_chill import COUNTED_DAYS, WinterChill
from leafturn.weather.record import DailyRecord

MOST_GAPS = 0.1


@dataclass(frozen=True, slots=True)
class OwnNeed:
    """A heat need [degC d] as used, what the book says, what own notes say, and how many there are."""

    used: float
    book: float
    own: float | None
    notes: int


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


def own_need(book: float, notes: Iterable[float], book_weight: float) -> OwnNeed:
    """Pull the handbook's need towards own notes: `(n * own mean + w * book) / (n + w)`.

    Parameters
    ----------
    book : float [degC d]
    notes : iterable of float [degC d]
        Heat on the days on which the plant was seen to open, one a season.
    book_weight : float
        How many own notes the handbook counts for, w.
    """
    seen = list(notes)
    if not seen:
        return OwnNeed(book, book, None, 0)
    own = float(np.mean(seen))
    return OwnNeed((len(seen) * own + book_weight * book) / (len(seen) + book_weight), book, own, len(seen))


def first_open_notes(entries: Iterable[Entry], before: dt.date) -> dict[str, list[dt.date]]:
    """Days on which each plant was seen to open before the given day, oldest first."""
    seen: dict[str, list[dt.date]] = {}
    for entry in entries:
        if entry.what == "bloom" and entry.stage == "first open" and entry.plant and entry.on < before:
            seen.setdefault(entry.plant, []).append(entry.on)
    return {plant: sorted(days) for plant, days in seen.items()}
