"""What stands on the screen from the first moment until the garden is read: the picture that was kept."""

from __future__ import annotations

import datetime as dt

from textual import events
from textual.app import ComposeResult

from leafturn_tui.desk.kept_picture import KeptPicture
from leafturn_tui.desk.ready_screen import LEAVE, ReadyScreen
from leafturn_tui.desk.widgets.whole_window import WholeWindow
from leafturn_tui.text.styles import Look


class FirstScreen(ReadyScreen):
    """Shows a kept picture, for which keys that are typed meanwhile wait.

    A picture of another day is shown dim and says so, and keys meant for it are dropped.

    Parameters
    ----------
    picture : KeptPicture
    on : date
        The day that is asked for.
    """

    DEFAULT_CSS = "FirstScreen { background: ansi_default; color: ansi_default; }"

    def __init__(self, picture: KeptPicture, on: dt.date, look: Look) -> None:
        super().__init__()
        look.turn(picture.season)
        self._look = look
        self._is_of_today = picture.on == on
        self._picture = picture.seen_on(on)

    def compose(self) -> ComposeResult:
        """The picture alone."""
        yield WholeWindow(self._look, self._picture.lines)

    def takes(self, typed: events.Key | events.Paste) -> bool:
        """What leaves, and what is dropped; all else waits for the page that it is meant for."""
        return super().takes(typed) and (not self._is_of_today or _key(typed) == "q" or self.leaves(typed))

    def leaves(self, typed: events.Key | events.Paste) -> bool:
        """Nobody has to wait for the garden who wants to leave it; `q` may be a letter of a note begun."""
        return _key(typed) in LEAVE

    def on_key(self, event: events.Key) -> None:
        """Leave."""
        event.stop()
        event.prevent_default()
        if event.key in ("q", *LEAVE):
            self.app.exit()


def _key(typed: events.Key | events.Paste) -> str:
    return typed.key if isinstance(typed, events.Key) else ""
