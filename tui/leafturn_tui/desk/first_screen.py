"""What stands on the screen from the first moment until the garden is read: the picture that was kept."""

from __future__ import annotations

import datetime as dt

from textual import events
from textual.app import ComposeResult

from leafturn_tui.desk.kept_picture import KeptPicture
from leafturn_tui.desk.newest_size import NewestSize
from leafturn_tui.desk.widgets.whole_window import WholeWindow
from leafturn_tui.text.styles import Look


class FirstScreen(NewestSize):
    """Shows a kept picture and keeps the keys that are typed meanwhile.

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
        self.typed: list[events.Key] = []

    def compose(self) -> ComposeResult:
        """The picture alone."""
        yield WholeWindow(self._look, self._picture.lines)

    def on_key(self, event: events.Key) -> None:
        """`q` leaves; other keys wait for the page that they are meant for."""
        event.stop()
        event.prevent_default()
        if event.key in ("q", "ctrl+c", "ctrl+d"):
            self.app.exit()
        elif self._is_of_today:
            self.typed.append(event)
