"""Degree days: how much of a day's warmth lies above a threshold.

Each method pictures the day between its minimum and maximum as a shape, a sine or the mean all day long,
and measures the area of that shape above the lower threshold. The upper threshold then takes something
off, by one of three published cut-offs:

* horizontal: warmth above it counts no further, area(lower) - area(upper);
* intermediate: warmth above it counts against, area(lower) - 2 area(upper), never below 0;
* vertical: nothing counts while the day is above it, which also loses the strip between the
  thresholds for that share of the day.

All functions take arrays of any shape in one unit (degC or degF, thresholds too) and broadcast. NaN
stays NaN. Results are in that unit times days.

References
----------
.. [1] Arnold, C. Y. (1960). Maximum-minimum temperatures as a basis for computing heat units.
   Proc. Am. Soc. Hort. Sci. 76: 682-692.
.. [2] Baskerville, G. L. and Emin, P. (1969). Rapid estimation of heat accumulation from maximum and
   minimum temperatures. Ecology 50: 514-517.
.. [3] Zalom, F. G. et al. (1983). Degree-days: the calculation and use of heat units in pest
   management. Univ. of California, Div. of Agric. and Nat. Resources, Leaflet 21373.
.. [4] Met Eireann, Degree days below and above base temperature, met.ie/climate/data03.asp (read): the four
   cases of the British Met Office.
"""

from __future__ import annotations

from typing import Literal

import numpy as np
from numpy.typing import ArrayLike

from leafturn.base.arrays import FloatArray, IndexArray

Cutoff = Literal["horizontal", "vertical", "intermediate"]


class _Average:
    """Days at their mean, all day long."""

    def __init__(self, tmin: FloatArray, tmax: FloatArray) -> None:
        self.tmin, self.tmax = (np.array(a, order="C", copy=None) for a in np.broadcast_arrays(tmin, tmax))
        self.mean = (self.tmin + self.tmax) / 2

    def area(self, threshold: FloatArray) -> FloatArray:
        """Area above the threshold, one value a day."""
        return np.atleast_1d(np.maximum(self.mean - threshold, 0.0))

    def share(self, threshold: FloatArray) -> FloatArray:
        """Share of the day above the threshold."""
        return np.atleast_1d((self.mean > threshold).astype(float))


class _Sine(_Average):
    """Days as one sine wave; spent wholly on one side of the threshold they count as their mean."""

    def _partial(self, threshold: FloatArray) -> tuple[IndexArray, FloatArray, FloatArray, FloatArray]:
        """Where the threshold lies inside the day: flat places, and tmin, tmax and threshold there."""
        places = np.flatnonzero((self.tmin < threshold) & (self.tmax > threshold))
        shape = np.broadcast_shapes(self.tmin.shape, threshold.shape)

        def there(values: FloatArray) -> FloatArray:
            return np.broadcast_to(values, shape).reshape(-1)[places]

        return places, there(self.tmin), there(self.tmax), there(threshold) if threshold.ndim else threshold

    def area(self, threshold: FloatArray) -> FloatArray:
        """Area above the threshold, one value a day.

        With cos(angle) = (threshold - mean) / amplitude the published formula becomes
        ((mean - threshold) angle + amplitude sin(angle)) / pi, and amplitude sin(angle) is
        sqrt((tmax - threshold) (threshold - tmin)): one arc a day, and only on partial days.
        """
        above = super().area(threshold)
        places, low, high, limit = self._partial(threshold)
        beyond = limit - (low + high) / 2
        angle = np.arccos(2 * beyond / (high - low))
        above.reshape(-1)[places] = (np.sqrt((high - limit) * (limit - low)) - beyond * angle) / np.pi
        return above

    def share(self, threshold: FloatArray) -> FloatArray:
        """Share of the day above the threshold."""
        above = super().share(threshold)
        places, low, high, limit = self._partial(threshold)
        above.reshape(-1)[places] = np.arccos((2 * limit - low - high) / (high - low)) / np.pi
        return above


def _cut(days: _Average, areas: dict[float, FloatArray], lower: FloatArray, upper: FloatArray | None,
         cutoff: Cutoff) -> FloatArray:  # fmt: skip
    """Degree days between the thresholds; single thresholds keep their area in `areas` for the next pair."""

    def area(threshold: FloatArray) -> FloatArray:
        if threshold.ndim:
            return days.area(threshold)
        if (key := float(threshold)) not in areas:
            areas[key] = days.area(threshold)
        return areas[key]

    if upper is None:
        return area(lower)
    if cutoff == "horizontal":
        return area(lower) - area(upper)
    if cutoff == "intermediate":
        return np.maximum(area(lower) - 2 * area(upper), 0.0)
    lost = (upper - lower) * days.share(upper)
    # the three terms cancel on a day wholly above, and may leave a rounding error below 0
    return np.maximum(area(lower) - area(upper) - lost, 0.0)


