"""How a kind answers to the cold of autumn and winter, and to the warmth after it.

Two sums run side by side from 1 October (south: 1 April):

* cold: a day counts nearly 1 when it is cold and nearly 0 when it is warm, with a smooth step between;
* warmth: a day counts ``exp(rate (T - 10))``, the mean over the day's sine from minimum to maximum, and
  counts only as far as the cold gathered so far lets it: not at all in autumn, fully once the kind's
  need of cold is met.

Flowers open when the warmth so gathered reaches the plant's own level. Levels are used as logarithms: a
plant that needs a tenth more warmth than its neighbour does so in a warm spring and in a cold one.

Warmth may level off above a temperature, and count more on long days: what flowers on the year's own shoots
does both. Flowers of autumn wait for short days instead (`ShortDays`).

References
----------
.. [1] Ono, S. and Konno, T. (1999). Estimation of flowering date and temperature characteristics of fruit
   trees by DTS method. Jpn. Agric. Res. Q. 33: 105-108 (daily development as an exponential function of
   temperature; from memory).
.. [2] Chuine, I. (2000). A unified model for budburst of trees. J. Theor. Biol. 207: 337-347 (smooth chill
   and forcing functions, warmth that works only after chill; from memory).
"""

import math

import numpy as np
from numpy.typing import ArrayLike

from leafturn.base.arrays import FloatArray
from leafturn.base.value import Value

FIRST_DAY = -91
"""Day number of 1 October (south: 1 April), the first of a season; day 1 is 1 January (south: 1 July)."""
DAYS = 396  # from there to the end of the next October, south from 31 March
WINTER = slice(-30 - FIRST_DAY, 60 - FIRST_DAY)  # of them: December to February, south June to August

WARMTH_AT = 10.0  # [degC] the day of this temperature counts 1; fixes the unit only
LEAST_SUM = 1e-12
LEAST_GROWTH, MOST_GROWTH = 0.002, 2.0  # [1/day] of a level; beyond, a day tells too little or too much
BESSEL_TERMS = 7  # enough for 1e-6 while rate times half the day's range stays under 3


FROM_MIDSUMMER = 30.0  # [days] guess

PHASES = np.sin(np.array([0.5, 1.5]) / 4 * np.pi).tolist()
"""Parts of a day's sine above its mean, and as many below it, at which a warmth that levels off is taken; it
rises and falls through the same. Eight moments of the day give a part in a thousand."""

SHORTENING = 172
"""Day number of midsummer, 21 June (south: 21 December), from which days shorten."""


class DailyCount(Value):
    """What a kind counts of each day until its flowers open."""

    def daily(self, tmin: FloatArray, tmax: FloatArray, hours: FloatArray | None = None) -> FloatArray:
        """What each day counts, (seasons, days); parameters as of `sums`."""
        raise NotImplementedError

    def sums(self, tmin: FloatArray, tmax: FloatArray, hours: FloatArray | None = None) -> FloatArray:
        """What has been counted by the end of each day, (seasons, days).

        Parameters
        ----------
        tmin, tmax : (seasons, days) [degC]
            Without gaps, the first column is FIRST_DAY.
        hours : (days,) [h], optional
            Length of each day; without it all days count as twelve hours long.
        """
        return np.asarray(np.cumsum(self.daily(tmin, tmax, hours), axis=-1))


