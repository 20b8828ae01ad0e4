"""What every panel can do."""

from __future__ import annotations

from leafturn_tui.text.layout import Row, piece, row


class Panel:
    """Something over the page that takes the keys until it is closed.

    `key` gives False when the panel is done with and may go.
    """

    title = ""

    def lines(self, width: int, height: int) -> list[Row]:
        """At most `height` rows of at most `width` cells."""
        raise NotImplementedError

    def key(self, name: str, character: str | None) -> bool:
        """Take one key; False closes the panel."""
        return name != "escape"

    def paste(self, text: str) -> None:
        """Take pasted text; most panels have no use for it."""


def title_row(words: str) -> Row:
    """The panel's first line."""
    return row(" ", piece(words, "question"))


def keys_row(*pairs: tuple[str, str]) -> Row:
    """The panel's last line: keys and what they do."""
    pieces = [piece(" ")]
    for n, (name, words) in enumerate(pairs):
        pieces += [piece("   " if n else ""), piece(name, "key"), piece(f" {words}")]
    return row(*pieces)
