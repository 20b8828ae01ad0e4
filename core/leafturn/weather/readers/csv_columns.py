"""What the columns of a weather file hold, from its first line."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from leafturn.base.arrays import FloatArray
from leafturn.base.faults import Fault, nearest_word
from leafturn.base.value import Value

Conversion = Callable[[FloatArray], FloatArray]

HEADER_EXAMPLE = "a line such as date,tmin_c,tmax_c,rain_mm"


def _as_read(value: FloatArray) -> FloatArray:
    return value


def _from_fahrenheit(value: FloatArray) -> FloatArray:
    return np.asarray((value - 32.0) / 1.8)


def _from_inches(value: FloatArray) -> FloatArray:
    return np.asarray(value * 25.4)


QUANTITIES: dict[str, dict[str, Conversion]] = {
    "tmin": {"tmin_c": _as_read, "tmin_f": _from_fahrenheit},
    "tmax": {"tmax_c": _as_read, "tmax_f": _from_fahrenheit},
    "rain": {"rain_mm": _as_read, "rain_in": _from_inches},
}
KNOWN_COLUMNS = ["date", *(column for twins in QUANTITIES.values() for column in twins)]


class Layout(Value):
    """Where things stand in the rows.

    Parameters
    ----------
    separator : str
        What stands between cells.
    names : tuple of str
        The columns in the order of the file.
    date : int
        Number of the date's column.
    values : mapping of quantity ("tmin", "tmax", "rain") to column number and conversion
        The conversion turns what is written into degC or mm.
    """

    separator: str
    names: tuple[str, ...]
    date: int
    values: dict[str, tuple[int, Conversion]]

    @property
    def width(self) -> int:
        """Cells in a row."""
        return len(self.names)


def layout_of(header: str, name: str, line: int, faults: list[Fault], notes: list[str]) -> Layout | None:
    """Understand the first line of a weather file.

    Parameters
    ----------
    header : str
        The line.
    name, line : str, int
        The file and where the line stands in it, for faults.
    faults, notes : list
        What is wrong, and what is left unused, is added to these.

    Returns
    -------
    Layout or None
        None if a column is lacking without which the file cannot be used.
    """
    separator = next((s for s in ("\t", ";") if s in header), ",")
    columns = [cell.strip().strip('"').lower() for cell in header.split(separator)]

    def fault(message: str, hint: str) -> None:
        faults.append(Fault(file=name, line=line, message=message, hint=hint))

    if "date" not in columns:
        fault("no column is named date, so the rows cannot be understood.", f"Begin with {HEADER_EXAMPLE}.")
        return None
    values: dict[str, tuple[int, Conversion]] = {}
    for quantity, twins in QUANTITIES.items():
        present = [column for column in twins if column in columns]
        if len(present) == 2:
            fault(f"{' and '.join(present)} are both given; {present[0]} was used.", "Keep one of them.")
        if present:
            values[quantity] = columns.index(present[0]), twins[present[0]]
        elif quantity != "rain":
            reading = "minimum" if quantity == "tmin" else "maximum"
            fault(f"no column holds the daily {reading}.", f"Name it {' or '.join(twins)}.")
    for column in dict.fromkeys(filter(None, columns)):
        if column not in KNOWN_COLUMNS:
            notes.append(f"The column {column} of {name} is not used. {_meant(column)}".strip())
        elif columns.count(column) > 1:
            fault(f"the column {column} stands there twice; the first was used.", "Keep one of them.")
    if "tmin" not in values or "tmax" not in values:
        return None
    return Layout(separator=separator, names=tuple(columns), date=columns.index("date"), values=values)


def _meant(column: str) -> str:
    """The known names nearest to a column's, of both units: which it holds, only its writer knows."""
    near = nearest_word(column, KNOWN_COLUMNS)
    if near is None:
        return ""
    twins = next((twins for twins in QUANTITIES.values() if near in twins), (near,))
    return f"Did you mean {' or '.join(twins)}?"
