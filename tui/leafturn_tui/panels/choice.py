"""A short list of which one is chosen, and a question answered by yes or no."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from leafturn_tui.panels.base import Panel, keys_row, title_row
from leafturn_tui.text.layout import Piece, Row, paragraph, piece


class Option(NamedTuple):
    """One line of a choice: the key that picks it at once, its words, and what it does."""

    key: str
    words: str
    act: Callable[[], None]


class Choice(Panel):
    """A few lines; a key or the bar and Enter picks one."""

    def __init__(self, title: str, options: Sequence[Option], at: int = 0) -> None:
        self.title = title
        self.options = options
        self.at = at

    def lines(self, width: int, height: int) -> list[Row]:
        """The title, the options round the bar, the keys."""
        room = max(1, height - 2)
        first = min(max(0, self.at - room + 1), max(0, len(self.options) - room))
        shown = []
        for n, option in list(enumerate(self.options))[first : first + room]:
            mark = "bar" if n == self.at else ""
            shown.append(
                Row((
                    Piece(" > " if n == self.at else "   ", mark),
                    piece(f"{option.key}  ", "key"),
                    piece(option.words, mark, limit=max(width - 8, 8)),
                ))
            )  # fmt: skip
        return [title_row(self.title), *shown, keys_row(("Enter", "choose"), ("Esc", "back"))]

    def key(self, name: str, character: str | None) -> bool:
        """An option's own key picks it; arrows and Enter do too."""
        step = {"up": -1, "down": 1, "home": -(10**6), "end": 10**6}.get(name)
        if step is not None:
            self.at = min(max(self.at + step, 0), len(self.options) - 1)
            return True
        chosen = next((o for o in self.options if character and o.key == character), None)
        if name == "enter" and self.options:
            chosen = self.options[self.at]
        if chosen is None:
            return name != "escape"
        chosen.act()
        return False


class YesNo(Panel):
    """One question. Only y does it; n, Esc and nothing else leave it."""

    def __init__(self, question: str, yes: Callable[[], None], words: str = "yes, keep it") -> None:
        self.title = question
        self._yes = yes
        self._words = words

    def lines(self, width: int, height: int) -> list[Row]:
        """The question and its two answers."""
        asked = paragraph(self.title, width - 1, "question", indent=1, most=max(1, height - 1))
        return [*asked, keys_row(("y", self._words), ("n", "no, leave it"))]

    def key(self, name: str, character: str | None) -> bool:
        """y does it and closes, n and Esc close."""
        if name == "y":
            self._yes()
            return False
        return name not in ("n", "escape")
