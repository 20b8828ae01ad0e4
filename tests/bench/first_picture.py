"""How long a program takes from its start until its terminal shows certain words."""

from __future__ import annotations

import math
import os
import pty
import select
import struct
import sys
import termios
import time
from collections.abc import Mapping, Sequence
from fcntl import ioctl

from tests.stories.terminal import environment

BARE = """
from textual.app import App
from textual.widgets import Static
class Bare(App):
    def compose(self):
        yield Static("the first job")
Bare().run(mouse=False)
"""
BARE_COMMAND = [sys.executable, "-c", BARE]
MODE_ASKED, MODE_TOLD = b"\x1b[?2026$p", b"\x1b[?2026;2$y"  # synchronised output, as terminals answer


def until_shown(
    command: Sequence[str],
    words: bytes,
    *,
    size: tuple[int, int] = (120, 40),
    env: Mapping[str, str] | None = None,
) -> float:
    """Seconds from starting a program in a pseudo-terminal until it has written some words.

    Parameters
    ----------
    command : sequence of str
        What is started.
    words : bytes
        What must stand in its output in one piece.
    size : (int, int)
        Columns and lines.
    """
    start = time.perf_counter()
    child, terminal = pty.fork()
    if child == 0:
        os.execvpe(command[0], list(command), environment(env))
    ioctl(terminal, termios.TIOCSWINSZ, struct.pack("HHHH", size[1], size[0], 0, 0))
    seen, answered = b"", False
    try:
        while words not in seen:
            if not select.select([terminal], [], [], 60)[0]:
                return math.inf
            try:
                seen += os.read(terminal, 65536)
            except OSError as why:
                raise AssertionError(seen[-2000:].decode("utf-8", "replace")) from why
            if not answered and MODE_ASKED in seen:
                os.write(terminal, MODE_TOLD)
                answered = True
        return time.perf_counter() - start
    finally:
        os.kill(child, 9)
        os.waitpid(child, 0)
        os.close(terminal)
