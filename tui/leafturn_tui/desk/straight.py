"""A picture written straight to the terminal, before Textual is loaded and takes it over.

Nothing typed meanwhile is lost, changed or shown: it waits until Textual reads it, and Textual is given the
terminal like that. Ctrl-C and the signals that end a program give it back as it was, and end the program
there and then: an exception may be changed or swallowed by what it passes through.
"""

from __future__ import annotations

import contextlib
import os
import signal
import sys
import termios
from collections.abc import Sequence
from types import FrameType, TracebackType

from leafturn_tui.desk.hushed import ENDS, HUSH, LFLAG, Attributes, answer_as, answered_by, give_back
from leafturn_tui.desk.kept_picture import KeptPicture, Line, Window, across
from leafturn_tui.text.drawn import segments_of
from leafturn_tui.text.layout import BLANK, fit, piece, row
from leafturn_tui.text.styles import DEPTHS, Look

# By their names in ECMA-48 and among the private modes that terminals share with xterm.
OTHER_SCREEN, OWN_SCREEN = "\x1b[?1049h", "\x1b[?1049l"
HIDE_CURSOR, SHOW_CURSOR = "\x1b[?25l", "\x1b[?25h"
NO_WRAP, WRAP = "\x1b[?7l", "\x1b[?7h"
GIVEN_BACK = WRAP + OWN_SCREEN + SHOW_CURSOR
_IFLAG, _CC = 0, 6  # places in what `termios.tcgetattr` gives
NO_KEY = b"\0"  # _POSIX_VDISABLE


class Straight:
    """The terminal while there is no Textual: to be used with `with`, all the while the pages are open.

    Parameters
    ----------
    look : Look
    window : Window
    """

    def __init__(self, look: Look, window: Window) -> None:
        self._look, self.window = look, window
        self._taken_over = False

    def __enter__(self) -> Straight:
        self._before = HUSH.before or termios.tcgetattr(sys.stdin)
        self._answers = answered_by(self._end, (signal.SIGINT, *ENDS))
        termios.tcsetattr(sys.stdin, termios.TCSANOW, _letting_keys_wait(self._before))
        self._write(OTHER_SCREEN + HIDE_CURSOR + NO_WRAP)
        return self

    def paint(self, picture: KeptPicture) -> None:
        """Paint a whole window."""
        self._look.turn(picture.season)
        self._paint(picture.lines)

    def say(self, words: str) -> None:
        """Paint a window with a few words in its first line and nothing else."""
        width, height, _ = self.window
        self._paint(across([row(piece(fit(f" {words}", width), "dim")), *[BLANK] * (height - 1)], width))

    def _paint(self, lines: Sequence[Line]) -> None:
        self._write("".join(f"\x1b[{y};1H{self._drawn(line)}" for y, line in enumerate(lines, 1)))

    def hand_over(self) -> Attributes:
        """From now on the terminal is Textual's, in which keys still wait; its attributes before that."""
        signal.signal(signal.SIGINT, self._answers[signal.SIGINT])
        self._taken_over = True
        return self._before

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        answer_as(self._answers)
        give_back(self._before)
        if not self._taken_over or error is not None:
            self._write(GIVEN_BACK)

    def _end(self, number: int, frame: FrameType | None) -> None:
        if self._taken_over:  # Textual has to put away what it has set
            raise SystemExit(128 + number)
        give_back(self._before)
        with contextlib.suppress(OSError):
            os.write(sys.stdout.fileno(), GIVEN_BACK.encode())  # a picture may be half in the buffer
        os._exit(128 + number)

    def _drawn(self, line: Line) -> str:
        depth = DEPTHS.get(self._look.depth)
        segments = (s for part in line for s in segments_of(part.row, part.ground, part.width, self._look))
        return "".join(s.style.render(s.text, color_system=depth) if s.style else s.text for s in segments)

    @staticmethod
    def _write(text: str) -> None:
        sys.stdout.write(text)
        sys.stdout.flush()


def _letting_keys_wait(before: Attributes) -> Attributes:
    """Attributes of a terminal in which keys wait unseen until they are read, and Ctrl-C alone acts."""
    attributes = [*before[:_CC], list(before[_CC])]
    attributes[_IFLAG] &= ~(termios.ICRNL | termios.INLCR | termios.IGNCR | termios.IXON | termios.IXOFF)
    attributes[LFLAG] &= ~(termios.ECHO | termios.ICANON | termios.IEXTEN)
    for key in (termios.VSUSP, termios.VQUIT):
        attributes[_CC][key] = NO_KEY
    return attributes
