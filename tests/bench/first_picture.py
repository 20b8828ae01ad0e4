"""How long a program takes from its start until its terminal shows certain words."""

from __future__ import annotations

import math
import os
import pty
import select
import shutil
import statistics
import struct
import sys
import termios
import time
from collections.abc import Mapping, Sequence
from fcntl import ioctl
from pathlib import Path

from tests.stories.terminal import COMMAND, Terminal, environment

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


class Started:
    """A program started in a pseudo-terminal, whose bytes are read as they come and not drawn.

    Parameters
    ----------
    command : sequence of str
        What is started.
    size : (int, int)
        Columns and lines.
    """

    def __init__(
        self, command: Sequence[str], *, size: tuple[int, int], env: Mapping[str, str] | None = None
    ) -> None:
        self._child, self._terminal = pty.fork()
        if self._child == 0:
            os.execvpe(command[0], list(command), environment(env))
        ioctl(self._terminal, termios.TIOCSWINSZ, struct.pack("HHHH", size[1], size[0], 0, 0))
        self._answered = False

    def read(self, patience: float) -> bytes | None:
        """What comes next, within so many seconds; None if nothing does."""
        if not select.select([self._terminal], [], [], patience)[0]:
            return None
        came = os.read(self._terminal, 65536)
        if not self._answered and MODE_ASKED in came:
            self.write(MODE_TOLD)
            self._answered = True
        return came

    def write(self, keys: bytes) -> None:
        """Press keys."""
        os.write(self._terminal, keys)

    def close(self) -> None:
        """End the program, whatever it does."""
        os.kill(self._child, 9)
        os.waitpid(self._child, 0)
        os.close(self._terminal)


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
    program, seen = Started(command, size=size, env=env), b""
    try:
        while words not in seen:
            try:
                came = program.read(60)
            except OSError as why:
                raise AssertionError(seen[-2000:].decode("utf-8", "replace")) from why
            if came is None:
                return math.inf
            seen += came
        return time.perf_counter() - start
    finally:
        program.close()


def first_pictures(words: Sequence[str], job: str, folder: Path, turns: int = 5) -> dict[str, float]:
    """Middle seconds of some turns until the first job stands on the screen, by what was kept before.

    Parameters
    ----------
    words : sequence of str
        What is typed after `leafturn`.
    job : str
        A word of the first job.
    folder : Path
        Where caches may lie.

    Returns
    -------
    dict of float [s]
        "bare" is a bare Textual app; "warm" shows the picture that was kept on leaving; "cold" finds nothing
        in the cache folder, though bytecode and the library beside it; "uncached" finds no bytecode either,
        and is asked once.
    """
    bytecode = {"PYTHONPYCACHEPREFIX": str(folder / "bytecode"), "PYTHONDONTWRITEBYTECODE": ""}
    warm = {"XDG_CACHE_HOME": str(folder / "warm"), **bytecode}
    cold = {"XDG_CACHE_HOME": str(folder / "cold"), **bytecode}
    none = {
        "XDG_CACHE_HOME": os.devnull,
        "PYTHONPYCACHEPREFIX": os.devnull,
        "PYTHONDONTWRITEBYTECODE": "1",
    }
    with Terminal(list(words), size=(120, 40), env=warm) as terminal:
        terminal.until_open()
        terminal.leave()
    command, shown = [*COMMAND, *words], job.encode()
    until_shown(command, shown, env=cold)  # which leaves the bytecode, and the library beside it
    took: dict[str, list[float]] = {"bare": [], "warm": [], "cold": []}
    for _ in range(turns):
        took["bare"].append(until_shown(BARE_COMMAND, b"the first job", env=warm))
        took["warm"].append(until_shown(command, shown, env=warm))
        shutil.rmtree(folder / "cold", ignore_errors=True)
        took["cold"].append(until_shown(command, shown, env=cold))
    took["uncached"] = [until_shown(command, shown, env=none)]
    return {name: statistics.median(each) for name, each in took.items()}
