"""Reading a daily weather file of comma-separated values.

The first line names the columns, in any order: `date`, `tmin_c`, `tmax_c`, `rain_mm`, or their twins
`tmin_f`, `tmax_f`, `rain_in`. Dates are year-month-day. A blank cell is a gap; rain may be missing
altogether. Lines that begin with # are comments. Semicolons or tabs between cells are understood too.

A file without a slip in it takes a fast way through; any doubt about any row sends the whole file the
slow way, which names each line that was left out.
"""

from __future__ import annotations

import csv
import datetime as dt
import math
from collections.abc import Iterator

import numpy as np

from leafturn.base.arrays import FloatArray
from leafturn.base.faults import Fault
from leafturn.weather import quality
from leafturn.weather.readers.csv_columns import HEADER_EXAMPLE, Layout, layout_of
from leafturn.weather.readers.file_rows import Rows, WeatherReading, first_faults, laid_on_days

HALF_OF_TWO_CENTURIES = 100 * 365.2425  # [d] either side of the middle date
GAP_WORDS = {"", "na", "nan"}


def read_csv_text(text: str, name: str) -> WeatherReading:
    """Read daily weather from comma-separated values and check it.

    Parameters
    ----------
    text : str
        The whole file.
    name : str
        The file as the user would name it, for sentences about it.

    Returns
    -------
    WeatherReading
        The record, with every row that could be understood, and a fault for each one that could not.
        Nothing is raised for what the file holds.
    """
    lines = text.replace("\r\n", "\n").replace("\r", "\n").rstrip("\n").split("\n")
    head = next((i for i, line in enumerate(lines) if line.strip() and not line.startswith("#")), None)
    if head is None:
        hint = f"Begin with {HEADER_EXAMPLE}."
        return WeatherReading(
            record=None, faults=(Fault(file=name, line=None, message="the file is empty.", hint=hint),)
        )
    faults: list[Fault] = []
    notes: list[str] = []
    layout = layout_of(lines[head], name, head + 1, faults, notes)
    if layout is None:
        return WeatherReading(record=None, faults=tuple(faults), notes=tuple(notes))
    rows = _fast_rows(lines[head + 1 :], layout) or _slow_rows(lines, head + 1, layout, name, faults)
    if rows is None or not len(rows.dates):
        faults.append(Fault(file=name, line=None, message="no row could be used."))
        return WeatherReading(record=None, faults=tuple(faults), notes=tuple(notes))
    if bool(np.any(np.diff(rows.dates) < np.timedelta64(0, "D"))):
        notes.append(f"The rows of {name} are not in the order of their dates; they were sorted.")
    record = quality.check(laid_on_days(rows))
    return WeatherReading(record=record, faults=tuple(faults), notes=(*notes, *record.notes))


def _fast_rows(lines: list[str], layout: Layout) -> Rows | None:
    """All rows at once, or None if anything in them is not quite as it should be."""
    cells = layout.separator.join(lines).split(layout.separator)
    if len(cells) != len(lines) * layout.width or not lines:
        return None
    written = cells[layout.date :: layout.width]
    if set(map(len, written)) != {10}:  # else numpy would understand "2024-03" or "today"
        return None
    try:
        dates = np.array(written, dtype="datetime64[D]")
        values = {
            quantity: convert(_numbers(cells[column :: layout.width]))
            for quantity, (column, convert) in layout.values.items()
        }
    except ValueError:
        return None
    step = np.diff(dates).astype(int)
    sound = not np.isnat(dates).any() and bool(np.all(step > 0)) and step.sum() < 2 * HALF_OF_TWO_CENTURIES
    sound = sound and not any(np.isinf(array).any() for array in values.values())
    return Rows(dates=dates, values=values) if sound else None


def _numbers(cells: list[str]) -> FloatArray:
    try:
        return np.fromiter(map(float, cells), dtype=float, count=len(cells))
    except ValueError:
        return np.array([float(cell) if cell else math.nan for cell in cells])


class _Refused(Exception):
    """A row that cannot be used: message and hint."""


def _slow_rows(lines: list[str], start: int, layout: Layout, name: str, faults: list[Fault]) -> Rows | None:
    """Row by row, leaving out each that cannot be understood, with a fault that names its line."""
    refused: list[Fault] = []
    kept: dict[dt.date, tuple[int, list[float]]] = {}

    def refuse(line: int, message: str, hint: str = "") -> None:
        refused.append(Fault(file=name, line=line, message=f"{message}; the row was left out.", hint=hint))

    for line, cells in _split(lines, start, layout.separator):
        try:
            date, numbers = _row(cells, layout)
        except _Refused as error:
            refuse(line, *error.args)
            continue
        if date in kept:
            refuse(line, f"{date} stands on line {kept[date][0]} already")
        else:
            kept[date] = line, numbers
    if kept:
        middle = sorted(kept)[len(kept) // 2]
        for date in [date for date in kept if abs((date - middle).days) > HALF_OF_TWO_CENTURIES]:
            line, _ = kept.pop(date)
            refuse(line, f"{date} is over a hundred years from most of the file", "Look at the year.")
    refused.sort(key=lambda fault: fault.line or 0)
    faults.extend(first_faults(refused, "row"))
    if not kept:
        return None
    table = np.array([numbers for _, numbers in kept.values()], dtype=float)
    values = {
        quantity: convert(table[:, column])
        for column, (quantity, (_, convert)) in enumerate(layout.values.items())
    }
    return Rows(dates=np.array(list(kept), dtype="datetime64[D]"), values=values)


def _split(lines: list[str], start: int, separator: str) -> Iterator[tuple[int, list[str]]]:
    """Line numbers and cells of the rows after the header."""
    for number, line in enumerate(lines[start:], start=start + 1):
        if not line.strip() or line.startswith("#"):
            continue
        try:
            yield number, next(csv.reader([line], delimiter=separator))
        except (csv.Error, StopIteration):
            yield number, []


def _row(cells: list[str], layout: Layout) -> tuple[dt.date, list[float]]:
    """Date and numbers of one row.

    Raises
    ------
    _Refused
        If the row cannot be used.
    """
    if len(cells) != layout.width:
        raise _Refused(f"{len(cells)} cells where the first line names {layout.width} columns")
    written = cells[layout.date].strip()
    try:
        date = dt.date.fromisoformat(written)
    except ValueError:
        raise _Refused(f"{_shown(written)} is no date", "Write year-month-day, such as 2024-03-05.") from None
    return date, [_number(cells[column], layout, column) for column, _ in layout.values.values()]


def _number(cell: str, layout: Layout, column: int) -> float:
    """The number in a cell, NaN for a gap."""
    written = cell.strip()
    if written.lower() in GAP_WORDS:
        return math.nan
    try:
        number = float(written if layout.separator == "," else written.replace(",", "."))
    except ValueError:
        number = math.inf
    if not math.isfinite(number):
        hint = "Write a number such as 3.5, or leave the cell empty for a gap."
        raise _Refused(f"{layout.names[column]} reads {_shown(written)}, which is no number", hint)
    return number


def _shown(written: str) -> str:
    """A cell as it may stand in a sentence: short and in quotes."""
    return f'"{written if len(written) <= 24 else written[:23] + "…"}"'
