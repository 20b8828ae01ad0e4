"""Taking a note back: shown before it is done."""

from __future__ import annotations

from leafturn.journal.entries import Entry
from leafturn_tui.host import Host, Offer, PanelKey
from leafturn_tui.notes import grammar
from leafturn_tui.panels.base import Panel
from leafturn_tui.text.layout import Row, paragraph


class TakeBack(Panel):
    """Shows the note that would be taken back; u shows the one before it."""

    title = "Take back this note?"
    enter = "take it back"
    escape = "leave it"

    def __init__(self, desk: Host, entry: Entry, more: bool) -> None:
        self._desk = desk
        self._entry = entry
        self._more = more
        self._skip = 0

    def keys(self) -> tuple[PanelKey, ...]:
        """One note further back, where there may be one."""
        return (PanelKey("u", "the note before", self._before),) if self._more else ()

    def below(self, typed: str, width: int) -> list[Row]:
        """The note."""
        almanac = self._desk.almanac
        return paragraph(grammar.entry_words(self._entry, almanac.on, almanac.garden), width, indent=3)

    def take(self, typed: str) -> None:
        """Take it back."""
        self._desk.take_back(self._entry)

    def _before(self, offer: Offer | None) -> None:
        before = self._desk.newest.takeable(self._skip + 1)
        if before is not None:
            self._skip, self._entry = self._skip + 1, before
