"""A short list of which one is chosen, and a question answered by yes or no."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from leafturn_tui.host import Offer, PanelKey
from leafturn_tui.panels.base import Panel
from leafturn_tui.text.layout import cut, piece


class Option(NamedTuple):
    """One line of a choice: the key that picks it at once, its words, and what it does."""

    key: str
    words: str
    act: Callable[[], None]


class Choice(Panel):
    """A few lines; a key or the bar and Enter picks one."""

    enter = "choose"

    def __init__(self, title: str, options: Sequence[Option], at: int = 0) -> None:
        self.title = title
        self.options = options
        self.at = at

    def offers(self, typed: str, width: int) -> Sequence[Offer]:
        """The options, each after its key; of one that is cut there is more below."""
        room = max(width - 3, 8)
        offers = []
        for o in self.options:
            words = piece(o.words)
            told = cut(words.text, room)
            whole = "" if told == words.text else words.text
            pieces = (piece(f"{o.key}  ", "key"), words._replace(text=told))
            offers.append(Offer(pieces, o.act, o.key.strip(), whole=whole))
        return offers


class YesNo(Panel):
    """One question. Only y does it; n, Esc and nothing else leave it."""

    escape = ""

    def __init__(self, question: str, yes: Callable[[], None], words: str = "yes, keep it") -> None:
        self.title = question
        self._yes = yes
        self._words = words

    def keys(self) -> tuple[PanelKey, ...]:
        """Its two answers."""
        return (
            PanelKey("y", self._words, lambda offer: self._yes(), closes=True),
            PanelKey("n", "no, leave it", lambda offer: None, closes=True),
        )
