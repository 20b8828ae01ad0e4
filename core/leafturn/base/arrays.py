"""The names of the arrays that pass between modules; each function's docstring gives axes and unit."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

FloatArray = NDArray[np.float64]
"""Numbers in double precision: everything but the geometry of crowns."""

Float32Array = NDArray[np.float32]
"""Numbers in single precision: crowns, rays and light, where there are many and three digits do."""

IndexArray = NDArray[np.intp]
"""Places along an axis, or whole numbers that stand for one of a few things."""

BoolArray = NDArray[np.bool_]
"""Yes or no, one a place."""


class RisingRows:
    """Rows of numbers that never fall, laid end to end, so that many numbers are looked for at once.

    Each row is lifted above the last: all of them are one line in order.

    Parameters
    ----------
    rows : (rows, columns)
        Of numbers from 0 up.

    Attributes
    ----------
    flat : (rows * columns,)
        Row after row.
    last : (rows,)
        The last number of each row.
    """

    def __init__(self, rows: FloatArray) -> None:
        self.flat, self.last = rows.ravel(), rows[:, -1]
        self._columns, self._lift = rows.shape[1], float(self.last.max()) + 1.0
        self._line = (rows + self._lift * np.arange(len(rows))[:, None]).ravel()

    def begins(self, row: IndexArray) -> IndexArray:
        """Where in `flat` a row begins."""
        return np.asarray(row * self._columns)

    def place(self, wanted: FloatArray, row: IndexArray) -> IndexArray:
        """Where in `flat` a row first holds what is wanted, or more.

        Parameters
        ----------
        wanted : array of any shape
            At most the last number of its row.
        row : array
            Which each is looked for in; broadcasts with `wanted`.
        """
        return np.asarray(np.searchsorted(self._line, wanted + row * self._lift))


def at_share(values: FloatArray, share: float) -> float:
    """The value that stands so far through `values` in order: 0.1 one in ten, 0.5 the middle one.

    It is one of them, the nearest to that place, and never the mean of two, so that days of which some are
    inf ("never") keep a meaning.

    Parameters
    ----------
    values : array of any shape, at least one
    share : float
        0 to 1.
    """
    return in_order(np.sort(values, axis=None), share)


def in_order(ordered: FloatArray, share: float) -> float:
    """The same of values that are in order already, (n,)."""
    return float(ordered[round(share * (len(ordered) - 1))])


def median(values: ArrayLike) -> float:
    """The median of all `values`, as numpy has it, NaN if one is; for some dozens of them ten times as quick.

    Parameters
    ----------
    values : array of any shape, at least one
    """
    ordered = np.sort(values, axis=None)
    half = len(ordered) // 2
    if np.isnan(ordered[-1]):
        return float("nan")
    return float(ordered[half] if len(ordered) % 2 else (ordered[half - 1] + ordered[half]) / 2)


def medians(values: FloatArray, axis: int) -> FloatArray:
    """The medians along one axis, as numpy has them, without its masked arrays, which take long to load."""
    ordered = np.sort(values, axis=axis)
    half, odd = divmod(ordered.shape[axis], 2)
    upper = ordered.take(half, axis)
    middle = upper if odd else (ordered.take(half - 1, axis) + upper) / 2
    return np.where(np.isnan(ordered.take(-1, axis)), np.nan, middle)
