"""The normal year of a garden, and what of it is measured in a record."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal

import numpy as np
from msgspec import field

from leafturn.base import quantities
from leafturn.base.arrays import FloatArray, IndexArray
from leafturn.base.value import Value
from leafturn.weather.calendar import LEAP_YEAR_DAYS, MONTH_LENGTHS, MONTH_OF_DAY, day_of_leap_year
from leafturn.weather.normals.monthly import year_from_days, year_from_months
from leafturn.weather.record import DailyRecord

NormalsBasis = Literal[
    "own record", "climate normals", "two frost dates", "latitude and rare frost", "latitude alone"
]

SPREAD = 3.4  # [degC] standard deviation of a day about its normal; guess for temperate places
PERSISTENCE = 0.7  # share of a day's departure kept the next day; guess
WET_SHARE = 1 / 3  # share of days with rain; guess
RAIN_A_DAY = 2.0  # [mm] where nothing is known of rain; guess, about 700 mm a year

FULL_RECORD_YEARS = 8.0
LEAST_PLACES = 330  # days of the year that a record must know to stand for the whole year
HARMONICS_FULL, HARMONICS_SHORT = 3, 2  # waves that the years of a record can carry; guess


class MovedNight(Value, kw_only=False):
    """A night of one made-up year that is warmer or colder than it was drawn, by its place in the year."""

    year: int
    place: int
    celsius: float


class Normals(Value, eq=False):
    """The normal year, one value for each day of a leap year, 1 January first.

    Parameters
    ----------
    tmin, tmax : (366,) [degC]
        Normal daily minimum and maximum.
    rain : (366,) [mm]
        Normal rain of a day, wet and dry days together.
    spread : (366,) [degC]
        Standard deviation of a day about its normal.
    night_shift : (366,) [degC]
        Added to the minima of made-up years, and taken from their maxima, so that their frosts come
        when the garden file says; 0 where it says nothing.
    moved_nights : tuple of MovedNight
        Single nights beside that, so that the frost of the middle year and of one in ten is met to the day.
    persistence : float
        The share of a day's departure from normal that the next day keeps.
    wet_share : float
        Share of days with rain.
    frosts_met : bool
        Whether made-up years have the frosts that the garden file states; False where its temperatures
        gainsay them.
    guess : bool
        True if the temperatures rest on a rule of thumb.
    notes : tuple of str
        Plain sentences on what was assumed.
    """

    tmin: FloatArray
    tmax: FloatArray
    rain: FloatArray
    spread: FloatArray = field(default_factory=lambda: np.full(LEAP_YEAR_DAYS, SPREAD))
    night_shift: FloatArray = field(default_factory=lambda: np.zeros(LEAP_YEAR_DAYS))
    moved_nights: tuple[MovedNight, ...] = ()
    persistence: float = PERSISTENCE
    wet_share: float = WET_SHARE
    basis: NormalsBasis
    frosts_met: bool = True
    guess: bool = False
    notes: tuple[str, ...] = ()


def from_record(record: DailyRecord) -> Normals | None:
    """Normals by smoothing a record; None if it knows fewer than 330 of the days of a year.

    Mean, spread and persistence are all measured. Rain is taken only if as many days of it are known;
    else it is left at a guess, with a note.
    """
    places = day_of_leap_year(record.first, len(record))
    mean = (record.tmin + record.tmax) / 2
    known = ~np.isnan(mean)
    if np.count_nonzero(np.bincount(places[known])) < LEAST_PLACES:
        return None
    harmonics = HARMONICS_FULL if known_years(record) >= FULL_RECORD_YEARS else HARMONICS_SHORT
    tmin = year_from_days(places, np.where(known, record.tmin, np.nan), harmonics)
    tmax = year_from_days(places, np.where(known, record.tmax, np.nan), harmonics)
    departure = mean - ((tmin + tmax) / 2)[places]
    spread = np.sqrt(np.maximum(year_from_days(places, departure**2, 1), 0.25))
    rain, wet_share, notes = _rain_of(record, places)
    return Normals(
        tmin=tmin, tmax=np.maximum(tmax, tmin), rain=rain, spread=spread, wet_share=wet_share,
        persistence=_persistence(departure), basis="own record", notes=notes,
    )  # fmt: skip


class Straying(Value, kw_only=False):
    """How far days lie about their normal in a part of the world [degC]: see `usual_spread`.

    `winter` and `summer` are what they stray on the coldest and the warmest day whatever the climate, and how
    much more for each degree of the year's range; `turning` is what they stray further half-way between, in
    spring and in autumn. On the coldest day they stray `least_winter` at the least.
    """

    winter: tuple[float, float]
    summer: tuple[float, float]
    least_winter: float = 0.0
    turning: tuple[float, float] = (0.0, 0.0)
    lat: tuple[float, float] = (-90.0, 90.0)
    lon: tuple[float, float] = (-180.0, 180.0)

    def holds(self, lat: float, lon: float) -> bool:
        """Whether a place [deg] lies in it."""
        return self.lat[0] <= lat <= self.lat[1] and self.lon[0] <= lon <= self.lon[1]


STRAYING = (
    Straying(  # where the winter monsoon holds; its edges are guesses
        winter=(1.0, 1 / 16), summer=(1.6, 1 / 50), turning=(0.7, 0.7), lat=(20.0, 50.0), lon=(100.0, 150.0)
    ),
    Straying(  # New Zealand south of Auckland, Tasmania, southern Victoria; its edges are guesses
        winter=(3.0, 0.0), summer=(2.6, 0.0), turning=(0.6, 0.6), lat=(-48.0, -37.0), lon=(138.0, 180.0)
    ),
    Straying(  # North America east of the high plains; its edges are guesses
        winter=(0.5, 1 / 5), summer=(2.2, 1 / 25), turning=(0.3, 0.9), lat=(25.0, 46.0), lon=(-102.0, -60.0)
    ),
    Straying(  # British Isles; its edges are guesses
        winter=(3.0, 0.0), summer=(2.6, 0.0), turning=(0.6, 0.6), lat=(49.0, 61.0), lon=(-11.0, 2.0)
    ),
    Straying(  # California between its coast and the Sierra Nevada; its edges are guesses
        winter=(3.2, 0.0), summer=(2.2, 1 / 25), lat=(34.5, 42.0), lon=(-125.0, -118.6)
    ),
    Straying(winter=(0.5, 1 / 5), summer=(2.2, 1 / 25), lat=(-35.0, 35.0)),  # no cold air comes so far; guess
    Straying(winter=(0.5, 1 / 5), summer=(2.2, 1 / 25), least_winter=3.0),
)
"""The first that holds a place counts; the last is for everywhere else."""


def usual_spread(tmin: FloatArray, tmax: FloatArray, *, lat: float = 0.0, lon: float = 0.0) -> FloatArray:
    """How far days usually lie about their normal where no record tells, (366,) [degC], from the normals.

    Wider in winter, and the more so the more continental the climate: by a fifth of the year's range above
    0.5 degC on the coldest day, by a twenty-fifth above 2.2 degC on the warmest. Guesses that give what is
    measured at Clemson (5.0 and 2.0), Seattle (3.0 and 2.4), Chicago (6.0 and 3.1) and, from memory, De Bilt
    (4.3 and 3.0) and Wooster, Ohio (6.5 and 3.5) within a degree. In East Asia the winter monsoon blows
    steadily: by a sixteenth above 1 degC and a fiftieth above 1.6 degC, as measured at Kyoto (2.6 and 2.1)
    and Beijing (2.9 and 2.2); it sets in and gives way by fits, so that half-way between, in April and
    November, nights stray 0.7 degC further, as counted at 169 stations of Japan and Korea (2.9 to 3.8).
    About the Tasman Sea the ocean keeps the year's range small, yet cold southerlies break in, most of all in
    spring: 3.0 degC, 2.6 and 0.6, set on the freeze dates of eight towns there, which by the rule of other
    continents came a fortnight early in spring and late in autumn. The British Isles are taken to be like it.
    Cold air breaks in on other mild coasts too, from 35 degrees of latitude on: on the coldest day nights
    stray by 3.0 degC at the least, as at Seattle; else first freezes of Oregon's coast come a month late.
    California's hot summers make its year wide, but mountains keep inland winters from it: 3.2 degC on the
    coldest day, set on freeze dates of fourteen towns, which by the year's range froze up to five weeks long.
    East of the high plains of North America no mountains keep northern air from the Gulf: 0.3 degC half-way
    in spring and, as nights grow long and still, 0.9 in autumn, set on freeze dates from Georgia to Ontario.

    Parameters
    ----------
    tmin, tmax : (366,) [degC]
    lat, lon : float [deg]
        Of the place; without them it lies in none of the parts that stray in their own way.
    """
    mean = (tmin + tmax) / 2
    coldest, warmest = float(mean.min()), float(mean.max())
    span = max(warmest - coldest, 0.1)
    here = next(part for part in STRAYING if part.holds(lat, lon))
    winter, summer = (least + span * share for least, share in (here.winter, here.summer))
    winter = max(winter, here.least_winter)
    coldness = (warmest - mean) / span
    turning = np.where(np.gradient(mean) > 0, *here.turning)
    between = 4 * turning * coldness * (1 - coldness)
    return np.asarray(summer + (winter - summer) * coldness + between)


def known_years(record: DailyRecord) -> float:
    """How many years' worth of days have both temperatures."""
    return float(np.count_nonzero(~np.isnan(record.tmin + record.tmax)) / 365.25)


