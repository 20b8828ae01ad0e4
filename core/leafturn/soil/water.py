"""When the soil of a young root ball runs dry: a bucket filled by rain and emptied by the air's demand."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from leafturn.season.ensemble import Ensemble
from leafturn.season.evapotranspiration import extraterrestrial_radiation, hargreaves

FloatArray = NDArray[np.float64]

# Water a metre of soil holds for plants [mm/m]: middle of the ranges of FAO-56 Table 19 (recalled).
AVAILABLE_MM_PER_M = {"sand": 80.0, "loam": 155.0, "clay": 160.0}


def dry_day(
    ensemble: Ensemble, latitude: float, soil: str, since: int, numbers: Mapping[str, float]
) -> FloatArray:
    """First day on which a young root zone has used the water it can give without stress.

    Parameters
    ----------
    ensemble : Ensemble
    latitude : float [deg]
    soil : str
        "sand", "loam" or "clay".
    since : int [day number]
        A day on which the root zone was full: the last watering, or the end of winter.
    numbers : mapping
        Built-in numbers: young_root_m, soil_depletion, young_crop_factor.

    Returns
    -------
    (members,) [day number]
        inf where it stays moist to the axis' end.

    Notes
    -----
    FAO-56 chapter 8 without runoff or capillary rise: depletion grows by Kc ET0, shrinks by rain, and
    is never below zero; stress begins beyond p TAW.
    """
    first = max(since, 0)
    available = AVAILABLE_MM_PER_M.get(soil, 155.0) * numbers["young_root_m"]
    limit = numbers["soil_depletion"] * available
    members, days = ensemble.tmin.shape
    day_of_year = np.array([ensemble.axis.date(d).timetuple().tm_yday for d in range(first, days)])
    radiation = extraterrestrial_radiation(latitude, day_of_year)
    demand = numbers["young_crop_factor"] * hargreaves(
        ensemble.tmin[:, first:], ensemble.tmax[:, first:], radiation
    )
    change = demand - ensemble.rain[:, first:]
    depletion = np.zeros(members)
    dry = np.full(members, np.inf)
    for step in range(change.shape[1]):
        depletion = np.maximum(depletion + change[:, step], 0.0)
        dry = np.where(np.isinf(dry) & (depletion > limit), first + step, dry)
    return dry
