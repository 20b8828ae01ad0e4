"""What reading a daily weather file comes to, whatever its form."""

from __future__ import annotations

import codecs
import datetime as dt
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from leafturn.base.arrays import FloatArray
from leafturn.base.faults import Fault
from leafturn.base.value import Value
from leafturn.files.letters import each_line_in_utf8
from leafturn.files.reading import file_bytes
from leafturn.files.reasons import reason
from leafturn.weather.readers.columns_read import ColumnRead
from leafturn.weather.readers.head_words import Quantity
from leafturn.weather.record import DailyRecord

LARGEST_FILE = 32_000_000  # bytes; two hundred years of rows are about a tenth of it


class WeatherReading(Value, eq=False):
    """What came out of a weather file.

    Parameters
    ----------
    record : DailyRecord or None
        The days, checked for impossible values; None if nothing could be used.
    faults : tuple of Fault
        What is to be mended in the file.
    notes : tuple of str
        Plain sentences on what was understood or set aside, those of the record among them.
    columns : tuple of ColumnRead
        What each column was read as, in the order of the file.
    """

    record: DailyRecord | None
    faults: tuple[Fault, ...] = ()
    notes: tuple[str, ...] = ()
    columns: tuple[ColumnRead, ...] = ()


class Rows(Value, eq=False):
    """Rows as read: dates, and one array for each quantity that the file has."""

    dates: NDArray[np.datetime64]
    values: dict[Quantity, FloatArray]


def text_of(path: Path, name: str, within: Path | None = None) -> str | Fault:
    """The file's text, or why it cannot be had."""
    try:
        raw = file_bytes(path, LARGEST_FILE, within)
    except (OSError, ValueError) as error:
        return Fault(file=name, line=None, message=f"the file cannot be read: {reason(error)}.")
    # Spreadsheets save "Unicode text" in UTF-16, and tables of the West in Windows-1252 where nobody asks.
    wide = raw.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE))
    text = each_line_in_utf8(raw).decode("utf-16" if wide else "utf-8-sig", errors="replace")
    text = text.rstrip("\0")  # as disks leave them where the power failed
    if "\0" in text:
        return Fault(file=name, line=None, message="this is not plain text.", hint="Save it as CSV in UTF-8.")
    return text


def laid_on_days(rows: Rows) -> DailyRecord:
    """The rows laid out on consecutive days."""
    first: dt.date = rows.dates.min().item()
    place = (rows.dates - np.datetime64(first, "D")).astype(int)
    days = int(place.max()) + 1

    def laid_out(quantity: Quantity) -> FloatArray:
        array = np.full(days, np.nan)
        if quantity in rows.values:
            array[place] = rows.values[quantity]
        return array

    return DailyRecord(first=first, tmin=laid_out("tmin"), tmax=laid_out("tmax"), rain=laid_out("rain"))