class Response(DailyCount):
    """What a kind makes of cold and warmth.

    Parameters
    ----------
    warmth_rate : float [1/degC]
        A day warmer by 1 degC counts this share more; 0.12 doubles in 6 degC.
    cold_need : float [cold days]
        Cold at which half the day's warmth counts.
    cold_width : float [cold days]
        How gradually cold lets warmth count; from a tenth to nine tenths it takes 4.4 of these.
    cold_half : float [degC]
        A day of this mean temperature counts as half a cold day.
    cold_slope : float [1/degC]
        How sharply a day's cold depends on its temperature there.
    saturation : float [degC]
        Where warmth has lost half its rise to levelling off; inf where it never levels off.
    day_length_rate : float [1/h]
        A day longer by an hour counts this share more, against a day of twelve hours.
    closed_below : float
        Share of the day's warmth under which none of it counts: a warm autumn does not open buds little by
        little.
    rest_ends : float [day number]
        By when warmth counts for half even where cold fell short; inf where it never does.
    """

    warmth_rate: float = 0.12
    cold_need: float = 65.0
    cold_width: float = 8.0
    cold_half: float = 13.0
    cold_slope: float = 0.15
    saturation: float = math.inf
    day_length_rate: float = 0.0
    closed_below: float = 0.0
    rest_ends: float = math.inf

    def daily(self, tmin: FloatArray, tmax: FloatArray, hours: FloatArray | None = None) -> FloatArray:
        """Warmth that counts on each day, (seasons, days) [days of 10 degC]; parameters as of `sums`."""
        mean, half_range = (tmin + tmax) / 2, np.abs(tmax - tmin) / 2
        cold = np.cumsum(step(self.cold_slope * (self.cold_half - mean)), axis=-1)
        counts = step((cold - self.cold_need) / self.cold_width)
        if math.isfinite(self.rest_ends):
            day = np.arange(mean.shape[-1]) + FIRST_DAY
            counts = np.maximum(
                counts, step(np.asarray((day - self.rest_ends) / self.cold_width, dtype=float))
            )
        if self.closed_below:
            counts = np.where(counts < self.closed_below, 0.0, counts)
        if hours is not None and self.day_length_rate:
            counts = counts * np.exp(self.day_length_rate * (hours - 12.0))
        return np.asarray(warmth(mean, half_range, self.warmth_rate, self.saturation) * counts)


class ShortDays(DailyCount):
    """What a kind of autumn makes of shortening days: from midsummer on, days short and mild enough count.

    Parameters
    ----------
    hours_half : float [h]
        A day of this length counts half.
    hours_width : float [h]
        How gradually shorter days come to count.
    coolest, mildest, hottest : float [degC]
        Daily means: below `coolest` a day does not count, from there to `mildest` ever more, from it to
        `hottest` ever less, down to a quarter.

    Notes
    -----
    The count begins at `FROM_MIDSUMMER` on midsummer's day, so that its logarithm grows by about a
    thirtieth a day and a level's spread means weeks. All numbers are guesses about asters and their like;
    on the one open series of such flowers no method did better than a fixed date, so what follows from them
    is told about three weeks wide.
    """

    hours_half: float = 13.3
    hours_width: float = 0.35
    coolest: float = 0.0
    mildest: float = 15.0
    hottest: float = 27.0

    def daily(self, tmin: FloatArray, tmax: FloatArray, hours: FloatArray | None = None) -> FloatArray:
        """What each day counts, (seasons, days); parameters as of `sums`."""
        mean = (tmin + tmax) / 2
        day = np.arange(mean.shape[-1]) + FIRST_DAY
        length = np.full(len(day), 12.0) if hours is None else hours
        short = np.where(day > SHORTENING, step((self.hours_half - length) / self.hours_width), 0.0)
        places = [self.coolest, self.mildest, self.hottest]
        counts = short * np.interp(mean, places, [0.0, 1.0, 0.25])
        return np.asarray(counts + np.where(day == SHORTENING, FROM_MIDSUMMER, 0.0))


Timing = Response | ShortDays


