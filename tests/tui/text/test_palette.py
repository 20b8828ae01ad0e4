"""Contrast of every text colour on every ground it can stand on, by WCAG 2.1 (1.4.3 and 1.4.11)."""

from __future__ import annotations

import pytest

from leafturn_tui.text.palette import FILLS, GROUNDS, ON_HARM, TEXT, contrast
from leafturn_tui.text.styles import Look, grounds, season_of, wished_look

NOT_FOR_SMALL = {"faint"}  # rules and empty tracks carry no meaning
CROWNS = {"crown_tall", "crown_mid", "crown_low", "crown_old", "path", "heap"}  # always lettered


@pytest.mark.parametrize("look", ["dark", "light"])
def test_text_holds_aa_on_every_ground(look: str) -> None:
    for name, text in TEXT.items():
        for ground in grounds():
            ratio = contrast(getattr(text, look), getattr(GROUNDS[ground], look))
            assert ratio >= 4.5, (look, name, ground, round(ratio, 2))


@pytest.mark.parametrize("look", ["dark", "light"])
def test_fills_hold_three_to_one_on_the_page_and_on_frost(look: str) -> None:
    for name, fill in FILLS.items():
        if name in NOT_FOR_SMALL | CROWNS:
            continue
        for ground in ("ground", "frost3"):
            assert contrast(getattr(fill, look), getattr(GROUNDS[ground], look)) >= 3, (look, name, ground)


@pytest.mark.parametrize("look", ["dark", "light"])
def test_the_one_filled_word_is_read(look: str) -> None:
    assert contrast(getattr(ON_HARM, look), getattr(GROUNDS["harm_fill"], look)) >= 4.5


def test_contrast_is_that_of_the_standard() -> None:
    """Black on white is 21:1 and #777777 on white 4.48:1 (WCAG 2.1, understanding 1.4.3)."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.005)


def test_without_colour_only_the_page_shown_and_harm_are_reversed() -> None:
    look = Look("none")
    assert look.style("cold").color is None
    assert look.style("*ground on accent").reverse
    assert look.style("*on_harm on harm_fill").reverse
    assert not look.style("ink on raised").reverse


def test_few_colours_take_their_own_table() -> None:
    assert Look("dark", "256").style("ink on bar").bgcolor.number == 236  # type: ignore[union-attr]
    assert Look("dark", "standard").style("cold on frost2").bgcolor is None


def test_the_look_is_asked_for_or_read_from_the_terminal() -> None:
    assert wished_look({"LEAFTURN_LOOK": "Light"}) == "light"
    assert wished_look({"COLORFGBG": "0;15"}) == "light"
    assert wished_look({"COLORFGBG": "15;0"}) == "dark"
    assert wished_look({}) == "dark"


def test_the_accent_turns_with_the_season_of_the_hemisphere() -> None:
    assert [season_of(m, False) for m in (1, 4, 7, 10, 12)] == [
        "winter", "spring", "summer", "autumn", "winter",
    ]  # fmt: skip
    assert season_of(1, True) == "summer"
