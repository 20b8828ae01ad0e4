"""How a tone looks. Words carry every meaning; a tone only repeats it.

Only the terminal's own sixteen colours are used, so that a light and a dark screen both stay
readable, and none at all where `NO_COLOR` is set.
"""

from __future__ import annotations

import os

from rich.style import Style

PLAIN = {
    "cursor": Style(reverse=True),
    "heading": Style(bold=True),
    "question": Style(bold=True),
    "bar": Style(bold=True),
    "key": Style(bold=True),
    "late": Style(bold=True),
    "due": Style(bold=True),
    "lacks": Style(bold=True),
    "fault": Style(bold=True),
}

COLOURED = PLAIN | {
    "late": Style(bold=True, color="red"),
    "lacks": Style(bold=True, color="red"),
    "fault": Style(bold=True, color="red"),
    "held": Style(color="magenta"),
    "thin": Style(color="magenta"),
    "done": Style(color="green"),
    "served": Style(color="green"),
}

NOTHING = Style()


def wants_colour() -> bool:
    """Whether colours may be used (https://no-color.org: set and not empty means no)."""
    return not os.environ.get("NO_COLOR")


def tones(colour: bool) -> dict[str, Style]:
    """Style by tone."""
    return COLOURED if colour else PLAIN
