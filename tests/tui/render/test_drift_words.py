"""What is said of a warmer climate names what to write where nothing is stated."""

import pytest
from fake_canopy import fake_drift
from fake_garden import GARDEN
from msgspec.structs import replace

from leafturn.projection.model import Span
from leafturn_tui.render.drift import days_words, stated_words


def test_where_no_warming_is_stated_it_says_what_would_state_one() -> None:
    assert "warming_c_per_decade = 0.3" in stated_words(replace(fake_drift(GARDEN), stated=0))


@pytest.mark.parametrize(
    ("shift", "words"),
    [
        (Span(-9, -6, -4), "6 days earlier (4 to 9)"),
        (Span(-1.2, -0.8, 0), "1 day earlier (0 to 1)"),
        (Span(-3, -1, 2), "1 day earlier (3 earlier to 2 later)"),
        (Span(1, 3, 5), "3 days later (1 to 5)"),
        (Span(-0.4, 0.2, 0.6), "the same"),
    ],
)
def test_a_shift_is_told_with_its_range(shift: Span, words: str) -> None:
    assert days_words(shift) == words
