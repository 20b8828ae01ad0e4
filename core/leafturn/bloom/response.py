"""How a kind answers to the cold of autumn and winter, and to the warmth after it.

Two sums run side by side from 1 October (south: 1 April):

* cold: a day counts nearly 1 when it is cold and nearly 0 when it is warm, with a smooth step between;
* warmth: a day counts ``exp(rate (T - 10))``, the mean over the day's sine from minimum to maximum, and
  counts only as far as the cold gathered so far lets it: not at all in autumn, fully once the kind's
  need of cold is met.

Flowers open when the warmth so gathered reaches the plant's own level. Levels are used as logarithms: a
plant that needs a tenth more warmth than its neighbour does so in a warm spring and in a cold one.

References
----------
.. [1] Ono, S. and Konno, T. (1999). Estimation of flowering date and temperature characteristics of fruit
   trees by DTS method. Jpn. Agric. Res. Q. 33: 105-108 (daily development as an exponential function of
   temperature; from memory).
.. [2] Chuine, I. (2000). A unified model for budburst of trees. J. Theor. Biol. 207: 337-347 (smooth chill
   and forcing functions, warmth that works only after chill; from memory).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

FloatArray = NDArray[np.float64]

FIRST_DAY = -91
"""Day number of 1 October (south: 1 April), the first of a season; day 1 is 1 January (south: 1 July)."""

WARMTH_AT = 10.0  # [degC] the day of this temperature counts 1; fixes the unit only
LEAST_SUM = 1e-12
BESSEL_TERMS = 7  # enough for 1e-6 while rate times half the day's range stays under 3


@dataclass(frozen=True, kw_only=True)
class Response:
    """The five numbers of one kind.

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
    """

    warmth_rate: float = 0.12
    cold_need: float = 65.0
    cold_width: float = 8.0
    cold_half: float = 13.0
    cold_slope: float = 0.15

    def sums(self, tmin: FloatArray, tmax: FloatArray) -> FloatArray:
        """Warmth gathered by the end of each day, (seasons, days).

        Parameters
        ----------
        tmin, tmax : (seasons, days) [degC]
            Without gaps, the first column is FIRST_DAY.
        """
        return np.asarray(np.cumsum(self.daily(tmin, tmax), axis=-1))

    def daily(self, tmin: FloatArray, tmax: FloatArray) -> FloatArray:
        """Warmth that counts on each day, same shape."""
        mean, half_range = (tmin + tmax) / 2, np.abs(tmax - tmin) / 2
        cold = np.cumsum(step(self.cold_slope * (self.cold_half - mean)), axis=-1)
        counts = step((cold - self.cold_need) / self.cold_width)
        return np.asarray(warmth(mean, half_range, self.warmth_rate) * counts)


def warmth(mean: ArrayLike, half_range: ArrayLike, rate: float) -> FloatArray:
    """Mean of ``exp(rate (T - 10))`` over a day whose temperature is a sine.

    It is ``exp(rate (mean - 10)) I0(rate half_range)``, I0 being the modified Bessel function, here by its
    power series.

    Parameters
    ----------
    mean, half_range : array_like [degC]
        Mean of the day's minimum and maximum, and half their difference.
    rate : float [1/degC]

    References
    ----------
    Abramowitz and Stegun (1964), 9.6.12 (series) and 9.6.16 (integral).
    """
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
    return np.log(noon), np.clip((end - before) / noon, 0.002, 2.0)


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
