"""Weight of each day for pollination: a warm dry day counts whole, a cold or wet one hardly.

Notes
-----
The days of a season are summed, each at what its weather lets the carrier do. Bloom measured on these
sums instead of on the calendar makes the overlap of two trees that of the days on which pollen moves.
Bees hardly fly below 10-12 degC nor in rain; wind carries in any warmth, but rain washes the air clean.
Where between the limits flight begins is a guess (see numbers).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

import numpy as np

from leafturn.base.arrays import FloatArray
from leafturn.base.closed_words import CARRIERS
from leafturn.base.tunables import USUAL, Numbers
from leafturn.season.ensemble import Ensemble

LEAST = 0.02  # guess: what moves on the worst day; it keeps a bloom all in the rain from being no bloom


def carrying(tmax: FloatArray, rain: FloatArray, carrier: str, numbers: Numbers = USUAL) -> FloatArray:
    """How much of a full day's pollen is carried.

    Parameters
    ----------
    tmax : array [degC]
        Highest of the day.
    rain : array, same shape [mm]
    carrier : str
        "insect", "fly" or "wind"; warmth counts for the first two.
    numbers : Numbers

    Returns
    -------
    array, same shape, from LEAST to 1
    """
    dry = np.power(0.5, np.maximum(np.nan_to_num(rain), 0.0) / numbers["partner_rain_halves_mm"])
    if carrier == "wind":
        return np.maximum(dry, LEAST)
    first, full = numbers["partner_flies_from_c"], numbers["partner_flies_fully_c"]
    warm = np.clip((np.nan_to_num(tmax, nan=full) - first) / max(full - first, 0.1), 0.0, 1.0)
    return np.maximum(warm * dry, LEAST)


class CarrierDays:
    """Sums of carrying days from the first day of the axis on, in every ensemble member.

    Parameters
    ----------
    weights : (members, days)
        What each day counts, above 0.
    """

    def __init__(self, weights: FloatArray) -> None:
        self._weights = weights
        self._sums = np.zeros((weights.shape[0], weights.shape[1] + 1))
        np.cumsum(weights, axis=1, out=self._sums[:, 1:])

    def at(self, day: FloatArray) -> FloatArray:
        """Carrying days up to a day.

        Parameters
        ----------
        day : (..., draws) [day number]
            Draws are in the order of the members, as many of each. Inf stays inf.

        Returns
        -------
        array, same shape; days outside the axis count as its first or last day.
        """
        members, days = self._weights.shape
        known = np.where(np.isfinite(day), day, 0.0)
        whole = np.clip(np.floor(known), 0, days - 1).astype(np.intp)
        member = np.repeat(np.arange(members), day.shape[-1] // members)
        at = member * days + whole
        sums = self._sums[:, :-1].ravel().take(at) + (known - whole) * self._weights.ravel().take(at)
        return np.where(np.isfinite(day), sums, day)


Clock = Callable[[FloatArray], FloatArray]


def every_day(day: FloatArray) -> FloatArray:
    """The calendar: each day counts whole. Day numbers of any shape."""
    return day


def clocks(weather: Ensemble | None, numbers: Numbers = USUAL) -> Mapping[str, Clock]:
    """How each carrier counts the days; the calendar where there is no weather.

    Returns
    -------
    mapping of "insect", "fly" and "wind" to a function of (..., draws) day numbers
    """
    if weather is None:
        return dict.fromkeys(CARRIERS, every_day)
    insect = CarrierDays(carrying(weather.tmax, weather.rain, "insect", numbers)).at
    wind = CarrierDays(carrying(weather.tmax, weather.rain, "wind", numbers)).at
    return {"insect": insect, "fly": insect, "wind": wind}
