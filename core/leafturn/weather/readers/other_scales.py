"""Temperatures of neither Celsius nor Fahrenheit: tenths of a degree, as archives keep them, or kelvin.

They are asked about, never guessed: read as Fahrenheit most days of such a file lie in bounds, and are wrong.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from leafturn.base.arrays import FloatArray, median
from leafturn.base.bounds import HOTTEST_AIR_C
from leafturn.base.units import celsius_to_fahrenheit
from leafturn.weather.calendar import places_in_leap_year
from leafturn.weather.normals.normals import Normals
from leafturn.weather.readers.file_rows import Rows
from leafturn.weather.readers.head_words import Quantity

HOTTEST_F = celsius_to_fahrenheit(HOTTEST_AIR_C)
BEYOND_SHARE = 0.02  # of days over it, from which on no Fahrenheit is believed; a guess
LEAST_BEYOND = 3
ZERO_C_IN_K = 273.15  # by definition (BIPM, SI Brochure)
ASKED = {
    "tenths of a degree": "If so, divide them by ten.",
    "kelvin": "If so, take 273.15 from each.",
}


def other_scale(rows: Rows, values: Mapping[Quantity, FloatArray], usual: Normals | None) -> tuple[str, str]:
    """What a file's temperatures may be that can be neither Celsius nor Fahrenheit, and the evidence.

    Parameters
    ----------
    rows : Rows
        For its dates.
    values : mapping
        Their "tmin" and "tmax" as written.
    usual : Normals or None
        A rough year of the place.

    Returns
    -------
    (str, str)
        One of `ASKED` and a sentence; both empty where they can be of one of the two.
    """
    mean = (values["tmin"] + values["tmax"]) / 2
    known = np.isfinite(mean)
    days = int(np.count_nonzero(known))
    beyond = int(np.count_nonzero(values["tmax"] > HOTTEST_F))
    if not days or beyond < max(BEYOND_SHARE * days, LEAST_BEYOND):
        return "", ""
    why = f"{beyond:,} of {days:,} maxima lie over {HOTTEST_F:.0f}, in either unit hotter than any weather."
    if usual is None:
        return ("kelvin" if float(np.nanmin(mean)) > ZERO_C_IN_K / 1.5 else "tenths of a degree"), why
    middle = (usual.tmin + usual.tmax)[places_in_leap_year(rows.dates[known])] / 2
    off = {
        "tenths of a degree": abs(median(mean[known] / 10 - middle)),
        "kelvin": abs(median(mean[known] - ZERO_C_IN_K - middle)),
    }
    return min(off, key=lambda scale: off[scale]), why
