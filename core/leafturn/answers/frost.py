"""Frost in answers: three depths of cold, the days between, and how the last frost has moved."""

from __future__ import annotations

import datetime as dt

import numpy as np

from leafturn.base.arrays import at_share
from leafturn.base.date_range import SHARES, Likely
from leafturn.base.value import Value
from leafturn.bloom.season_weather import SeasonWeather
from leafturn.garden.model import Garden
from leafturn.season.axis import LEAD_DAYS, YEAR_DAYS
from leafturn.season.frost import first_frost, freezes_by_year, frost_shares, last_frost
from leafturn.season.garden_day import GardenDay
from leafturn.season.theil_sen import theil_sen

# 28 and 24 degF: moderate and severe freeze, as freeze normals are printed beside 32 degF (US, recalled).
HARDER_C = (-2.2, -4.4)
LEAST_YEARS = 15  # of record for a trend; rule of thumb


class Frost(Value):
    """Last spring and first autumn night at or below `threshold` [degC] in the garden.

    `last_gone` is the share of ensemble members in which the last frost is past. `station_last`
    and `station_first` are the same dates at the weather station, where the garden is a frost pocket.
    `last_years` and `first_years` are the shares of usual years that have such a night at all.
    """

    threshold: float
    last: Likely
    first: Likely
    last_gone: float
    station_last: Likely | None = None
    station_first: Likely | None = None
    last_years: float = 1.0
    first_years: float = 1.0

    def following(self, on: dt.date) -> Likely:
        """The last of spring until its late day is past, then the first of autumn."""
        return self.last if (self.last.late or on) >= on else self.first


class FrostFree(Value):
    """Days between the last frost of spring and the first of autumn.

    One year in ten has fewer than `short`, one in ten more than `long`.
    """

    short: int
    usual: int
    long: int


class FrostTrend(Value):
    """How the last spring frost has moved [days a decade; below 0 it comes earlier], in numbers and words.

    `low` and `high` hold the trend in four cases of five; `years` of record since `since` were used.
    """

    days_per_decade: float
    low: float
    high: float
    since: int
    years: int
    words: str


def frost(day: GardenDay, weather: SeasonWeather, threshold: float = 0.0) -> Frost:
    """Last and first night at or below a threshold [degC] in the garden, frost pocket included."""
    ensemble, pocket = weather.now, day.garden.place.frost_pocket_c
    last = last_frost(ensemble, threshold, pocket)
    first = first_frost(ensemble, threshold, pocket)
    shares = frost_shares(weather.usual, threshold, pocket)
    return Frost(
        threshold=threshold,
        last=ensemble.likely(last),
        first=ensemble.likely(first),
        last_gone=float(np.mean(last <= ensemble.axis.day(day.on))),
        station_last=ensemble.likely(last_frost(ensemble, threshold)) if pocket else None,
        station_first=ensemble.likely(first_frost(ensemble, threshold)) if pocket else None,
        last_years=shares.last,
        first_years=shares.first,
    )


def harder_frosts(day: GardenDay, weather: SeasonWeather) -> tuple[Frost, ...]:
    """The same at each of `HARDER_C`."""
    return tuple(frost(day, weather, depth) for depth in HARDER_C)


def frost_free(garden: Garden, weather: SeasonWeather) -> FrostFree:
    """Days between the last and the first frost of 0 degC in the garden.

    A spring without frost counts from the season's start, an autumn without to its end.
    """
    ensemble, pocket = weather.now, garden.place.frost_pocket_c
    begins = np.maximum(last_frost(ensemble, 0.0, pocket), LEAD_DAYS - 1)
    ends = np.minimum(first_frost(ensemble, 0.0, pocket), LEAD_DAYS + YEAR_DAYS)
    short, usual, long = (int(at_share(ends - begins - 1, share)) for share in SHARES)
    return FrostFree(short=short, usual=usual, long=long)


def frost_trend(garden: Garden, weather: SeasonWeather) -> FrostTrend | None:
    """How the last spring frost of 0 degC has moved over the record; None with fewer than fifteen years.

    The Theil-Sen slope, with its range of four in five. A spring without frost counts as one whose last
    frost was on the eve of the season.
    """
    record = weather.record
    if record is None or not len(record):
        return None
    dates = record.days
    pocket, southern = garden.place.frost_pocket_c, weather.axis.southern
    found = freezes_by_year(dates, record.tmin + pocket, southern=southern)
    known = ~np.isnan(found.last)
    years = found.years[known]
    if len(years) < LEAST_YEARS:
        return None
    eves = [weather.axis.start.replace(year=int(year)).timetuple().tm_yday - 1 for year in years]
    slope = theil_sen(years, np.maximum(found.last[known], eves))
    decade = (10 * slope.slope, 10 * slope.low, 10 * slope.high)
    since = int(years[0])
    return FrostTrend(
        days_per_decade=decade[0],
        low=decade[1],
        high=decade[2],
        since=since,
        years=len(years),
        words=_trend_words(*decade, since),
    )


def _trend_words(likely: float, low: float, high: float, since: int) -> str:
    whole = round(abs(likely))
    if not whole:
        return f"last frost has hardly moved since {since} (between {_between(low, high)}, days a decade)"
    moved = f"{whole} day{'s' if whole > 1 else ''} a decade {_way(likely)}"
    return f"last frost has come {moved} since {since} (between {_between(low, high)})"


def _between(low: float, high: float) -> str:
    """Two numbers of days with their directions: "5 earlier and 1 later", "3 and 10 earlier"."""
    first, second = round(abs(low)), round(abs(high))
    if not first or not second or _way(low) != _way(high):
        said = (f"{n} {_way(days)}" if n else "no change" for n, days in ((first, low), (second, high)))
        return " and ".join(said)
    return f"{min(first, second)} and {max(first, second)} {_way(low)}"


def _way(days: float) -> str:
    return "later" if days > 0 else "earlier"
