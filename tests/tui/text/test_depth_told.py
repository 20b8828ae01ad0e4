"""How many colours a terminal shows, against the library that the pages leave it to."""

from __future__ import annotations

import io
import itertools

import pytest
from rich.console import COLOR_SYSTEMS, Console

from leafturn_tui.text.styles import DEPTHS, depth_told

TERMS = [
    "xterm", "xterm-256color", "screen-256color", "tmux-256color", "xterm-kitty", "xterm-16color", "linux",
    "DUMB", "unknown", " xterm-256color ", "256color", "", None,
]  # fmt: skip
COLORTERMS = ["truecolor", " 24BIT", "yes", "", None]
FORCED = ["1", "", None]
COMPATIBLE = ["0", "1", "", "2", None]


class AtTerminal(io.StringIO):
    """What a terminal is written to."""

    def isatty(self) -> bool:
        """It is one."""
        return True


@pytest.mark.parametrize("term", TERMS)
def test_it_is_what_rich_reads(term: str | None) -> None:
    for colorterm, forced, compatible in itertools.product(COLORTERMS, FORCED, COMPATIBLE):
        told = {"TERM": term, "COLORTERM": colorterm, "FORCE_COLOR": forced, "TTY_COMPATIBLE": compatible}
        environ = {name: value for name, value in told.items() if value is not None}
        rich = Console(file=AtTerminal(), _environ=environ).color_system or "none"
        assert depth_told(environ) == rich, environ


def test_depths_are_called_as_rich_calls_them() -> None:
    assert {**DEPTHS, "windows": COLOR_SYSTEMS["windows"]} == COLOR_SYSTEMS
