"""The bytes that a terminal receives from a garden whose every name is hostile."""

from __future__ import annotations

from pathlib import Path

import pytest
from hostile import hostile_garden, raw_in_bytes
from terminal import Terminal

# What Textual itself asks of a terminal at start and end (modes, keyboard, pointer): not from any file.
PAGES = (
    "1",
    "2",
    "v",
    "3",
    "9",
    "0",
    "enter",
    "w",
    "escape",
    "escape",
    "f",
    "escape",
    "b",
    "escape",
    "h",
    "escape",
)


@pytest.mark.long
def test_no_name_reaches_the_terminal_raw(tmp_path: Path) -> None:
    hostile_garden(tmp_path)
    with Terminal([str(tmp_path), "--on", "2027-04-19"], size=(80, 24)) as terminal:
        terminal.wait_for("What needs")
        terminal.press("end", "w", "escape", *PAGES, "n")
        terminal.paste("pasted \u202e and \x9b31m and \u200d")
        terminal.press("enter", "9", "w", "escape")
        assert terminal.leave() == 0
        assert not raw_in_bytes(terminal.bytes)
        assert b"[bold]" in terminal.bytes
