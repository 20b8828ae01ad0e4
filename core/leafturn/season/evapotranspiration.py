"""Reference evapotranspiration, and the radiation at the top of the air that it is computed from.

References
----------
.. [1] Allen, R. G., Pereira, L. S., Raes, D. and Smith, M. (1998). Crop evapotranspiration. FAO
   Irrigation and Drainage Paper 56, Rome.
.. [2] Hargreaves, G. H. and Samani, Z. A. (1985). Reference crop evapotranspiration from temperature.
   Appl. Eng. Agric. 1: 96-99.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from leafturn.base.arrays import FloatArray
from leafturn.season.sun import declination, sunset_hour_angle

SOLAR_CONSTANT = 0.0820  # [MJ m-2 min-1], FAO-56
WATER_PER_ENERGY = 0.408  # [mm per MJ m-2], the inverse of the heat of vaporisation, FAO-56 table 3


def extraterrestrial_radiation(latitude: ArrayLike, day_of_year: ArrayLike) -> FloatArray:
    """Sunshine of a day above the air, on the level [MJ m-2 d-1], FAO-56 equation 21.

    Parameters
    ----------
    latitude : array_like [deg]
    day_of_year : array_like
        1 January 1; broadcasts with `latitude`.
    """
    phi = np.radians(np.asarray(latitude, dtype=float))
    day = np.asarray(day_of_year, dtype=float)
    nearness = 1 + 0.033 * np.cos(2 * np.pi * day / 365)
    tilt, sunset = declination(day), sunset_hour_angle(latitude, day)
    lit = sunset * np.sin(phi) * np.sin(tilt) + np.cos(phi) * np.cos(tilt) * np.sin(sunset)
    return np.asarray(np.maximum(24 * 60 / np.pi * SOLAR_CONSTANT * nearness * lit, 0.0))


def hargreaves(tmin: ArrayLike, tmax: ArrayLike, ra: ArrayLike) -> FloatArray:
    """Reference evapotranspiration from temperatures alone [mm d-1], FAO-56 equation 52.

    ``0.0023 (mean + 17.8) sqrt(tmax - tmin) 0.408 ra``. Too high in humid places, too low in windy ones.

    Parameters
    ----------
    tmin, tmax : array_like [degC]
    ra : array_like [MJ m-2 d-1]
        As from `extraterrestrial_radiation`; all broadcast.

    Returns
    -------
    array [mm d-1]
        Never below 0; NaN where a temperature is NaN.
    """
    low, high = np.asarray(tmin, dtype=float), np.asarray(tmax, dtype=float)
    warmth = (low + high) / 2 + 17.8
    demand = 0.0023 * warmth * np.sqrt(np.maximum(high - low, 0.0)) * WATER_PER_ENERGY * np.asarray(ra)
    return np.asarray(np.maximum(demand, 0.0))
