"""The days of one growing season, counted the same way in both hemispheres."""

from __future__ import annotations

import datetime as dt
from functools import cached_property, lru_cache

from leafturn.base.day_words import day_of_the_south
from leafturn.base.value import Value

YEAR_DAYS = 365
LEAD_DAYS = 61  # November and December, or May and June: winter bloomers and winter pruning need them
AXIS_DAYS = LEAD_DAYS + 366 + 61  # to the end of the following lead, so that autumn jobs fit whole


class SeasonAxis(Value, order=True, kw_only=False):
    """The season of one year as day numbers.

    Day 0 is 1 November of the year before (south: 1 May of the year), day 61 is the season's start,
    1 January (south: 1 July). The season is named by the year of its start.

    Parameters
    ----------
    year : int
        Calendar year of the season's start.
    southern : bool
        True south of the equator.
    """

    year: int
    southern: bool = False

    @staticmethod
    def holding(day: dt.date, southern: bool = False) -> SeasonAxis:
        """The season whose main twelve months hold `day`."""
        return _axis_of(day.year - 1 if southern and day.month < 7 else day.year, southern)

    @cached_property
    def first(self) -> dt.date:
        """The date of day 0."""
        return dt.date(self.year, 5, 1) if self.southern else dt.date(self.year - 1, 11, 1)

    @cached_property
    def start(self) -> dt.date:
        """The date the season starts (day 61)."""
        return self.first + dt.timedelta(days=LEAD_DAYS)

    @cached_property
    def next(self) -> SeasonAxis:
        """The season after this one."""
        return SeasonAxis(self.year + 1, self.southern)

    @cached_property
    def before(self) -> SeasonAxis:
        """The season before this one."""
        return SeasonAxis(self.year - 1, self.southern)

    def day(self, date: dt.date) -> int:
        """Day number of `date`; may lie outside the axis."""
        return (date - self.first).days

    def date(self, day: float) -> dt.date:
        """Date of a day number, rounded down; held within the calendar."""
        span = min(max(day, -40_000), 40_000)
        try:
            return self.first + dt.timedelta(days=int(span // 1))
        except OverflowError:
            return dt.date.max if day > 0 else dt.date.min

    def month_day(self, text: str, *, winter: bool = False) -> int:
        """Day number of a northern month and day such as "03-01".

        In the south it is the day half a year off: "03-01" is 1 September there. November and December
        belong to the end of the season, or with `winter` to the lead before it.

        Raises
        ------
        ValueError
            If the text is no month and day.
        """
        on = date_in(self.year, text)
        before = winter and on.month >= 11
        if not self.southern:
            return self.day(date_in(self.year - 1, text) if before else on)
        month, day = day_of_the_south(on.month, on.day)
        return self.day(dt.date(self.year + (month < 7 and not before), month, day))


@lru_cache(maxsize=512)
def _axis_of(year: int, southern: bool) -> SeasonAxis:
    """One value a season, so that thousands of notes do not each work out its days."""
    return SeasonAxis(year, southern)


def date_in(year: int, month_day: str) -> dt.date:
    """The date of a month and day such as "03-01" in a year; 29 February is the 28th in every year.

    Raises
    ------
    ValueError
        If the text is no month and day.
    """
    month, day = (int(part) for part in month_day.split("-"))
    return dt.date(year, month, 28 if (month, day) == (2, 29) else day)
