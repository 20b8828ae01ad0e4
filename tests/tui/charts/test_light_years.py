"""The bars of light beside names of any length."""

from __future__ import annotations

import pytest

from leafturn_tui.charts.light_years import BAR, FIGURES, MOST_YEARS, SHORT_BAR, tree_row, widths


@pytest.mark.parametrize("name", range(15, 25))
def test_a_longer_name_takes_from_the_bar_and_not_from_the_years(name: int) -> None:
    bar, years = widths(75, name)
    assert years == MOST_YEARS
    assert bar == min(BAR, 75 - name - FIGURES - MOST_YEARS)


def test_what_a_row_tells_is_read_whole_beside_the_shortest_bar() -> None:
    assert widths(57, 15) == (SHORT_BAR, 57 - 15 - SHORT_BAR - FIGURES)
    for said in ("chance it stands", "crown that lives", "gap covered"):
        assert any(said in piece.text for piece in tree_row("old-ash", said, [0.5], 57, 15))