def _degree_days(
    shape: type[_Average],
    tmin: ArrayLike,
    tmax: ArrayLike,
    lower: ArrayLike,
    upper: ArrayLike | None,
    cutoff: Cutoff,
) -> FloatArray:
    """Count with one day shape. Thresholds that stand before the days are taken one pair at a time."""
    if cutoff not in ("horizontal", "vertical", "intermediate"):
        raise ValueError(f"cutoff is {cutoff!r}; it must be horizontal, vertical or intermediate")
    low, high, floor = (np.asarray(a, dtype=float) for a in (tmin, tmax, lower))
    ceiling = None if upper is None else np.asarray(upper, dtype=float)
    if ceiling is not None:
        floor, ceiling = np.broadcast_arrays(floor, ceiling)
        if bool(np.any(ceiling < floor)):
            raise ValueError("an upper threshold lies below its lower threshold")
    days = shape(low, high)
    whole = np.broadcast_shapes(days.tmin.shape, floor.shape)
    before = floor.ndim - days.tmin.ndim
    one_pair_at_a_time = before >= 0 and all(size == 1 for size in floor.shape[before:])
    if not one_pair_at_a_time:
        return _cut(days, {}, floor, ceiling, cutoff).reshape(whole)
    areas: dict[float, FloatArray] = {}
    counted = np.empty(whole)
    for place in np.ndindex(floor.shape[:before]):
        one = floor[place].reshape(())
        other = None if ceiling is None else ceiling[place].reshape(())
        counted[place] = _cut(days, areas, one, other, cutoff).reshape(days.tmin.shape)
    return counted


def single_sine(
    tmin: ArrayLike,
    tmax: ArrayLike,
    lower: ArrayLike,
    upper: ArrayLike | None = None,
    cutoff: Cutoff = "horizontal",
) -> FloatArray:
    """Degree days with the day as one sine wave.

    With mean M and half range a: M - L where the whole day is above L, 0 where it is below, else
    ``((M - L)(pi/2 - t) + a cos t) / pi`` with ``t = asin((L - M) / a)``. The arc is taken only on
    those partial days, and once for each distinct threshold.

    Parameters
    ----------
    tmin, tmax : array_like
        Daily minimum and maximum temperature, any shapes that broadcast.
    lower, upper : array_like
        Thresholds in the unit of the temperatures; no upper threshold if None. Thresholds for
        several counts over the same days are fastest with one axis for each of the days' axes
        behind them, e.g. (pairs, 1, 1) over days (years, days) for a result (pairs, years, days).
    cutoff : str
        "horizontal", "vertical" or "intermediate".

    Returns
    -------
    array
        Degree days, shape as broadcast; NaN where a temperature is NaN.

    Raises
    ------
    ValueError
        If an upper threshold lies below its lower one, or the cutoff is none of the three.

    References
    ----------
    Baskerville and Emin 1969 [2]_; cut-offs after Zalom et al. 1983 [3]_.
    """
    return _degree_days(_Sine, tmin, tmax, lower, upper, cutoff)


def average(
    tmin: ArrayLike,
    tmax: ArrayLike,
    lower: ArrayLike,
    upper: ArrayLike | None = None,
    cutoff: Cutoff = "horizontal",
) -> FloatArray:
    """Degree days with the day at its mean: ``max(0, (tmin + tmax) / 2 - L)``.

    Parameters, result and errors as in `single_sine`.

    References
    ----------
    Arnold 1960 [1]_.
    """
    return _degree_days(_Average, tmin, tmax, lower, upper, cutoff)


def four_case(tmin: ArrayLike, tmax: ArrayLike, lower: ArrayLike) -> FloatArray:
    """Degree days by the four cases of met services, a second opinion on `single_sine`.

    With mean M: ``M - L`` where the whole day is above L, ``(tmax - L)/2 - (L - tmin)/4`` where the mean is,
    ``(tmax - L)/4`` where the maximum alone is, else 0.

    Parameters and result as in `single_sine`; there is no upper threshold.

    References
    ----------
    Met Eireann [4]_.
    """
    low, high, limit = (np.asarray(a, dtype=float) for a in (tmin, tmax, lower))
    mean = (low + high) / 2
    partly = np.where(mean >= limit, (high - limit) / 2 - (limit - low) / 4, (high - limit) / 4)
    above = np.where(low >= limit, mean - limit, np.where(high > limit, partly, 0.0))
    return np.asarray(np.where(np.isnan(mean), np.nan, above))
