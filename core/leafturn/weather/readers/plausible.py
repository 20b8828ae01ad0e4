"""Whether a file's temperatures can be what their heads say: Fahrenheit under Celsius, columns swapped,
tenths of a degree or kelvin.

A head that names no unit leaves it to the numbers; one that names the wrong unit is asked about, and no
temperature of the file is used until it is answered, since dates reckoned from it would be months off.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

import numpy as np

from leafturn.base import quantities
from leafturn.base.arrays import FloatArray, median
from leafturn.base.faults import Fault
from leafturn.base.units import fahrenheit_to_celsius
from leafturn.base.value import Value
from leafturn.weather.calendar import places_in_leap_year
from leafturn.weather.normals.normals import Normals
from leafturn.weather.readers.columns_read import ASKED_ABOUT
from leafturn.weather.readers.csv_columns import UNIT_WORDS, Layout
from leafturn.weather.readers.file_rows import Rows
from leafturn.weather.readers.head_words import Quantity
from leafturn.weather.readers.other_scales import ASKED, LEAST_BEYOND, other_scale
from leafturn.weather.readers.rain_unit import rain_read

Scale = Literal["C", "F"]

_EXTREMES: tuple[Quantity, Quantity] = ("tmin", "tmax")
LEAST_DAYS = 10  # fewer tell nothing of a file as a whole; a guess
SWAPPED_SHARE = 0.9  # of days whose minimum lies above the maximum; a guess, far from any slip of the pen
HOT_C = 50.0  # the hottest day ever measured had 56.7 degC (WMO archive); few places have ever had 50
HOT_SHARE = 0.02  # of days over it, from which on no Celsius is believed; a guess
# How far the middle day of a file may lie from a rough year of the latitude. Read in the wrong unit, it lies
# at least 16 degC off in any season warmer than -20 degC; guesses between the two.
FAR_C, NEAR_C = 12.0, 8.0


class Metric(Value, eq=False):
    """Rows in degC and mm, what unit each quantity was read as, and what is to be said of it."""

    rows: Rows
    units: Mapping[Quantity, str]
    faults: tuple[Fault, ...] = ()
    notes: tuple[str, ...] = ()


def in_metric(rows: Rows, layout: Layout, name: str, line: int, usual: Normals | None) -> Metric:
    """The rows of a file in degC and mm, as far as they can be believed.

    Parameters
    ----------
    rows : Rows
        As written: "tmin" and "tmax", maybe "rain".
    layout : Layout
    name, line : str, int
        The file and the line of its heads, for what is said.
    usual : Normals or None
        A rough year of the place.

    Returns
    -------
    Metric
        Without temperatures where their unit is to be asked about.
    """
    values = {quantity: rows.values[quantity] for quantity in _EXTREMES}
    faults: list[Fault] = []
    notes: list[str] = []
    stated = _stated_scale(layout)
    if swapped := _swapped(values):
        values["tmin"], values["tmax"] = values["tmax"], values["tmin"]
        why = f"the minimum lies above the maximum on {swapped:,} days"
        message = f"{why}: the two columns are read the other way round."
        faults.append(Fault(file=name, line=line, message=message, hint="Change their names about."))
    other, why = other_scale(rows, values, usual)
    if other:
        message = f"{why} {_are_they(layout, other)} No temperature of the file is used until that is told."
        faults.append(Fault(file=name, line=line, message=message, hint=ASKED[other]))
        rain = rain_read(rows.values.get("rain"), layout, None, name, line)
        asked: dict[Quantity, str] = dict.fromkeys((*_EXTREMES, "temp"), ASKED_ABOUT)
        return Metric(
            rows=Rows(dates=rows.dates, values={} if rain.mm is None else {"rain": rain.mm}),
            units=asked | {"rain": rain.unit},
            faults=(*faults, *rain.faults),
        )
    scale, why = _scale(rows, values, stated, usual)
    rain = rain_read(rows.values.get("rain"), layout, scale, name, line)
    faults += rain.faults
    units: dict[Quantity, str] = dict.fromkeys((*_EXTREMES, "temp"), UNIT_WORDS[scale])
    units["rain"] = rain.unit
    if stated is None and why:
        with_rain = "" if rain.mm is None else f", and rain in {rain.unit}"
        notes.append(f"{name} names no unit: {why} They are read as {UNIT_WORDS[scale]}{with_rain}.")
    elif scale != stated and np.isfinite(values["tmax"]).any():
        message, hint = _asked(layout, stated, scale, why), _how(layout, stated, scale)
        faults.append(Fault(file=name, line=line, message=message, hint=hint))
        for quantity in _EXTREMES:
            del values[quantity]
        units |= dict.fromkeys((*_EXTREMES, "temp"), ASKED_ABOUT)
    if scale == "F":
        values |= {q: fahrenheit_to_celsius(values[q]) for q in _EXTREMES if q in values}
    values |= {} if rain.mm is None else {"rain": rain.mm}
    return Metric(
        rows=Rows(dates=rows.dates, values=values), units=units, faults=tuple(faults), notes=tuple(notes)
    )


def _stated_scale(layout: Layout) -> Scale | None:
    """The unit of temperature that the heads name."""
    named = {column.unit for quantity, column in layout.values.items() if quantity != "rain"}
    return "F" if "F" in named else "C" if "C" in named else None


def _swapped(values: Mapping[Quantity, FloatArray]) -> int:
    """On how many days the minimum lies above the maximum, where that is so on nearly all; else 0."""
    apart = values["tmin"] - values["tmax"]
    known = int(np.count_nonzero(np.isfinite(apart)))
    crossed = int(np.count_nonzero(apart > 0))
    return crossed if known >= LEAST_DAYS and crossed >= SWAPPED_SHARE * known else 0


def _scale(
    rows: Rows, values: Mapping[Quantity, FloatArray], stated: Scale | None, usual: Normals | None
) -> tuple[Scale, str]:
    """The likeliest unit of the temperatures, and the evidence; no words where the numbers tell nothing."""
    mean = (values["tmin"] + values["tmax"]) / 2
    known = np.isfinite(mean)
    days = int(np.count_nonzero(known))
    plain: Scale = stated or "C"
    if days < LEAST_DAYS:
        return plain, ""
    hot = int(np.count_nonzero(values["tmax"] > HOT_C))
    if stated != "F" and hot >= max(HOT_SHARE * days, LEAST_BEYOND):
        return "F", f"{hot:,} of {days:,} maxima lie over {HOT_C:.0f}, hotter than any summer in Celsius."
    if usual is None:
        return plain, ""
    middle = (usual.tmin + usual.tmax)[places_in_leap_year(rows.dates[known])] / 2
    off: dict[Scale, float] = {
        "C": median(mean[known] - middle),
        "F": median(fahrenheit_to_celsius(mean[known]) - middle),
    }
    near: Scale = "C" if abs(off["C"]) < abs(off["F"]) else "F"
    other: Scale = "F" if near == "C" else "C"
    if (near == stated) or abs(off[near]) >= NEAR_C or abs(off[other]) <= FAR_C:
        return plain, ""
    side = "warmer" if off[other] > 0 else "colder"
    far = f"{quantities.degrees(abs(off[other]), 0)} {side} than is usual at this latitude"
    said = f"read as {UNIT_WORDS[other]} its days lie {far}"
    return near, f"{said}, read as {UNIT_WORDS[near]} {quantities.degrees(abs(off[near]), 0)} off."


def _asked(layout: Layout, stated: Scale | None, scale: Scale, why: str) -> str:
    """What is asked of heads that name no unit, or one unit over numbers of the other."""
    heads = _heads(layout)
    doubt = (
        f"{why} {_are_they(layout, f'in {UNIT_WORDS[scale]}')[:-1]} rather than {UNIT_WORDS[stated]}?"
        if stated
        else (f"{heads} {'name' if ' and ' in heads else 'names'} no unit, and the numbers do not tell it.")
    )
    return f"{doubt} No temperature of the file is used until that is told."


def _heads(layout: Layout) -> str:
    heads = " and ".join(layout.names[layout.values[q].place] for q in _EXTREMES if q in layout.values)
    return heads or layout.names[layout.values["temp"].place]


def _are_they(layout: Layout, what: str) -> str:
    heads = _heads(layout)
    return f"{'Are' if ' and ' in heads else 'Is'} {heads} {what}?"


def _how(layout: Layout, stated: Scale | None, scale: Scale) -> str:
    """How to say which unit it is."""
    suffixes = ("c", "f") if stated is None else (scale.lower(),)
    begin = "Name" if stated is None else "If so, name"
    if "tmin" not in layout.values:
        return f"{begin} the column {' or '.join(f'temp_{one}' for one in suffixes)}."
    return f"{begin} the columns {', or '.join(f'tmin_{one} and tmax_{one}' for one in suffixes)}."
