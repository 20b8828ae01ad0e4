"""Textual's driver of a terminal, which here is written to at once."""

from __future__ import annotations

import contextlib

from textual.drivers.linux_driver import LinuxDriver

from leafturn_tui.desk.straight import OTHER_SCREEN
from leafturn_tui.desk.turns import given_away


class AtOnce(LinuxDriver):
    """Writes each picture in one piece, before any thread has the interpreter again.

    Textual's own hands it to a thread, which must then wait for its turn among those at work.
    """

    _held: tuple[str, ...] = ()

    def write(self, data: str) -> None:
        """Keep something to be written."""
        self._held += (data,)

    def flush(self) -> None:
        """Write what was kept."""
        held, self._held = "".join(self._held), ()
        with given_away(), contextlib.suppress(OSError):  # of a terminal that has gone, a signal tells
            print(held, end="", file=self._file, flush=True)


class OverPicture(AtOnce):
    """Of a terminal on which the first picture stands already.

    It does not ask anew for the screen that the picture stands on, which would clear it for a moment.
    Continued after it was stopped it asks for it as ever.
    """

    _picture_stands = True

    def write(self, data: str) -> None:
        """Keep something to be written."""
        if self._picture_stands and data == OTHER_SCREEN:
            self._picture_stands = False
        else:
            super().write(data)
