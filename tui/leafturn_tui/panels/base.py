"""What a panel tells the screen's dialog: what it asks, what may be chosen, and what becomes of the answer.

A panel holds no widget. The dialog (`desk/dialog.py`) types, chooses, scrolls, and draws what is told here.
"""

from __future__ import annotations

from collections.abc import Sequence

from leafturn_tui.host import Offer, PanelKey
from leafturn_tui.text.layout import Row


class Panel:
    """Something asked over the page. Each part is left out where it has nothing to say.

    A panel with a `label`, always of one width, has a line to type, with `first` on it to begin with; what is
    typed replaces it where it `is_offer`, and else comes after it. `enter` and `escape` say what these keys
    do. The bar of the offers rests on `at` to begin with; their keys take them at once, or only lay the bar
    on them where `keys_take` is false. Where it `lets_go`, a page's key turns to that page.
    """

    title = ""
    label = ""
    first = ""
    is_offer = False
    enter = ""
    escape = "back"
    at = 0
    keys_take = True
    lets_go = False

    def heading(self) -> str:
        """The question."""
        return self.title

    def keys(self) -> tuple[PanelKey, ...]:
        """Its own keys; they come before those of the line to type and of the list."""
        return ()

    def offers(self, typed: str, width: int) -> Sequence[Offer]:
        """What may be chosen while this is typed, each in at most `width` cells."""
        return ()

    def below(self, typed: str, width: int) -> list[Row]:
        """Lines below, scrolled by the arrows where they do not fit and nothing is offered."""
        return []

    def changed(self, typed: str) -> None:
        """What to do beside drawing when the line to type has changed."""

    def take(self, typed: str) -> None:
        """Enter where no offer is chosen; raises NotUnderstood to keep the panel open with its sentence."""


class Waiting(Panel):
    """Stands for a panel that is still being made; what is typed waits for that (`Desk.takes`)."""

    title = "Being reckoned; it comes by itself, and then what is typed meanwhile."
