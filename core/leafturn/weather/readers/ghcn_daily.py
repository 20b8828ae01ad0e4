"""Reading the station files of GHCN-Daily, the world's archive of daily weather.

Two forms are understood here (a third in `ghcn_table`): the fixed-width station file (a month of one element
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
from collections.abc import Iterator

from leafturn.base.patterns import pattern
from leafturn.weather.readers.columns_read import ColumnRead
from leafturn.weather.readers.file_rows import WeatherReading
from leafturn.weather.readers.ghcn_values import ELEMENTS, GAP, StationValues, column_words, day_of
from leafturn.weather.readers.head_words import Quantity

_MONTH = pattern(r"[A-Z]{2}[A-Z0-9_-]{9}\d{6}[A-Z0-9]{4}")
_DAY = pattern(r"[A-Z]{2}[A-Z0-9_-]{9},\d{8},[A-Z0-9]{4},")
_FIRST_VALUE, _VALUE_WIDTH, _NUMBER_WIDTH, _QUALITY, _SOURCE = 21, 8, 5, 6, 7
_COLUMNS = tuple(ColumnRead(name=name, words=column_words(quantity)) for name, quantity in ELEMENTS.items())

_Value = tuple[dt.date, Quantity, int, str]  # day, quantity, tenths of degC or mm, quality flag


def is_ghcn_daily(text: str) -> bool:
    """Whether a file begins like a station file of the archive."""
    return bool(_MONTH.match(text) or _DAY.match(text))


def read_ghcn_daily(text: str, name: str) -> WeatherReading:
    """Read a station file of GHCN-Daily.

    Parameters and result as in `leafturn.weather.readers.csv.read_csv_text`.
    """
    values = StationValues(name)
    line_values = _of_month if _MONTH.match(text) else _of_day
    for number, line in enumerate(text.splitlines(), 1):
        if not line.strip():
            continue
        try:
            for day, quantity, tenths, flag in line_values(line):
                values.take(day, quantity, tenths, flag)
        except ValueError:
            message = "this is no line of a GHCN-Daily station file; it was left out."
            values.left_out.add(number, "line", message)
    return values.reading(_COLUMNS)


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
        if number and int(number) != GAP:
            yield day_of(year, month, day), quantity, int(number), line[begun + _QUALITY : begun + _SOURCE]


def _of_day(line: str) -> Iterator[_Value]:
    """The value of one line of the comma-separated form: station, day, element, value, three flags, time."""
    if not _DAY.match(line):
        raise ValueError
    cells = line.split(",")
    quantity = ELEMENTS.get(cells[2])
    if quantity is not None:
        day = day_of(int(cells[1][:4]), int(cells[1][4:6]), int(cells[1][6:]))
        yield day, quantity, int(cells[3]), cells[5] if len(cells) > 5 else ""