def warmth(mean: ArrayLike, half_range: ArrayLike, rate: float, saturation: float = math.inf) -> FloatArray:
    """Mean of ``exp(rate (T - 10))`` over a day whose temperature is a sine.

    It is ``exp(rate (mean - 10)) I0(rate half_range)``, I0 being the modified Bessel function, here by its
    power series. Where warmth levels off, ``exp(rate (T - 10))`` is divided by ``1 + exp(rate (T -
    saturation))`` at eight moments of the day, and scaled so that a day of 10 degC counts 1.

    Parameters
    ----------
    mean, half_range : array_like [degC]
        Mean of the day's minimum and maximum, and half their difference.
    rate : float [1/degC]
    saturation : float [degC]
        inf: never levels off.

    References
    ----------
    Abramowitz and Stegun (1964), 9.6.12 (series) and 9.6.16 (integral).
    """
    if math.isfinite(saturation):
        middle = np.exp(rate * (np.asarray(mean, dtype=float) - WARMTH_AT))
        lost, total = math.exp(rate * (WARMTH_AT - saturation)), np.zeros_like(middle)
        for phase in PHASES:
            swing = np.exp(rate * phase * np.asarray(half_range, dtype=float))
            for rising in (middle * swing, middle / swing):
                total += rising / (1 + lost * rising)
        return np.asarray(total * ((1 + lost) / (2 * len(PHASES))))
    quarter = (rate * np.asarray(half_range, dtype=float) / 2) ** 2
    bessel = np.ones_like(quarter)
    for term in range(BESSEL_TERMS, 0, -1):
        bessel = 1 + bessel * quarter / term**2
    return np.asarray(np.exp(rate * (np.asarray(mean, dtype=float) - WARMTH_AT)) * bessel)


def step(x: FloatArray) -> FloatArray:
    """A smooth step from 0 to 1, one half at 0."""
    return np.asarray(1 / (1 + np.exp(-np.clip(x, -40.0, 40.0))))


def level_at(sums: FloatArray, day: ArrayLike) -> tuple[FloatArray, FloatArray]:
    """Logarithm of the warmth gathered by noon of a day, and how much it grows on that day.

    Parameters
    ----------
    sums : (seasons, days)
        From `Response.sums`.
    day : (seasons,) [day number]
        Held within the columns.

    Returns
    -------
    level, growth : (seasons,)
        `growth` is the day's share of the sum [1/day], at least 0.002.
    """
    rows = np.arange(len(sums))
    place = np.clip(np.rint(np.asarray(day, dtype=float)).astype(int) - FIRST_DAY, 0, sums.shape[1] - 1)
    end = sums[rows, place]
    before = np.where(place > 0, sums[rows, np.maximum(place - 1, 0)], 0.0)
    noon = np.maximum((end + before) / 2, LEAST_SUM)
    return np.log(noon), np.clip((end - before) / noon, LEAST_GROWTH, MOST_GROWTH)


def level_on(sums: FloatArray, day: float) -> tuple[float, float]:
    """The same of one season's sums, (days,), and one day: level and growth."""
    place = min(max(round(day) - FIRST_DAY, 0), len(sums) - 1)
    end = float(sums[place])
    before = float(sums[place - 1]) if place else 0.0
    noon = max((end + before) / 2, LEAST_SUM)
    return math.log(noon), min(max((end - before) / noon, LEAST_GROWTH), MOST_GROWTH)


def day_reached(sums: FloatArray, level: ArrayLike) -> FloatArray:
    """When a level is reached, with parts of a day: noon of day 90 is 90.0.

    Parameters
    ----------
    sums : (seasons, days)
    level : (seasons,) or (seasons, levels)
        Logarithms of warmth.

    Returns
    -------
    array, shape of `level` [day number]
        The day after the last one where it is not reached.
    """
    wanted = np.exp(np.asarray(level, dtype=float))
    flat = wanted.reshape(len(sums), -1)
    last = sums.shape[1] - 1
    place = np.stack([np.searchsorted(row, asked) for row, asked in zip(sums, flat, strict=True)])
    held = np.minimum(place, last)
    end = np.take_along_axis(sums, held, axis=1)
    before = np.where(held > 0, np.take_along_axis(sums, np.maximum(held - 1, 0), axis=1), 0.0)
    part = np.clip((flat - before) / np.maximum(end - before, LEAST_SUM), 0.0, 1.0)
    reached = np.where(place > last, last + 1.0, held + part - 0.5) + FIRST_DAY
    return np.asarray(reached.reshape(wanted.shape))


def as_cold(response: Response, winter: float, share: float) -> float:
    """The mean of a winter [degC] whose days bring this share of the cold that those of `winter` bring."""
    brought = 1 / (1 + math.exp(response.cold_slope * (winter - response.cold_half)))
    return response.cold_half + math.log(1 / (share * brought) - 1) / response.cold_slope
