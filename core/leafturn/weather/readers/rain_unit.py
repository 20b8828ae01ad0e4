"""Rain in mm, whatever its unit; inches under a head of mm, and mm under one of inches, are asked about.

A year's sum alone tells neither: a desert has in mm what a wet coast has in inches. What falls on a day of
rain is much alike everywhere, and the two units lie 25 times apart.
"""

from __future__ import annotations

import numpy as np

from leafturn.base import quantities
from leafturn.base.arrays import FloatArray
from leafturn.base.faults import Fault
from leafturn.base.units import inches_to_millimetres
from leafturn.base.value import Value
from leafturn.weather.quality import WETTEST
from leafturn.weather.readers.columns_read import ASKED_ABOUT
from leafturn.weather.readers.csv_columns import UNIT_WORDS, Layout
from leafturn.weather.readers.head_words import Unit

LEAST_WET_DAYS = 20  # fewer tell nothing of a file as a whole; a guess
# What falls on a day of rain, on average, from memory: 3 to 15 mm from Phoenix to Darwin, 70 in the wettest
# hills of Assam. Less than the first is no mm, more than the second are no inches; guesses between.
DRIZZLE_MM, DELUGE_IN = 0.7, 3.5
# Of days of rain, the share told finer than tenths, from which on no gauge told them in mm; a guess. It
# spares coasts where fog drizzles, as at Lima.
FINE_SHARE = 0.5
YEAR = 365.25  # [d]


class RainRead(Value, eq=False):
    """Rain of the rows of a file.

    Parameters
    ----------
    mm : (rows,) [mm] or None
        None where there is none, or where its unit is asked about.
    unit : str
        What it was read as, in words.
    faults : tuple of Fault
        What is asked.
    """

    mm: FloatArray | None
    unit: str
    faults: tuple[Fault, ...] = ()


def rain_read(rain: FloatArray | None, layout: Layout, scale: Unit | None, name: str, line: int) -> RainRead:
    """Rain as far as its unit is known.

    Parameters
    ----------
    rain : (rows,) or None
        As written.
    layout : Layout
    scale : "C", "F" or None
        What the temperatures beside it are in, which a head without a unit goes by; None if nobody knows.
    name, line : str, int
        The file and the line of its heads, for what is asked.
    """
    column = layout.values.get("rain")
    by_scale: dict[Unit | None, Unit] = {"C": "mm", "F": "in"}
    unit = (column and column.unit) or by_scale.get(scale)
    if rain is None or column is None or unit is None:
        return RainRead(mm=None, unit=ASKED_ABOUT if unit is None else UNIT_WORDS[unit])
    if evidence := _against(unit, rain):
        other: Unit = "in" if unit == "mm" else "mm"
        asked = f"Is {layout.names[column.place]} in {UNIT_WORDS[other]} rather than {UNIT_WORDS[unit]}?"
        message = f"{evidence} {asked} No rain of the file is used until that is told."
        fault = Fault(file=name, line=line, message=message, hint=f"If so, name the column rain_{other}.")
        return RainRead(mm=None, unit=ASKED_ABOUT, faults=(fault,))
    return RainRead(mm=rain if unit == "mm" else inches_to_millimetres(rain), unit=UNIT_WORDS[unit])


def _against(unit: Unit, rain: FloatArray) -> str:
    """Why rain cannot be in a unit; empty where it can."""
    rain = np.where(rain <= WETTEST, rain, np.nan)  # what no day has had tells of a slip, not of a unit
    wet = rain[rain > 0]
    if len(wet) < LEAST_WET_DAYS:
        return ""
    usual = float(wet.mean())
    fine = np.mean(np.abs(wet * 10 - np.round(wet * 10)) > 1e-6)
    if (usual >= DRIZZLE_MM or fine < FINE_SHARE) if unit == "mm" else usual <= DELUGE_IN:
        return ""
    year = float(np.nanmean(rain)) * YEAR
    what = "less than any weather with so many days of rain" if unit == "mm" else "more than any weather"
    amounts = f"{quantities.number(usual, 2)} {unit} on a day of rain, {year:,.0f} {unit} in a year"
    return f"Read as {UNIT_WORDS[unit]} it would have {amounts}, {what}."
