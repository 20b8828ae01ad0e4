"""One line being typed: its text and where the next letter goes. Knows nothing of any screen."""

from __future__ import annotations

import unicodedata
from collections.abc import Callable
from dataclasses import dataclass

from rich.cells import cell_len

from leafturn_tui.safe_text import safe_text
from leafturn_tui.text.layout import Piece

LONGEST = 4000


@dataclass(slots=True)
class TypedLine:
    """The text typed so far; `at` is how many characters stand before the cursor."""

    text: str = ""
    at: int = 0

    def insert(self, text: str) -> None:
        """Put `text` where the cursor is; line ends become spaces, other control characters go."""
        text = "".join(
            " " if c.isspace() else c for c in text if c.isspace() or unicodedata.category(c) != "Cc"
        )
        text = text[: LONGEST - len(self.text)]
        self.text = self.text[: self.at] + text + self.text[self.at :]
        self.at += len(text)

    def key(self, name: str, character: str | None) -> bool:
        """Do what a key asks; tell whether it was one for a typed line."""
        act = _KEYS.get(name)
        if act is not None:
            act(self)
            return True
        if character is not None and character.isprintable():
            self.insert(character)
            return True
        return False

    def clear(self) -> None:
        """Rub everything out."""
        self.text, self.at = "", 0

    def pieces(self, width: int) -> tuple[Piece, ...]:
        """The text with its cursor, scrolled so that the cursor is within `width` cells."""
        before = safe_text(self.text[: self.at])
        here, after = safe_text(self.text[self.at : self.at + 1]), safe_text(self.text[self.at + 1 :])
        while before and cell_len(before) > max(width - 2, 1):
            before = before[max(1, (cell_len(before) - width) // 2) :]
        room = max(0, width - cell_len(before) - 2)
        while after and cell_len(after) > room:
            after = after[: max(len(after) - max(1, (cell_len(after) - room) // 2), 0)]
        return Piece(before), Piece(here or " ", "cursor"), Piece(after)


def _back(line: TypedLine) -> None:
    if line.at:
        line.text = line.text[: line.at - 1] + line.text[line.at :]
        line.at -= 1


def _forward(line: TypedLine) -> None:
    line.text = line.text[: line.at] + line.text[line.at + 1 :]


def _to(place: Callable[[TypedLine], int]) -> Callable[[TypedLine], None]:
    def move(line: TypedLine) -> None:
        line.at = min(max(place(line), 0), len(line.text))

    return move


_KEYS: dict[str, Callable[[TypedLine], None]] = {
    "backspace": _back,
    "ctrl+h": _back,
    "delete": _forward,
    "left": _to(lambda line: line.at - 1),
    "right": _to(lambda line: line.at + 1),
    "home": _to(lambda line: 0),
    "end": _to(lambda line: len(line.text)),
    "ctrl+u": TypedLine.clear,
}
