"""Winter chill counted from hourly temperatures, two ways.

Every function takes temperatures [degC] with the hours along the last axis and gives the running total
at the end of each hour, in the same shape. From the first gap (NaN) on the total is NaN.

References
----------
.. [1] Fishman, S., Erez, A. and Couvillon, G. A. (1987). The temperature dependence of dormancy breaking in
   plants. J. Theor. Biol. 124: 473-483 and 126: 309-321.
.. [2] Erez, A. et al. (1990). The dynamic model for rest completion in peach buds. Acta Hort. 276: 165-174.
.. [3] Weinberger, J. H. (1950). Chilling requirements of peach varieties. Proc. Am. Soc. Hort. Sci. 56:
   122-128.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike

from leafturn.base.arrays import FloatArray

# Constants of the dynamic model as published [1, 2]; kelvin are counted from 273, not 273.15, which
# would move the result by up to four portions.
E0, E1 = 4153.5, 12888.8
A0, A1 = 139500.0, 2.567e18
SLOPE, TURNING_POINT = 1.6, 277.0
KELVIN = 273.0
COLDEST = 150.0  # [K]; colder than any air measured, and nothing gathers long before: the powers stay numbers

CHILL_HOUR_WARMEST = 7.2  # [degC], 45 degF


def chill_portions(hourly: ArrayLike) -> FloatArray:
    """Chill portions by the dynamic model.

    Cold makes an intermediate product, warmth destroys it; when enough has gathered it becomes a portion
    that stays.

    Parameters
    ----------
    hourly : (..., hours) [degC]

    Returns
    -------
    (..., hours) array
        Portions gathered by the end of each hour.

    Notes
    -----
    The published start: nothing gathered before the first hour, and that hour counts. What is left over
    after a portion was made is judged by the temperature of the hour that made it.

    References
    ----------
    Fishman et al. 1987 [1]_, Erez et al. 1990 [2]_.
    """
    temperature = np.asarray(hourly, dtype=float)
    many = temperature.reshape(math.prod(temperature.shape[:-1]), temperature.shape[-1])
    gained, _ = portions_gained(many, np.zeros(len(many)))
    return np.cumsum(gained.reshape(temperature.shape), axis=-1)


def portions_gained(hourly: FloatArray, product: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Chill portions of each hour of some series that go on from earlier hours.

    Parameters
    ----------
    hourly : (series, hours) [degC]
    product : (series,)
        What has gathered towards the next portion before the first hour; 0 at the start of a winter.

    Returns
    -------
    gained : (series, hours) array
        Portions made in each hour.
    product : (series,) array
        What has gathered towards the next after the last hour; NaN after a gap.

    Notes
    -----
    Hour by hour in plain numbers: for the dozens of winters of a garden arrays of an hour each take longer.
    """
    kelvin = np.maximum(hourly + KELVIN, COLDEST)
    made = 1 / (1 + np.exp(-SLOPE * TURNING_POINT * (kelvin - TURNING_POINT) / kelvin))
    level = A0 / A1 * np.exp((E1 - E0) / kelvin)
    kept = np.exp(-A1 * np.exp(-E1 / kelvin))
    comes = level * (1 - kept)
    gained, after, hours = np.zeros_like(made), product.tolist(), range(hourly.shape[-1])
    for series, row in enumerate(zip(comes.tolist(), kept.tolist(), strict=True)):
        gathered = after[series]
        for hour, come, rest in zip(hours, *row, strict=True):
            gathered = come + gathered * rest
            if not gathered < 1.0:  # so that a gap goes on
                gained[series, hour] = portion = float(made[series, hour]) * gathered
                gathered -= portion
        after[series] = gathered
    return gained, np.array(after)


def chill_hours(hourly: ArrayLike) -> FloatArray:
    """Hours from 0 to 7.2 degC, both included.

    Parameters and shape of the result as in `chill_portions`.

    References
    ----------
    Weinberger 1950 [3]_.
    """
    temperature = np.asarray(hourly, dtype=float)
    counted = (temperature >= 0) & (temperature <= CHILL_HOUR_WARMEST)
    return np.asarray(np.cumsum(np.where(np.isnan(temperature), np.nan, counted), axis=-1))
