"""Textual's driver of a terminal on which the first picture stands already."""

from __future__ import annotations

from textual.drivers.linux_driver import LinuxDriver

from leafturn_tui.desk.straight import OTHER_SCREEN


class OverPicture(LinuxDriver):
    """Does not ask anew for the screen that the picture stands on, which would clear it for a moment.

    Continued after it was stopped it asks for it as ever.
    """

    _picture_stands = True

    def write(self, data: str) -> None:
        """Write to the terminal."""
        if self._picture_stands and data == OTHER_SCREEN:
            self._picture_stands = False
        else:
            super().write(data)
