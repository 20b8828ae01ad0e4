"""Sentences to read: why a job is due, what a word means, which keys there are."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from leafturn_tui.host import PanelKey
from leafturn_tui.panels.base import Panel
from leafturn_tui.text.layout import Row, paragraph


class Sheet(Panel):
    """A title and paragraphs, wrapped to the width and scrolled by the arrows."""

    lets_go = True

    def __init__(
        self,
        title: str,
        paragraphs: Sequence[str],
        enter: tuple[str, Callable[[], None]] | None = None,
    ) -> None:
        self.title = title
        self.paragraphs = [p for p in paragraphs if p]
        self.enter, self._act = enter or ("", lambda: None)

    def keys(self) -> tuple[PanelKey, ...]:
        """w closes, and so does Enter where it does nothing else."""
        closing = ("w",) if self.enter else ("w", "enter")
        return tuple(PanelKey(name, "", lambda offer: None, closes=True) for name in closing)

    def below(self, typed: str, width: int) -> list[Row]:
        """The paragraphs."""
        return [row for p in self.paragraphs for row in paragraph(p, width - 1, indent=1)]

    def take(self, typed: str) -> None:
        """What the foot says."""
        self._act()
