"""A screen that is laid out for the window as it is now, and takes keys from then on."""

from __future__ import annotations

from textual import events
from textual.message import Message
from textual.screen import Screen

LEAVE = ("ctrl+c", "ctrl+q", "ctrl+d")  # keys that end the program on every screen


class KeysTaken(Message):
    """Sent to the application: the screen takes keys that waited for it."""


class ReadyScreen(Screen[None]):
    """Passes over a size that the window has no more, and takes no key before it is laid out.

    Textual lays out anew at each size it is told of, and tells the screen so once more; told of two before
    the first is laid out, it would go from one to the other for ever.
    """

    _is_laid_out = False

    def takes(self, typed: events.Key | events.Paste) -> bool:
        """Whether this is answered now; else it waits, with all that is typed after it, for `KeysTaken`."""
        return self._is_laid_out

    def leaves(self, typed: events.Key | events.Paste) -> bool:
        """Whether this ends the program whatever was typed before it and waits."""
        return False

    def on_resize(self, event: events.Resize) -> None:
        """Nothing is laid out at a size that is over."""
        if event.size != self.app.size:
            event.prevent_default()
        elif not self._is_laid_out:
            self._is_laid_out = True
            self.post_message(KeysTaken())
