"""Finding one of many by the first letters of its name."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import NamedTuple

from leafturn.garden.model import Plant
from leafturn_tui.panels.base import Panel, keys_row, title_row
from leafturn_tui.text.layout import Column, Piece, Row, columns, piece


class Named(NamedTuple):
    """Something with a name: its id, and other words it may be sought by."""

    id: str
    words: str = ""


def plants_by_name(plants: Iterable[Plant]) -> list[Named]:
    """Plants by their ids; name, kind and cultivar find them too."""
    return [Named(p.id, ", ".join(x for x in (p.name, p.kind, p.cultivar) if x)) for p in plants]


def sought(letters: str, among: Sequence[Named]) -> list[Named]:
    """Those whose name begins with the letters, then those that hold them anywhere."""
    letters = letters.strip().lower()
    if not letters:
        return list(among)
    begins = [n for n in among if n.id.lower().startswith(letters)]
    holds = [n for n in among if n not in begins and letters in f"{n.id} {n.words}".lower()]
    return begins + holds


def window(at: int, height: int, length: int) -> int:
    """First line to show so that line `at` is among `height` lines of `length`."""
    return min(max(0, at - height + 1), max(0, length - height))


class Finding(Panel):
    """Letters narrow the list, Enter opens what is under the bar."""

    def __init__(self, title: str, among: Sequence[Named], take: Callable[[str], None]) -> None:
        self.title = title
        self.letters = ""
        self.at = 0
        self._among = among
        self._take = take

    def lines(self, width: int, height: int) -> list[Row]:
        """The letters so far and what they find."""
        found = sought(self.letters, self._among)
        room = max(1, height - 3)
        first = window(self.at, room, len(found))
        shown = found[first : first + room]
        laid = columns([(piece(n.id), piece(n.words, "quiet")) for n in shown],
                       (Column(24), Column()), width - 4)  # fmt: skip
        rows = [
            Row((Piece(" > " if first + i == self.at else "   ", "bar"), *pieces))
            for i, pieces in enumerate(laid)
        ]
        if not found:
            rows = [Row((piece("   nothing here has these letters"),))]
        letters = Row((piece(f"   letters: {self.letters}"), Piece(" ", "cursor")))
        return [title_row(self.title), letters, *rows, keys_row(("Enter", "open"), ("Esc", "back"))]

    def key(self, name: str, character: str | None) -> bool:
        """Letters seek; arrows move; Enter takes."""
        found = sought(self.letters, self._among)
        if name == "escape":
            return False
        if name == "enter":
            if found:
                self._take(found[min(self.at, len(found) - 1)].id)
            return not found
        if name in ("up", "down", "pageup", "pagedown"):
            step = {"up": -1, "down": 1, "pageup": -8, "pagedown": 8}[name]
            self.at = min(max(self.at + step, 0), max(0, len(found) - 1))
        elif name == "backspace":
            self.letters, self.at = self.letters[:-1], 0
        elif character is not None and character.isprintable() and len(self.letters) < 60:
            self.letters, self.at = self.letters + character, 0
        return True

    def paste(self, text: str) -> None:
        """Pasted letters seek too."""
        self.letters, self.at = (self.letters + text.strip())[:60], 0
