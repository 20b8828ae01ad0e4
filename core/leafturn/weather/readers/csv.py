"""Reading a weather file of comma-separated values, a row a day or several a day.

One line names the columns, in any order and in common words (`head_words`): a date, a minimum, a maximum
and, if known, rain; or a date with its hour and a temperature, of which each day's lowest and highest are
taken. A blank cell is a gap; rain may be missing altogether, and a T in it is a trace. Lines that begin
with # are comments. Semicolons or tabs between cells are understood too.

A file without a slip in it takes a fast way through; any doubt about any row sends the whole file the
slow way, which tells which lines were left out.
"""

from __future__ import annotations

import csv
import datetime as dt
import math
from collections.abc import Iterator

import numpy as np
from msgspec.structs import replace

from leafturn.base.arrays import FloatArray
from leafturn.base.bounds import FIRST_YEAR, LAST_YEAR, is_believed
from leafturn.base.faults import Fault
from leafturn.weather import quality
from leafturn.weather.normals.normals import Normals
from leafturn.weather.readers.csv_columns import HEADER_EXAMPLE, Layout, layout_of, line_of_heads
from leafturn.weather.readers.day_cells import Moment, moment_in, order_of
from leafturn.weather.readers.file_rows import Rows, WeatherReading, laid_on_days
from leafturn.weather.readers.head_words import Quantity
from leafturn.weather.readers.hours import days_of_hours
from leafturn.weather.readers.left_out import LeftOut
from leafturn.weather.readers.number_cells import GAP_NUMBERS, number_in, unit_in
from leafturn.weather.readers.plausible import in_metric

HALF_OF_TWO_CENTURIES = 100 * 365.2425  # [d] either side of the middle date
_Kept = tuple[int, Moment, list[float]]  # a row that is used: its line, day and numbers


def read_csv_text(text: str, name: str, usual: Normals | None = None) -> WeatherReading:
    """Read weather from comma-separated values and check it.

    Parameters
    ----------
    text : str
        The whole file.
    name : str
        The file as the user would name it, for sentences about it.
    usual : Normals or None
        A rough year of the place, against which units are judged.

    Returns
    -------
    WeatherReading
        The record, with every row that could be understood, and one fault for each reason why others
        could not. Nothing is raised for what the file holds.
    """
    lines = text.replace("\r\n", "\n").replace("\r", "\n").rstrip("\n").split("\n")
    head = line_of_heads(lines)
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
    rows = _fast_rows(lines[head + 1 :], layout)
    if rows is None:
        layout = _with_units_of_cells(layout, lines[head + 1 :])
        rows = _slow_rows(lines, head + 1, layout, name, faults, notes)
    if rows is None or not len(rows.dates):
        faults.append(Fault(file=name, line=None, message="no row could be used."))
        return WeatherReading(record=None, faults=tuple(faults), notes=tuple(notes))
    if bool(np.any(np.diff(rows.dates) < np.timedelta64(0, "D"))):
        notes.append(f"The rows of {name} are not in the order of their dates; they were sorted.")
    metric = in_metric(rows, layout, name, head + 1, usual)
    columns = layout.columns_read(metric.units)
    faults += metric.faults
    notes += metric.notes
    if not metric.rows.values:
        return WeatherReading(record=None, faults=tuple(faults), notes=tuple(notes), columns=columns)
    record = quality.check(laid_on_days(metric.rows))
    return WeatherReading(record=record, faults=tuple(faults), notes=(*notes, *record.notes), columns=columns)


def _fast_rows(lines: list[str], layout: Layout) -> Rows | None:
    """All rows at once, or None if anything in them is not quite as it should be."""
    cells = layout.separator.join(lines).split(layout.separator)
    if len(cells) != len(lines) * layout.width or not lines:
        return None
    if len(layout.day) > 1 or layout.time is not None or "temp" in layout.values:
        return None
    written = cells[layout.day[0] :: layout.width]
    if set(map(len, written)) != {10}:  # else numpy would understand "2024-03" or "today"
        return None
    try:
        dates = np.array(written, dtype="datetime64[D]")
        values = {
            quantity: _numbers(cells[column.place :: layout.width])
            for quantity, column in layout.values.items()
        }
    except ValueError:
        return None
    step = np.diff(dates).astype(int)
    sound = not np.isnat(dates).any() and bool(np.all(step > 0)) and step.sum() < 2 * HALF_OF_TWO_CENTURIES
    sound = sound and all(is_believed(dates[end].item()) for end in (0, -1))
    sound = sound and not any(np.isinf(array).any() for array in values.values())
    return Rows(dates=dates, values=values) if sound else None


def _numbers(cells: list[str]) -> FloatArray:
    numbers = np.array([float(cell or "nan") for cell in cells])
    numbers[np.isin(numbers, GAP_NUMBERS)] = np.nan
    return numbers


