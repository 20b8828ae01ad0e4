"""Reasons cut to a line of paper still say something whole."""

from __future__ import annotations

import pytest

from leafturn.papers.short_reasons import one_line

WHY = "Bloom of apple began about 19 Apr; if not yet, by 17 May."


@pytest.mark.parametrize("width", range(30, 60))
def test_no_reason_ends_in_half_a_clause(width: int) -> None:
    said = one_line("Best today", WHY, width)
    assert not said.endswith("if not yet.")
    assert said in (f"Best today: {WHY}", "Best today: Bloom of apple began about 19 Apr.")


def test_clauses_behind_a_comma_are_left_out_where_the_rest_stands_alone() -> None:
    assert (
        one_line("", "Stems thicken in spring, and ties strangle by autumn.", 40)
        == "Stems thicken in spring."
    )