def _persistence(departure: FloatArray) -> float:
    """Correlation of a day's departure with the next day's."""
    today, next_day = departure[:-1], departure[1:]
    both = ~np.isnan(today + next_day)
    if not both.any() or min(np.ptp(days[both]) for days in (today, next_day)) == 0:  # none, or all alike
        return PERSISTENCE
    correlation = float(np.corrcoef(today[both], next_day[both])[0, 1])
    return min(max(correlation, 0.0), 0.95) if math.isfinite(correlation) else PERSISTENCE


def _rain_of(record: DailyRecord, places: IndexArray) -> tuple[FloatArray, float, tuple[str, ...]]:
    """Normal rain, share of wet days, and what had to be assumed."""
    known = ~np.isnan(record.rain)
    if np.count_nonzero(np.bincount(places[known])) < LEAST_PLACES:
        return guessed_rain()
    rain = np.maximum(year_from_days(places, record.rain, HARMONICS_SHORT), 0.0)
    return rain, min(max(float(np.mean(record.rain[known] > 0)), 0.02), 0.95), ()


def guessed_rain() -> tuple[FloatArray, float, tuple[str, ...]]:
    """Rain of each day [mm], (366,), and the share of days with any: guesses, and a sentence that says so."""
    note = f"Nothing is known of the rain here: {quantities.millimetres(RAIN_A_DAY, None)} a day is a guess."
    return np.full(LEAP_YEAR_DAYS, RAIN_A_DAY), WET_SHARE, (note,)


def rain_from_months(totals: Sequence[float]) -> FloatArray:
    """Normal rain of each day from twelve monthly totals [mm], which are kept."""
    lengths = np.where(np.array(MONTH_LENGTHS) == 29, 28.25, MONTH_LENGTHS)
    means = np.maximum(np.asarray(totals, dtype=float), 0.0) / lengths
    smooth = np.maximum(year_from_months(means), 0.0)
    # a smooth curve dips below 0 beside a dry season; cut there, the month is scaled back to its total
    drawn = np.bincount(MONTH_OF_DAY, weights=smooth) / MONTH_LENGTHS
    factor = np.divide(means, drawn, out=np.zeros(12), where=drawn > 0)
    return np.asarray(smooth * factor[MONTH_OF_DAY])
