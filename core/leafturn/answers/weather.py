"""What is known of a garden's weather: how much was recorded, its gaps, and how it is usually."""

from __future__ import annotations

import datetime as dt

import numpy as np

from leafturn.base.arrays import BoolArray
from leafturn.base.value import Value
from leafturn.season.trend import Warming
from leafturn.weather.calendar import MONTH_OF_DAY
from leafturn.weather.normals.normals import Normals, NormalsBasis
from leafturn.weather.record import DailyRecord

GAPS_NAMED = 3


class Gap(Value):
    """Days in a row of which the record knows no temperature."""

    first: dt.date
    last: dt.date

    @property
    def days(self) -> int:
        """How many."""
        return (self.last - self.first).days + 1


class Recorded(Value):
    """What the garden's own weather file holds; `known` are days with both temperatures.

    `longest_gaps` are named longest first; `set_aside` are sentences on values that cannot be true.
    """

    first: dt.date
    last: dt.date
    known: int
    days: int
    longest_gaps: tuple[Gap, ...]
    set_aside: tuple[str, ...]


class UsualMonth(Value):
    """One month as it usually is: mean minimum and maximum [degC], how far a day strays [degC], rain [mm]."""

    month: int
    tmin_c: float
    tmax_c: float
    strays_c: float
    rain_mm: float


class WeatherKnown(Value):
    """All that is known of a garden's weather.

    `basis` tells where the usual year comes from. `warming` is in degC a year. `frosts_met` tells whether
    made-up years have the frosts that the garden file states.
    """

    recorded: Recorded | None
    basis: NormalsBasis
    months: tuple[UsualMonth, ...]
    warming: Warming
    notes: tuple[str, ...]
    frosts_met: bool = True


def weather_known(record: DailyRecord | None, normals: Normals, warming: Warming) -> WeatherKnown:
    """Put together what is known of the weather.

    Parameters
    ----------
    record : DailyRecord or None
        Up to the day of asking.
    normals : Normals
    warming : Warming
    """
    return WeatherKnown(
        recorded=None if record is None else recorded(record),
        basis=normals.basis,
        months=usual_months(normals),
        warming=warming,
        notes=normals.notes,
        frosts_met=normals.frosts_met,
    )


def recorded(record: DailyRecord) -> Recorded:
    """What a record holds, its gaps, and what was set aside in it."""
    known = np.isfinite(record.tmin + record.tmax)
    gaps = sorted(_gaps(record.first, ~known), key=lambda gap: (-gap.days, gap.first))
    return Recorded(
        first=record.first,
        last=record.last,
        known=int(known.sum()),
        days=len(record),
        longest_gaps=tuple(gaps[:GAPS_NAMED]),
        set_aside=record.notes,
    )


def _gaps(first: dt.date, unknown: BoolArray) -> list[Gap]:
    edges = np.flatnonzero(np.diff(np.concatenate([[False], unknown, [False]]).astype(int)))
    days = [first + dt.timedelta(days=int(edge)) for edge in edges]
    return [Gap(first=a, last=b - dt.timedelta(days=1)) for a, b in zip(days[::2], days[1::2], strict=True)]


def usual_months(normals: Normals) -> tuple[UsualMonth, ...]:
    """The twelve months of a usual year, January first."""
    return tuple(_month(normals, month) for month in range(1, 13))


def _month(normals: Normals, month: int) -> UsualMonth:
    days = np.flatnonzero(month - 1 == MONTH_OF_DAY)
    length = len(days) - (month == 2) * 0.75  # the normal year is a leap year
    return UsualMonth(
        month=month,
        tmin_c=float(normals.tmin[days].mean()),
        tmax_c=float(normals.tmax[days].mean()),
        strays_c=float(normals.spread[days].mean()),
        rain_mm=float(normals.rain[days].mean() * length),
    )
