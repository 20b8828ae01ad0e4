"""The same files opened in the pages, keys pressed at random and hostile words typed: nothing ends them."""

from __future__ import annotations

import random
import zlib
from pathlib import Path

from leafturn.base.faults import Unreadable
from leafturn_tui.pages import pages
from tests.at_the_desk import AtTheDesk
from tests.faults.by_commands import (
    NUMBERS,
    WORDS,
    garden_changed,
    garden_with,
    journal_changed,
    weather_changed,
)
from tests.faults.fuzz import Fuzzed, Read, Refusals
from tests.faults.trial import TODAY
from tests.tui.hostile import raw_controls

SIZES = ((80, 24), (120, 40), (45, 16), (60, 14))
KEYS = (
    "down", "down", "up", "end", "home", "pageup", "pagedown", "left", "right", "enter", "enter", "escape",
    "w", "v", "f", "a", "m", "e", "x", "u", "b", "h", "t", "d", "p", "s", "n",
)  # fmt: skip
STEPS, MOST_TYPED = 25, 400  # keys of a walk, and letters of a word that is typed


def _walked(file: str) -> Read:
    """Open a garden with the file in it, and go about its pages."""

    def read(folder: Path, data: bytes) -> Refusals:
        garden, chance = garden_with(folder, file, data), random.Random(zlib.crc32(data))
        try:
            with AtTheDesk(garden, TODAY, size=chance.choice(SIZES)) as desk:
                for _ in range(STEPS):
                    if chance.random() < 0.15:
                        desk.type(_typed(chance))
                    else:
                        desk.press(chance.choice((*pages(), *KEYS)))
                    if raw := raw_controls(desk.text):
                        return [f"raw {sorted(raw)!r}"]
        except Unreadable as why:
            return [why.fault.sentence()]
        return []

    return read


def _typed(chance: random.Random) -> str:
    word = str(chance.choice(chance.choice((WORDS, NUMBERS))))
    return word.replace("\n", " ").replace("\r", " ")[:MOST_TYPED]


JOURNAL = "journal/2027.toml"
_SLOW = 30.0  # a walk of many pages
BY_PAGES = (
    Fuzzed("walked garden", "garden, in the pages", garden_changed, _walked("garden.toml"), 2, 60, _SLOW),
    Fuzzed("walked journal", "journal, in the pages", journal_changed, _walked(JOURNAL), 1, 30, _SLOW),
    Fuzzed("walked weather", "weather, in the pages", weather_changed, _walked("weather.csv"), 1, 20, _SLOW),
)  # fmt: skip
