"""Lines and dots finer than a cell: two by four dots of braille in each."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

# The bit of each dot of a cell, by column and row (Unicode, braille patterns, U+2800).
_BITS = ((0x01, 0x02, 0x04, 0x40), (0x08, 0x10, 0x20, 0x80))
ACROSS, DOWN = 2, 4  # dots in a cell
EMPTY = " "


class Dots:
    """A field of cells to set dots in; x runs to the right, y downward, both counted in dots."""

    def __init__(self, columns: int, rows: int) -> None:
        self.columns, self.rows = columns, rows
        self._cells = [[0] * columns for _ in range(rows)]

    def set(self, x: float, y: float) -> None:
        """Set one dot; outside of the field nothing happens."""
        column, row = round(x) // ACROSS, round(y) // DOWN
        if 0 <= column < self.columns and 0 <= row < self.rows:
            self._cells[row][column] |= _BITS[round(x) % ACROSS][round(y) % DOWN]

    def line(self, points: Sequence[tuple[float, float]], every: int = 1) -> None:
        """Join points by straight lines; of their dots only every so many-th is set."""
        count = 0
        for (x0, y0), (x1, y1) in pairwise(points):
            steps = max(1, round(max(abs(x1 - x0), abs(y1 - y0))))
            for step in range(steps + 1):
                if count % every == 0:
                    self.set(x0 + (x1 - x0) * step / steps, y0 + (y1 - y0) * step / steps)
                count += 1

    def cell(self, column: int, row: int) -> str:
        """The character of one cell; a blank where no dot is set."""
        bits = self._cells[row][column]
        return chr(0x2800 + bits) if bits else EMPTY