def _with_units_of_cells(layout: Layout, lines: list[str]) -> Layout:
    """The layout with the units that the cells are written with, where the heads give none."""
    rows = [cells for _, cells in _whole_rows(lines, 0, layout, LeftOut(""))]
    values = {
        quantity: replace(column, unit=column.unit or unit_in(cells[column.place] for cells in rows))
        for quantity, column in layout.values.items()
    }
    return replace(layout, values=values)


def _slow_rows(
    lines: list[str], start: int, layout: Layout, name: str, faults: list[Fault], notes: list[str]
) -> Rows | None:
    """Row by row, leaving out what cannot be understood, with a fault for each reason."""
    left_out = LeftOut(name)
    rows = list(_whole_rows(lines, start, layout, left_out))
    order = order_of([layout.date_of(cells) for _, cells in rows])
    kept: list[_Kept] = []
    for line, cells in rows:
        written = layout.date_of(cells)
        moment = moment_in(written, order)
        if moment is not None and not is_believed(moment.day):
            years = f"the years {FIRST_YEAR} to {LAST_YEAR}"
            message = f"{moment.day} lies outside {years}; the row was left out."
            left_out.add(line, "year", message, "Look at the year.")
        elif moment is not None:
            kept.append((line, moment, _row(line, cells, layout, left_out)))
        elif order == "not told" and moment_in(written, "day first"):
            message = f"{_shown(written)} may put the day or the month first, and no other row tells which;"
            left_out.add(line, "order", f"{message} the row was left out.", "Write year-month-day.")
        else:
            hint = "Write year-month-day, such as 2024-03-05."
            left_out.add(line, "date", f"{_shown(written)} is no date; the row was left out.", hint)
    kept = _near(kept, left_out)
    by_hour = any(not math.isnan(moment.hour) for _, moment, _ in kept)
    by_hour = by_hour and len({moment.day for _, moment, _ in kept}) < len(kept)
    if not by_hour:
        kept = _one_a_day(kept, left_out)
    faults.extend(left_out.faults())
    if not kept:
        return None
    table = np.array([numbers for _, _, numbers in kept], dtype=float)
    values: dict[Quantity, FloatArray] = {
        quantity: table[:, column] for column, quantity in enumerate(layout.values)
    }
    dates = np.array([moment.day for _, moment, _ in kept], dtype="datetime64[D]")
    return (
        days_of_hours(dates, values, name, faults, notes)
        if by_hour or "temp" in values
        else Rows(dates=dates, values=values)
    )


def _whole_rows(
    lines: list[str], start: int, layout: Layout, left_out: LeftOut
) -> Iterator[tuple[int, list[str]]]:
    """Line numbers and cells of the rows below the heads that have as many cells as there are heads."""
    for number, line in enumerate(lines[start:], start=start + 1):
        if not line.strip() or line.startswith("#"):
            continue
        cells = line.split(layout.separator) if '"' not in line else _quoted(line, layout.separator)
        if len(cells) == layout.width:
            yield number, cells
        else:
            message = (
                f"{len(cells)} cells where the first line names {layout.width} columns; the row was left out."
            )
            left_out.add(number, "cells", message)


def _quoted(line: str, separator: str) -> list[str]:
    """The cells of a line with quote marks in it; none if these make no sense."""
    try:
        return next(csv.reader([line], delimiter=separator), [])
    except csv.Error:
        return []


def _row(line: int, cells: list[str], layout: Layout, left_out: LeftOut) -> list[float]:
    """The numbers of one row; NaN for a gap, and for what is no number, which is said."""
    numbers = []
    for quantity, column in layout.values.items():
        written = cells[column.place].strip()
        number = number_in(written, quantity, column.unit)
        if number is None:
            wrong = f"{layout.names[column.place]} reads {_shown(written)}, which is no number"
            hint = "Write a number such as 3.5, or leave the cell empty for a gap."
            left_out.add(line, f"number {quantity}", f"{wrong}; it counts as a gap.", hint)
        numbers.append(math.nan if number is None else number)
    return numbers


def _near(kept: list[_Kept], left_out: LeftOut) -> list[_Kept]:
    """Without rows that lie over a hundred years from the middle of the file."""
    if not kept:
        return []
    middle = sorted(moment.day for _, moment, _ in kept)[len(kept) // 2]
    near = []
    for row in kept:
        if abs((row[1].day - middle).days) <= HALF_OF_TWO_CENTURIES:
            near.append(row)
            continue
        message = f"{row[1].day} is over a hundred years from most of the file; the row was left out."
        left_out.add(row[0], "far", message, "Look at the year.")
    return near


def _one_a_day(kept: list[_Kept], left_out: LeftOut) -> list[_Kept]:
    """Without rows whose day stands there already."""
    first: dict[dt.date, _Kept] = {}
    for row in kept:
        line, moment, _ = row
        if moment.day in first:
            message = f"{moment.day} stands on line {first[moment.day][0]} already; the row was left out."
            left_out.add(line, "doubled", message)
        else:
            first[moment.day] = row
    return list(first.values())


def _shown(written: str) -> str:
    """A cell as it may stand in a sentence: short and in quotes."""
    return f'"{written if len(written) <= 24 else written[:23] + "…"}"'
