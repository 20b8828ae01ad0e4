"""No key is echoed from the first moment of a start on, and every way out gives the terminal back.

It is asked before anything else is imported, so it imports nothing that takes time.
"""

from __future__ import annotations

import contextlib
import os
import signal
import sys
import termios
from types import FrameType
from typing import Any

Attributes = list[Any]  # of a terminal, as `termios.tcgetattr` gives them

_LFLAG = 3  # its place among them
_ENDS = (signal.SIGTERM, signal.SIGHUP)  # Ctrl-C is an exception, which whoever hushed sees


class Hush:
    """The terminal while modules load: what is typed waits unseen for whoever reads it.

    Attributes
    ----------
    before : Attributes or None
        What the terminal had before; None while it is not hushed.
    """

    def __init__(self) -> None:
        self.before: Attributes | None = None

    def begin(self) -> None:
        """Echo nothing from now on, if there is a terminal."""
        if not (sys.stdin.isatty() and sys.stdout.isatty()):
            return
        self.before = termios.tcgetattr(sys.stdin)
        self._answers = {one: signal.signal(one, self._end) for one in _ENDS}
        silent = [*self.before]
        silent[_LFLAG] &= ~termios.ECHO
        termios.tcsetattr(sys.stdin, termios.TCSANOW, silent)

    def end(self) -> None:
        """Give the terminal back as it was; nothing where that was done."""
        if self.before is None:
            return
        give_back(self.before)
        self.before = None
        for one, answer in self._answers.items():
            signal.signal(one, answer)

    def _end(self, number: int, frame: FrameType | None) -> None:
        self.end()
        os._exit(128 + number)


HUSH = Hush()  # a process has one terminal


def give_back(attributes: Attributes) -> None:
    """Give the terminal the attributes that it had; one that has gone needs none."""
    with contextlib.suppress(termios.error):
        termios.tcsetattr(sys.stdin, termios.TCSANOW, attributes)
