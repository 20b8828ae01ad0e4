"""Reading the answers of NASA POWER: daily weather of a point, as JSON.

An answer is a GeoJSON feature: under `properties.parameter` each quantity with its values by day (YYYYMMDD),
in `header` the number that stands for a gap, in `parameters` the units, and in `geometry` the place with the
mean height of its cell, half a degree of latitude by five eighths of longitude.

References
----------
.. [1] NASA Langley Research Center, POWER Project: Daily API, https://power.larc.nasa.gov/docs/services/api/
"""

from __future__ import annotations

import datetime as dt
import math

import msgspec
import numpy as np
from msgspec import Struct

from leafturn.base.faults import Fault
from leafturn.weather import quality
from leafturn.weather.readers.file_rows import Rows, WeatherReading, laid_on_days
from leafturn.weather.readers.head_words import Quantity

QUANTITIES: dict[str, Quantity] = {"T2M_MIN": "tmin", "T2M_MAX": "tmax", "PRECTOTCORR": "rain"}
UNITS: dict[Quantity, tuple[str, ...]] = {"tmin": ("C",), "tmax": ("C",), "rain": ("mm/day", "mm day-1")}


class _Geometry(Struct, frozen=True):
    coordinates: tuple[float, ...] = ()


class _Properties(Struct, frozen=True):
    parameter: dict[str, dict[str, float | None]]


class _Header(Struct, frozen=True):
    fill_value: float = -999.0


class _Parameter(Struct, frozen=True):
    units: str = ""


class _Answer(Struct, frozen=True):
    properties: _Properties
    geometry: _Geometry = _Geometry()
    header: _Header = _Header()
    parameters: dict[str, _Parameter] = {}


def read_nasa_power(text: str, name: str) -> tuple[WeatherReading, float | None]:
    """Read an answer of NASA POWER.

    Parameters
    ----------
    text, name
        As in `leafturn.weather.readers.csv.read_csv_text`.

    Returns
    -------
    WeatherReading
        As there.
    float or None
        Mean height [m] of the cell, where it is told.
    """
    try:
        answer = msgspec.json.decode(text, type=_Answer)
        rows = _rows(answer)
    except (msgspec.DecodeError, ValueError, OverflowError) as why:
        said = str(why) if isinstance(why, _Amiss) else "this is no daily weather of NASA POWER."
        return WeatherReading(record=None, faults=(Fault(file=name, line=None, message=said),)), None
    record = quality.check(laid_on_days(rows))
    place = answer.geometry.coordinates
    height = place[2] if len(place) > 2 and math.isfinite(place[2]) else None
    return WeatherReading(record=record, notes=record.notes), height


class _Amiss(ValueError):
    """What is wrong with an answer, as a sentence."""


def _rows(answer: _Answer) -> Rows:
    """Its days from the first to the last with a temperature.

    Raises
    ------
    ValueError
        If it has no such day, or tells a quantity in an unknown unit.
    """
    found: dict[Quantity, dict[dt.date, float]] = {}
    for code, quantity in QUANTITIES.items():
        unit = answer.parameters[code].units if code in answer.parameters else ""
        if unit and unit not in UNITS[quantity]:
            raise _Amiss(f"{code} is told in {unit[:20]}, not in {UNITS[quantity][0]}.")
        told = answer.properties.parameter.get(code, {})
        found[quantity] = {
            _day(written): value
            for written, value in told.items()
            if value is not None and value != answer.header.fill_value and math.isfinite(value)
        }
    warm = sorted(found["tmin"].keys() | found["tmax"].keys())
    if not warm:
        raise _Amiss("no day with a temperature stands in it.")
    days = [warm[0] + dt.timedelta(days=n) for n in range((warm[-1] - warm[0]).days + 1)]
    values = {q: np.array([told.get(day, math.nan) for day in days]) for q, told in found.items()}
    return Rows(dates=np.array(days, dtype="datetime64[D]"), values=values)


def _day(written: str) -> dt.date:
    if len(written) != 8 or not written.isdecimal():
        raise ValueError(written)
    return dt.date(int(written[:4]), int(written[4:6]), int(written[6:]))
