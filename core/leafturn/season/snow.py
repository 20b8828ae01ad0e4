"""Snow as a record of rain and warmth has it: what falls while it is about freezing."""

from __future__ import annotations

import numpy as np

from leafturn.base.arrays import FloatArray
from leafturn.base.kept import kept
from leafturn.season.ensemble import Ensemble

# Day means under which what falls is snow: half of it is at about 1 degC (Jennings et al. 2018, recalled),
# and over which it clings to branches: guess.
SNOW_UNDER_C, CLINGS_OVER_C = 1.0, -2.0
LOAD_MM = 12.0  # guess: some 10 to 15 cm of wet snow in a day
_WINTER = slice(0, 212)  # November to May, in the south May to November: the axis begins with November


@kept  # several rules ask it
def usual_snow(usual: Ensemble) -> float:
    """The water that falls as snow in a usual winter [mm].

    Parameters
    ----------
    usual : Ensemble
        The season as it usually is.
    """
    cold = usual.tmean[:, _WINTER] < SNOW_UNDER_C
    snow = np.where(cold, usual.rain[:, _WINTER], 0.0)
    return float(np.nanmean(np.nansum(snow, axis=1)))


def is_wet_snow(tmin: FloatArray | float, tmax: FloatArray | float, rain: FloatArray | float) -> FloatArray:
    """Whether so much snow fell on a day, so near to freezing, that it clung and bent what it lay on.

    Parameters
    ----------
    tmin, tmax : array or float [degC]
    rain : array or float [mm]
        With what fell as snow, as water.
    """
    mean = (np.asarray(tmin) + np.asarray(tmax)) / 2
    return np.asarray((mean < SNOW_UNDER_C) & (mean > CLINGS_OVER_C) & (np.asarray(rain) >= LOAD_MM))
