"""Reading the station files of GHCN-Daily, the world's archive of daily weather.

Two forms are understood as they come from the archive: the fixed-width station file (a month of one element
a line, `.dly`), and the station file of comma-separated values (a day of one element a line). Values are in
tenths of a degree Celsius and tenths of a millimetre; -9999 is a gap, and a value that failed one of the
archive's own quality checks is taken as a gap.

References
----------
.. [1] Menne, M. J., I. Durre, R. S. Vose, B. E. Gleason and T. G. Houston (2012). An overview of the Global
   Historical Climatology Network-Daily database. J. Atmos. Oceanic Technol. 29: 897-910.
.. [2] The archive's `readme.txt` (section III) and `readme-by_station.txt`, for the columns.
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterator

import numpy as np

from leafturn.base.faults import Fault
from leafturn.weather import quality
from leafturn.weather.readers.file_rows import Rows, WeatherReading, first_faults, laid_on_days

ELEMENTS = {"TMIN": "tmin", "TMAX": "tmax", "PRCP": "rain"}
TENTHS = 10.0
GAP = -9999

_MONTH = re.compile(r"[A-Z]{2}[A-Z0-9_-]{9}\d{6}[A-Z0-9]{4}")
_DAY = re.compile(r"[A-Z]{2}[A-Z0-9_-]{9},\d{8},[A-Z0-9]{4},")
_FIRST_VALUE, _VALUE_WIDTH, _NUMBER_WIDTH, _QUALITY, _SOURCE = 21, 8, 5, 6, 7
_YEARS = range(1750, 2251)  # the archive begins in 1763; a year far from it is a slip

_Value = tuple[dt.date, str, float]  # day, quantity, value in degC or mm; NaN where the archive doubts it


def is_ghcn_daily(text: str) -> bool:
    """Whether a file begins like a station file of the archive."""
    return bool(_MONTH.match(text) or _DAY.match(text))


def read_ghcn_daily(text: str, name: str) -> WeatherReading:
    """Read a station file of GHCN-Daily.

    Parameters and result as in `leafturn.weather.readers.csv.read_csv_text`.
    """
    values: dict[str, dict[dt.date, float]] = {quantity: {} for quantity in ELEMENTS.values()}
    faults: list[Fault] = []
    doubted = 0
    line_values = _of_month if _MONTH.match(text) else _of_day
    for number, line in enumerate(text.splitlines(), 1):
        if not line.strip():
            continue
        try:
            for day, quantity, value in line_values(line):
                values[quantity][day] = value
                doubted += value != value
        except ValueError:
            message = "this is no line of a GHCN-Daily station file; it was left out."
            faults.append(Fault(file=name, line=number, message=message))
    faults = first_faults(faults, "line")
    days = sorted({day for found in values.values() for day in found})
    if not days:
        faults.append(Fault(file=name, line=None, message="no minimum, maximum or rain stands in it."))
        return WeatherReading(record=None, faults=tuple(faults))
    rows = Rows(
        dates=np.array(days, dtype="datetime64[D]"),
        values={
            quantity: np.array([found.get(day, np.nan) for day in days]) for quantity, found in values.items()
        },
    )
    record = quality.check(laid_on_days(rows))
    said = f"{doubted} values of {name} failed the archive's own checks and count as gaps."
    notes = [said] if doubted else []
    return WeatherReading(record=record, faults=tuple(faults), notes=(*notes, *record.notes))


def _of_month(line: str) -> Iterator[_Value]:
    """Values of one element in one month of the fixed-width form."""
    if not _MONTH.match(line):
        raise ValueError
    year, month, quantity = int(line[11:15]), int(line[15:17]), ELEMENTS.get(line[17:21])
    if quantity is None:
        return
    for day in range(1, 32):
        begun = _FIRST_VALUE + _VALUE_WIDTH * (day - 1)
        number = line[begun : begun + _NUMBER_WIDTH].strip()
        if number and (tenths := int(number)) != GAP:
            yield _day(year, month, day), quantity, _value(tenths, line[begun + _QUALITY : begun + _SOURCE])


def _of_day(line: str) -> Iterator[_Value]:
    """The value of one line of the comma-separated form: station, day, element, value, three flags, time."""
    if not _DAY.match(line):
        raise ValueError
    cells = line.split(",")
    quantity = ELEMENTS.get(cells[2])
    if quantity is not None and (tenths := int(cells[3])) != GAP:
        day = _day(int(cells[1][:4]), int(cells[1][4:6]), int(cells[1][6:]))
        yield day, quantity, _value(tenths, cells[5] if len(cells) > 5 else "")


def _day(year: int, month: int, day: int) -> dt.date:
    if year not in _YEARS:
        raise ValueError
    return dt.date(year, month, day)


def _value(tenths: int, flag: str) -> float:
    return float("nan") if flag.strip() else tenths / TENTHS
