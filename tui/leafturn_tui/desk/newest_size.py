"""A screen that is laid out for the window as it is now."""

from __future__ import annotations

from textual import events
from textual.screen import Screen


class NewestSize(Screen[None]):
    """Passes over a size that the window has no more.

    Textual lays out anew at each size it is told of, and tells the screen so once more; told of two before
    the first is laid out, it would go from one to the other for ever.
    """

    def on_resize(self, event: events.Resize) -> None:
        """Nothing is laid out at a size that is over."""
        if event.size != self.app.size:
            event.prevent_default()
