"""Numbers in the cells of a weather file, with their unit or without: 3.5, "3,5 °C", "12 mm"."""

from __future__ import annotations

import math
from collections.abc import Iterable

from leafturn.base.patterns import pattern
from leafturn.weather.readers.head_words import Quantity, Unit, unit_of

GAP_WORDS = {"", "na", "n/a", "nan", "null", "none", "m", "mm", "-", "--", "---"}
GAP_NUMBERS = (-99.0, -99.9, -999.0, -999.9, -9999.0, -9999.9, 9999.0, 9999.9)  # how files write a gap
TRACE = {"t", "tr", "trace"}  # rain too little to measure; counts as none
_MEASURED = pattern(r"(?P<number>[-+\N{MINUS SIGN}]?[\d.,]+)\s*(?P<unit>[°º]?\s*[^\W\d_]+)")


def number_in(written: str, quantity: Quantity, unit: Unit | None) -> float | None:
    """The number in a cell, NaN for a gap; None where it is neither, or of another unit than its column.

    Parameters
    ----------
    written : str
        The cell without blanks round it.
    quantity : str
        What its column holds.
    unit : str or None
        That of the column, None where it is not known.
    """
    if written.lower() in GAP_WORDS:
        return math.nan
    if quantity == "rain" and written.lower() in TRACE:
        return 0.0
    found = _MEASURED.fullmatch(written)
    if found and unit is not None and unit_of(found["unit"]) == unit:
        written = found["number"]
    try:
        # a comma within a cell is a decimal one; of two signs for minus Python reads one only
        number = float(written.replace(",", ".").replace("\N{MINUS SIGN}", "-"))
    except ValueError:
        return None
    if number in GAP_NUMBERS:
        return math.nan
    return number if math.isfinite(number) else None


def unit_in(cells: Iterable[str]) -> Unit | None:
    """The unit that cells of one column are written with; None where none is, or more than one."""
    units = {unit_of(found["unit"]) for cell in cells if (found := _MEASURED.fullmatch(cell.strip()))}
    return units.pop() if len(units) == 1 else None
