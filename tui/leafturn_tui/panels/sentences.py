"""Sentences to read: why a job is due, what a word means, which keys there are."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from leafturn_tui.panels.base import Panel, keys_row, title_row
from leafturn_tui.text import phrases
from leafturn_tui.text.layout import Row, paragraph


class Sheet(Panel):
    """A title and paragraphs, wrapped to the width and scrolled by the arrows."""

    def __init__(
        self,
        title: str,
        paragraphs: Sequence[str],
        enter: tuple[str, Callable[[], None]] | None = None,
    ) -> None:
        self.title = title
        self.paragraphs = [p for p in paragraphs if p]
        self._enter = enter
        self._from = 0
        self._most = 0
        self._page = 1

    def lines(self, width: int, height: int) -> list[Row]:
        """The part of the text that fits, with the keys below."""
        text = [r for p in self.paragraphs for r in paragraph(p, width - 2, indent=1)]
        self._page = max(1, height - 2)
        self._most = max(0, len(text) - self._page)
        self._from = min(self._from, self._most)
        shown = text[self._from : self._from + self._page]
        keys = [("Esc", "back")]
        if self._enter:
            keys.append(("Enter", self._enter[0]))
        if self._most:
            below = len(text) - self._from - len(shown)
            keys.append(("Down", phrases.count(below, "more line")) if below else ("Up", "back to the start"))
        return [title_row(self.title), *shown, keys_row(*keys)]

    def key(self, name: str, character: str | None) -> bool:
        """Arrows scroll, Enter does what the foot says, w and Esc close."""
        step = {
            "up": -1, "down": 1, "pageup": -self._page, "pagedown": self._page,
            "home": -(10**6), "end": 10**6,
        }.get(name)  # fmt: skip
        if step is not None:
            self._from = min(max(self._from + step, 0), self._most)
            return True
        if name == "enter" and self._enter:
            self._enter[1]()
            return False
        return name not in ("escape", "w", "enter")
