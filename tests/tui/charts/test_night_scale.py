"""A cold night on its scale: the night and the limit at their degrees, words at the side they lie on."""

from __future__ import annotations

import pytest
from rich.cells import cell_len

from leafturn.base.explained_days import NightAhead
from leafturn_tui.charts.night_scale import night_rows


def drawn(likely: float, tenth: float, width: int = 44) -> list[str]:
    rows = night_rows(NightAhead(likely_c=likely, tenth_c=tenth, part="flower"), width)
    assert all(cell_len(row.text) <= width for row in rows)
    return [row.text for row in rows]


def degrees_at(line: str, axis: str, sign: str) -> float:
    """What the figures under the scale say of a sign on it."""
    left, right = axis.index("-4") + 1, axis.index("0", axis.index("-2") + 2)
    return -4 + 4 * (line.index(sign) - left) / (right - left)


@pytest.mark.parametrize(("likely", "tenth"), [(-3.0, -2.2), (-5.0, -2.8), (-1.0, -3.9), (0.5, -2.2)])
def test_night_and_limit_stand_at_their_degrees(likely: float, tenth: float) -> None:
    words, line, axis = drawn(likely, tenth)
    assert degrees_at(line, axis, "●") == pytest.approx(likely, abs=0.35)
    assert degrees_at(line, axis, "┃") == pytest.approx(tenth, abs=0.35)
    assert (line.index("●") < line.index("┃")) == (likely < tenth)
    assert (words.index("tonight") < words.index("one in ten dies")) == (likely < tenth)


def test_the_cold_side_is_drawn_otherwise_than_the_warm() -> None:
    _, line, _ = drawn(-3.0, -2.2)
    cold, _, warm = line.partition("┃")
    assert "━" in cold
    assert "┄" not in cold
    assert "━" not in warm


def test_a_deeper_cold_makes_the_scale_longer() -> None:
    _, line, axis = drawn(-17.0, -13.5)
    assert "-18" in axis
    assert line.index("●") < line.index("┃")


@pytest.mark.parametrize("width", [18, 24, 30])
def test_a_narrow_column_keeps_the_figures(width: int) -> None:
    words, line, _ = drawn(-3.0, -2.2, width)
    assert "tonight -3" in words
    assert "●" in line
    assert "┃" in line
