"""The year of a plant, as a steward who is not sure of it writes it."""

from __future__ import annotations

import pytest

from leafturn_tui.notes import NotUnderstood
from leafturn_tui.panels.planting import year_typed


@pytest.mark.parametrize("typed", ["2010", " about 2010", "c. 2010", "ca 2010", "~2010", "around 2010 "])
def test_a_year_may_be_rough(typed: str) -> None:
    assert year_typed(typed) == 2010


@pytest.mark.parametrize("typed", ["about", "old", "10 years", "20100"])
def test_what_is_no_year_is_refused(typed: str) -> None:
    with pytest.raises(NotUnderstood, match="is no year"):
        year_typed(typed)
