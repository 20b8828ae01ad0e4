"""What is said of a warmer climate names what to write where nothing is stated."""

from fake_canopy import fake_drift
from fake_garden import GARDEN
from msgspec.structs import replace

from leafturn_tui.render.drift import stated_words


def test_where_no_warming_is_stated_it_says_what_would_state_one() -> None:
    assert "warming_c_per_decade = 0.3" in stated_words(replace(fake_drift(GARDEN), stated=0))
