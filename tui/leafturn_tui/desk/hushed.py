"""No key is echoed from the first moment of a start on, and every way out gives the terminal back.

It is asked before anything else is imported, so it imports nothing that takes time.
"""

from __future__ import annotations

import contextlib
import os
import signal
import sys
import termios
from collections.abc import Callable, Iterable
from types import FrameType
from typing import Any

Attributes = list[Any]  # of a terminal, as `termios.tcgetattr` gives them
Answers = dict[signal.Signals, Any]  # to signals, as `signal.signal` gives and takes them

LFLAG = 3  # its place among the attributes
ENDS = (signal.SIGTERM, signal.SIGHUP)  # Ctrl-C is an exception, which whoever hushed sees


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
        self._answers = answered_by(self._end, ENDS)
        silent = [*self.before]
        silent[LFLAG] &= ~termios.ECHO
        termios.tcsetattr(sys.stdin, termios.TCSANOW, silent)

    def end(self) -> None:
        """Give the terminal back as it was; nothing where that was done."""
        if self.before is None:
            return
        give_back(self.before)
        self.before = None
        answer_as(self._answers)

    def _end(self, number: int, frame: FrameType | None) -> None:
        self.end()
        os._exit(128 + number)


HUSH = Hush()  # a process has one terminal


def answered_by(end: Callable[[int, FrameType | None], None], ends: Iterable[signal.Signals]) -> Answers:
    """Have some signals answered by a function; what answered them before."""
    return {one: signal.signal(one, end) for one in ends}


def answer_as(before: Answers) -> None:
    """Have signals answered as they were."""
    for one, answer in before.items():
        signal.signal(one, answer)


def give_back(attributes: Attributes) -> None:
    """Give the terminal the attributes that it had; one that has gone needs none."""
    with contextlib.suppress(termios.error):
        termios.tcsetattr(sys.stdin, termios.TCSANOW, attributes)
