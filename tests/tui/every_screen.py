"""Every page and every dialog: the keys that lead to it, for whole-screen tests and pictures.

A page or a dialog that is made new gets a line here; its whole screens and its pictures are then asked for.
"""

from __future__ import annotations

from collections.abc import Sequence

from tests.tui.screens import NAMES

SCREENS = {
    "round": [],
    "round-why": ["down", "w"],
    "round-job": ["down", "enter"],
    "season-strip": ["2"],
    "round-walk": ["v"],
    "season-heat": ["2", "v"],
    "season-year": ["2", "y"],
    "season-list": ["2", "i"],
    "partners": ["3"],
    "partners-years": ["3", "v"],
    "partners-fixes": ["3", "x"],
    "partners-tree": ["3", "enter"],
    "canopy": ["4"],
    "canopy-why": ["4", "w"],
    "canopy-what-if": ["4", "y"],
    "canopy-other": ["4", "right"],
    "canopy-plan": ["4", "v"],
    "canopy-plan-later": ["4", "v", "full_stop"],
    "canopy-side": ["4", "v", "v"],
    "canopy-gained": ["4", "v", "x", "x", "x"],
    "canopy-climate": ["4", "v", "v", "v"],
    "canopy-look": ["4", "r"],
    "climbers": ["5"],
    "climbers-one": ["5", "enter"],
    "larder": ["7"],
    "larder-weeks": ["7", "v"],
    "larder-fillers": ["7", "x"],
    "heed": ["8"],
    "heed-unfolded": ["8", "down", "enter"],
    "heaps": ["6"],
    "heaps-nitrogen": ["6", "v"],
    "heaps-one": ["6", "down", "enter"],
    "book": ["9"],
    "book-needs": ["9", "v"],
    "book-needs-why": ["9", "v", "w"],
    "book-score": ["9", "v", "v"],
    "book-survival": ["9", "v", "v", "v"],
    "tonight": ["t", "minus", "3", "enter"],
    "plants": ["0"],
    "plants-plan": ["0", "v"],
    "plants-light": ["0", "v", "s"],
    "plants-one": ["0", "enter"],
    "plants-add": ["0", "a", *"com"],
    "plants-change": ["0", "e"],
    "plants-gone": ["0", "x", *"voles", "enter"],
    "bloom": ["b"],
    "harvest-amount": ["h", "2", "4", "full_stop", "5", "space", "k", "g"],
    "keys": ["question_mark"],
}
DIALOGS = {
    "ask-find-line": ["slash", "q", "u"],
    "ask-note": ["n", *"frost -2"],
    "ask-date": ["o", "2"],
    "ask-page": ["g"],
    "ask-paper": ["p"],
    "ask-take-back": ["u"],
    "ask-plant": ["f", "c", "o"],
    "ask-done-by": ["S"],
    "ask-to-whom": ["a"],
    "ask-put-off": ["d"],
    "ask-let-go": ["l"],
    "ask-whose": ["s"],
    "ask-cold": ["t"],
    "ask-harvest": ["h"],
    "ask-remarks": ["R"],
    "ask-new-plant": ["0", "a", "p", "e"],
    "ask-change": ["0", "e"],
    "ask-move": ["0", "m"],
    "ask-gone": ["0", "x"],
}
ALL = SCREENS | DIALOGS

# On which a garden begins, in words and keys.
PLACE = (
    "Weir Meadow",
    "enter",
    "46.9N 15.9E",
    "enter",
    "austria",
    "enter",
    "360",
    "enter",
    "24 April",
    "enter",
    "16 Oct",
    "enter",
)
PLANT = ("comi", "enter", "enter", "2012", "enter", "5n", "enter")
BEGINNING = {
    "begin-place": ("Weir", "enter"),
    "begin-plants": (*PLACE, "Ana 3", "enter", "enter", *PLANT, "haz"),
    "begin-now": (*PLACE, "enter", *PLANT, "enter"),
}


def typed(given: Sequence[str]) -> list[str]:
    """Words as the keys that type them; a key's name is itself."""
    named = {"enter", "escape", "down", "ctrl+u"}
    return [key for one in given for key in ([one] if one in named else [NAMES.get(c, c) for c in one])]
