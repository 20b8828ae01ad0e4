"""Esc and the next key come in one piece, as over a slow line or from a quick hand: both are done.

That an escape character begins a control sequence only before certain letters: ECMA-48, sections 5.3 and 5.6.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from terminal import Terminal

ESC = "\x1b"


@pytest.mark.sweep(each=2)
@pytest.mark.parametrize(("key", "page"), [("2", "What is coming, and when?"), ("0", "What stands here?")])
def test_esc_closes_what_is_asked_and_the_key_turns_the_page(key: str, page: str, garden: Path) -> None:
    """The pair was taken for a sign that some keyboards give with Alt, and neither was done."""
    with Terminal([str(garden), "--on", "2027-04-19"]) as terminal:
        terminal.until_open()
        terminal.press("f")
        asked = terminal.text
        terminal.type(f"{ESC}{key}")
        terminal.wait_for(page, most=20)
        assert terminal.text != asked


@pytest.mark.long
def test_esc_and_a_letter_that_words_are_stepped_by_with_alt(garden: Path) -> None:
    with Terminal([str(garden), "--on", "2027-04-19"]) as terminal:
        terminal.until_open()
        terminal.press("2")
        terminal.press("f")
        terminal.type(f"{ESC}1")
        terminal.wait_for("What needs hands this week?", most=20)
        terminal.press("down", "up")
        for pressed in ("[B", "[A"):  # what begins a sequence is no key of its own
            terminal.type(f"{ESC}{pressed}")
        terminal.settle()
        assert "What needs hands this week?" in terminal.text
