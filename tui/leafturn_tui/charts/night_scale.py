"""A cold night on a scale of degrees: how cold it may be, and from where it takes one in ten."""

from __future__ import annotations

import math

from leafturn.base import quantities
from leafturn.base.explained_days import NightAhead
from leafturn.base.units import celsius_to_fahrenheit, fahrenheit_to_celsius
from leafturn_tui.charts.heights import Cell, lay, pieces, placed
from leafturn_tui.text.layout import Piece, Row

LEAST_C, MOST_C = -6, 2  # the scale, longer where the night or the limit lies outside
STEP_C = 2  # between the figures under it
MOST_CELLS = 37
STEP_F = 5


def night_rows(night: NightAhead, width: int) -> list[Row]:
    """Three rows: what is meant, the scale with the limit and the night, and the degrees.

    Parameters
    ----------
    night : NightAhead
    width : int [cells]
    """
    unit = f" {quantities.celsius_unit()}"
    low = min(LEAST_C, STEP_C * math.floor((min(night.likely_c, night.tenth_c) - 1) / STEP_C))
    high = max(MOST_C, STEP_C * math.ceil((max(night.likely_c, night.tenth_c) + 1) / STEP_C))
    cells = max(low - high, min(MOST_CELLS, width - 1 - len(unit)))

    def at(celsius: float) -> int:
        return 1 + round((celsius - low) / (high - low) * (cells - 1))

    limit, tonight = at(night.tenth_c), at(night.likely_c)
    line: list[Cell] = [(" ", "")]
    line += [("━", "f_cold") if n < limit else ("┄", "faint") for n in range(1, cells + 1)]
    lay(line, limit, "┃", "*cold")
    lay(line, tonight, "●", "*harm" if night.likely_c <= night.tenth_c else "*ink")
    axis = [(at(celsius) - len(figure) // 2, figure, "dim") for celsius, figure in _ticks(low, high)]
    return [
        Row(pieces(_words(night, limit, tonight, width))),
        Row((*pieces(line), Piece(unit, "dim"))),
        Row(pieces(placed(axis, width))),
    ]


def _ticks(low: int, high: int) -> list[tuple[float, str]]:
    """Degrees [degC] under the scale with their figures, at round numbers of the unit that is spoken."""
    if quantities.spoken() == "metric":
        return [(c, str(c)) for c in range(low, high + 1, STEP_C)]
    first = STEP_F * math.ceil(celsius_to_fahrenheit(low) / STEP_F)
    last = math.floor(celsius_to_fahrenheit(high))
    return [(fahrenheit_to_celsius(f), str(f)) for f in range(first, last + 1, STEP_F)]


def _words(night: NightAhead, limit: int, tonight: int, width: int) -> list[Cell]:
    """What the night is at the side it lies on, what the limit is at the other."""
    said = f"tonight {_degrees(night.likely_c)}"
    bound = f"{_degrees(night.tenth_c)}: one in ten dies"
    if len(said) + len(bound) + 2 > width:
        bound = _degrees(night.tenth_c)
    if night.likely_c <= night.tenth_c:
        first = max(0, min(limit, width - len(bound)))
        words = [(max(0, min(tonight + 1, first - 1) - len(said)), said, "*harm"), (first, bound, "cold")]
    else:
        first = max(0, limit + 1 - len(bound))
        after = min(max(tonight, first + len(bound) + 2), width - len(said))
        words = [(first, bound, "cold"), (after, said, "*ink")]
    return placed(words, width)


def _degrees(celsius: float) -> str:
    """To a tenth, without a tenth that is nought."""
    return quantities.bare_celsius(celsius).removesuffix(".0")
