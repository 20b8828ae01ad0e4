"""Values of GHCN-Daily, whatever the form of the file: tenths, gaps, and what the archive itself doubts.

References
----------
.. [1] The archive's `readme.txt`, section III: elements, units, and the letters of its quality flags.
"""

from __future__ import annotations

import datetime as dt

import numpy as np

from leafturn.base import prose, quantities
from leafturn.base.faults import Fault
from leafturn.base.value import Value
from leafturn.weather import quality
from leafturn.weather.readers.columns_read import ColumnRead
from leafturn.weather.readers.file_rows import Rows, WeatherReading, laid_on_days
from leafturn.weather.readers.head_words import Quantity
from leafturn.weather.readers.left_out import LeftOut

ELEMENTS: dict[str, Quantity] = {"TMIN": "tmin", "TMAX": "tmax", "PRCP": "rain"}
TENTHS = 10.0
GAP = -9999
YEARS = range(1750, 2251)  # the archive begins in 1763; a year far from it is a slip
NAMED = 3  # values named in a sentence; the rest are counted
_SHOWN: dict[Quantity, str] = {"tmin": "minimum", "tmax": "maximum", "rain": "rain"}
_CHECKS = {
    "D": "duplicate", "G": "gap", "I": "internal consistency", "K": "streak", "L": "multiday length",
    "M": "mega-consistency", "N": "naught", "O": "climatological outlier", "R": "lagged range",
    "S": "spatial consistency", "T": "temporal consistency", "W": "too warm for snow", "X": "bounds",
    "Z": "official investigation",
}  # fmt: skip


def column_words(quantity: Quantity) -> str:
    """What a column of an element holds."""
    return f"{_SHOWN[quantity]}, tenths of a {'mm' if quantity == 'rain' else 'degree Celsius'}"


class Doubted(Value):
    """A value that failed one of the archive's own checks."""

    day: dt.date
    quantity: Quantity
    value: float
    flag: str

    @property
    def words(self) -> str:
        """As it is named in a sentence."""
        say = quantities.millimetres if self.quantity == "rain" else quantities.celsius
        check = _CHECKS.get(self.flag, self.flag)
        return f"the {_SHOWN[self.quantity]} of {self.day} ({say(self.value, 1)}, {check} check)"


class StationValues:
    """Collects the values of a station file by element and day.

    Parameters
    ----------
    name : str
        The file as the user would name it.
    """

    def __init__(self, name: str) -> None:
        self.left_out = LeftOut(name)
        self._name = name
        self._values: dict[Quantity, dict[dt.date, float]] = {q: {} for q in ELEMENTS.values()}
        self._doubted: list[Doubted] = []

    def take(self, day: dt.date, quantity: Quantity, tenths: int, flag: str) -> None:
        """One value; with a quality flag it is a gap, and remembered."""
        if tenths == GAP:
            return
        if flag.strip():
            self._doubted.append(
                Doubted(day=day, quantity=quantity, value=tenths / TENTHS, flag=flag.strip())
            )
            self._values[quantity].setdefault(day, np.nan)
        else:
            self._values[quantity][day] = tenths / TENTHS

    def reading(self, columns: tuple[ColumnRead, ...] = ()) -> WeatherReading:
        """The record of all that was taken, checked, with what was set aside said."""
        faults = self.left_out.faults()
        days = sorted({day for found in self._values.values() for day in found})
        if not days:
            faults.append(
                Fault(file=self._name, line=None, message="no minimum, maximum or rain stands in it.")
            )
            return WeatherReading(record=None, faults=tuple(faults), columns=columns)
        values = {q: np.array([found.get(day, np.nan) for day in days]) for q, found in self._values.items()}
        record = quality.check(laid_on_days(Rows(dates=np.array(days, dtype="datetime64[D]"), values=values)))
        notes = (*self._said_of_doubted(), *record.notes)
        return WeatherReading(record=record, faults=tuple(faults), notes=notes, columns=columns)

    def _said_of_doubted(self) -> list[str]:
        if not self._doubted:
            return []
        doubted = sorted(self._doubted, key=lambda one: (one.day, one.quantity))
        number = "1 value" if len(doubted) == 1 else f"{len(doubted):,} values"
        verbs = "and counts as a gap" if len(doubted) == 1 else "and count as gaps"
        listed = prose.first_of([one.words for one in doubted], NAMED)
        return [f"{number} of {self._name} failed the archive's own checks {verbs}: {listed}."]


def day_of(year: int, month: int, day: int) -> dt.date:
    """A day within the years the archive can hold.

    Raises
    ------
    ValueError
        If there is no such day.
    """
    if year not in YEARS:
        raise ValueError
    return dt.date(year, month, day)
