"""Degree days: how much of a day's warmth lies above a threshold.

The day is pictured between its minimum and maximum, as one sine or by cases. Warmth above an upper threshold
counts no further (the horizontal cut-off).

All functions take arrays of any shape in one unit (degC or degF, thresholds too) and broadcast. NaN
stays NaN. Results are in that unit times days.

References
----------
.. [1] Baskerville, G. L. and Emin, P. (1969). Rapid estimation of heat accumulation from maximum and
   minimum temperatures. Ecology 50: 514-517.
.. [2] Zalom, F. G. et al. (1983). Degree-days: the calculation and use of heat units in pest
   management. Univ. of California, Div. of Agric. and Nat. Resources, Leaflet 21373.
.. [3] Met Eireann, Degree days below and above base temperature, met.ie/climate/data03.asp (read): the four
   cases of the British Met Office.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from leafturn.base.arrays import FloatArray


def single_sine(tmin: ArrayLike, tmax: ArrayLike, lower: float, upper: float | None = None) -> FloatArray:
    """Degree days with the day as one sine wave.

    With mean M and half range a: M - L where the whole day is above L, 0 where it is below, else
    ``((M - L)(pi/2 - t) + a cos t) / pi`` with ``t = asin((L - M) / a)``; less the same above the upper
    threshold, if there is one.

    Parameters
    ----------
    tmin, tmax : array_like
        Daily minimum and maximum temperature, any shapes that broadcast.
    lower, upper : float
        Thresholds in the unit of the temperatures.

    Returns
    -------
    array
        Degree days, shape as broadcast; NaN where a temperature is NaN.

    References
    ----------
    Baskerville and Emin 1969 [1]_; the cut-off after Zalom et al. 1983 [2]_.
    """
    low, high = (np.array(a, dtype=float, order="C", copy=None) for a in np.broadcast_arrays(tmin, tmax))
    above = _above(low, high, lower)
    return above if upper is None else above - _above(low, high, upper)


def _above(tmin: FloatArray, tmax: FloatArray, threshold: float) -> FloatArray:
    """Area of the sine above a threshold, one value a day.

    With cos(angle) = (threshold - mean) / amplitude the published formula becomes
    ((mean - threshold) angle + amplitude sin(angle)) / pi, and amplitude sin(angle) is
    sqrt((tmax - threshold) (threshold - tmin)): one arc a day, and only on days that the threshold parts.
    """
    above = np.asarray(np.maximum((tmin + tmax) / 2 - threshold, 0.0))
    places = np.flatnonzero((tmin < threshold) & (tmax > threshold))
    low, high = tmin.reshape(-1)[places], tmax.reshape(-1)[places]
    beyond = threshold - (low + high) / 2
    angle = np.arccos(2 * beyond / (high - low))
    above.reshape(-1)[places] = (np.sqrt((high - threshold) * (threshold - low)) - beyond * angle) / np.pi
    return above


def four_case(tmin: ArrayLike, tmax: ArrayLike, lower: float) -> FloatArray:
    """Degree days by the four cases of met services, a second opinion on `single_sine`.

    With mean M: ``M - L`` where the whole day is above L, ``(tmax - L)/2 - (L - tmin)/4`` where the mean is,
    ``(tmax - L)/4`` where the maximum alone is, else 0.

    Parameters and result as in `single_sine`; there is no upper threshold.

    References
    ----------
    Met Eireann [3]_.
    """
    low, high = np.asarray(tmin, dtype=float), np.asarray(tmax, dtype=float)
    mean = (low + high) / 2
    partly = np.where(mean >= lower, (high - lower) / 2 - (lower - low) / 4, (high - lower) / 4)
    above = np.where(low >= lower, mean - lower, np.where(high > lower, partly, 0.0))
    return np.asarray(np.where(np.isnan(mean), np.nan, above))
