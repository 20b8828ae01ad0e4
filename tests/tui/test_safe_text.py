"""safe_text: no character of a user's string acts on the terminal, and little else is lost."""

from __future__ import annotations

import unicodedata

import pytest
from hostile import HOSTILE, raw_controls
from hypothesis import given, settings
from hypothesis import strategies as st

from leafturn_tui.safe_text import ELLIPSIS, MARK, safe_text


@settings(max_examples=60)
@given(st.text())
def test_nothing_is_left_that_acts_on_a_terminal(text: str) -> None:
    hidden = {unicodedata.category(c) for c in safe_text(text)} & {"Cc", "Cf", "Cs", "Zl", "Zp"}
    assert not hidden


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_strings_are_made_harmless(text: str) -> None:
    assert not raw_controls(safe_text(text))
    safe_text(text).encode("utf-8")


@settings(max_examples=60)
@given(st.text(st.characters(min_codepoint=32, max_codepoint=126)))
def test_plain_text_stays_as_it_is(text: str) -> None:
    assert safe_text(text) == text


@settings(max_examples=60)
@given(st.text())
def test_making_safe_twice_changes_nothing_more(text: str) -> None:
    once = safe_text(text)
    assert safe_text(once) == once


@settings(max_examples=60)
@given(st.text(), st.integers(1, 40))
def test_a_limit_is_kept(text: str, limit: int) -> None:
    assert len(safe_text(text, limit=limit)) <= limit


def test_each_hidden_character_leaves_a_visible_mark() -> None:
    assert safe_text("a\x1b[31mb\u202ec\u200bd\x9be\ud800f") == f"a{MARK}[31mb{MARK}c{MARK}d{MARK}e{MARK}f"


def test_line_ends_of_every_kind_become_what_is_asked() -> None:
    assert safe_text("a\r\nb\rc\nd\x85e\u2028f") == "a b c d e f"
    assert safe_text("a\r\nb\rc", newline="\n") == "a\nb\nc"


def test_tabs_become_blanks_and_markup_is_only_text() -> None:
    assert safe_text("a\tb [bold]c[/] [x] [/]") == "a b [bold]c[/] [x] [/]"


def test_cut_text_ends_in_an_ellipsis() -> None:
    assert safe_text("x" * 10_000, limit=20) == "x" * 19 + ELLIPSIS


def test_marks_stay_on_their_letter_and_few() -> None:
    stack = safe_text("e" + "\u0301" * 50)
    assert stack.startswith("é")
    assert len(stack) <= 4
    assert safe_text("\u0301alone")[0] == "\N{DOTTED CIRCLE}"


def test_letters_of_the_world_are_kept() -> None:
    for word in ("Äpfel", "梨の木", "ลูกแพร์", "груша", "אֲגָס", "🍐"):
        assert safe_text(word) == unicodedata.normalize("NFC", word)
