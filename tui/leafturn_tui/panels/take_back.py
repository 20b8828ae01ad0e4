"""Taking a note back: shown before it is done."""

from __future__ import annotations

from leafturn.journal.entries import Entry
from leafturn_tui.host import Host
from leafturn_tui.notes import grammar
from leafturn_tui.panels.base import Panel, keys_row, title_row
from leafturn_tui.text.layout import Row, paragraph


class TakeBack(Panel):
    """Shows the note that would be taken back; u shows the one before it."""

    def __init__(self, desk: Host, entry: Entry, more: bool) -> None:
        self._desk = desk
        self._entry = entry
        self._more = more
        self._skip = 0

    def lines(self, width: int, height: int) -> list[Row]:
        """The note, and what the keys do."""
        sentence = grammar.entry_words(self._entry, self._desk.almanac.on)
        keys = [("Enter", "take it back"), ("Esc", "leave it")]
        if self._more:
            keys.append(("u", "the note before"))
        return [
            title_row("Take back this note?"),
            *paragraph(sentence, width - 1, indent=3, most=height - 2),
            keys_row(*keys),
        ]

    def key(self, name: str, character: str | None) -> bool:
        """Enter takes it back, u goes one note further back."""
        if name == "enter":
            self._desk.take_back(self._entry)
            return False
        if name == "u" and self._more:
            before = self._desk.almanac.takeable(self._skip + 1)
            if before is not None:
                self._skip, self._entry = self._skip + 1, before
        return name != "escape"
