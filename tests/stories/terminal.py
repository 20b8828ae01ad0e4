"""A real terminal for stories: the program in a pseudo-terminal, its screen as a person would see it.

with Terminal([str(garden), "--on", "2027-04-19"], size=(80, 24)) as terminal:
    terminal.wait_for("What needs hands this week?")
    terminal.press("b", "enter")
    assert "noted" in terminal.text
"""

from __future__ import annotations

import os
import signal
import sys
import termios
import time
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from types import TracebackType

import pexpect
import pyte

import leafturn
import leafturn_tui

SOURCES = os.pathsep.join({str(Path(m.__file__ or "").parents[1]) for m in (leafturn, leafturn_tui)})
COMMAND = [sys.executable, "-m", "leafturn_tui.command_line"]

# Starts the command as its script does; a signal comes while a module is found or, as in it, a class is made.
_SIGNALLED = """
import os, signal, sys

class Signals:
    def __set_name__(self, owner, name):
        os.kill(os.getpid(), int(sys.argv[1]))

class Finder:
    def find_spec(self, name, path=None, target=None):
        if name == sys.argv[2]:
            if sys.argv[3] == "found":
                Signals().__set_name__(None, "")
            else:
                type("Made", (), {"it": Signals()})

sys.meta_path.insert(0, Finder())
from leafturn_tui.command_line import main
sys.exit(main(sys.argv[4:]))
"""
# To be followed by the signal, the module, `found` or `a_class_made`, and the words of the command.
SIGNALLED_WHILE_LOADING = [sys.executable, "-c", _SIGNALLED]

KEYS = {
    "enter": "\r",
    "space": " ",
    "escape": "\x1b",
    "tab": "\t",
    "up": "\x1b[A",
    "down": "\x1b[B",
    "right": "\x1b[C",
    "left": "\x1b[D",
    "home": "\x1b[H",
    "end": "\x1b[F",
    "pageup": "\x1b[5~",
    "pagedown": "\x1b[6~",
    "backspace": "\x7f",
    "ctrl+c": "\x03",
}

IN, OUT = b"\x1b[?1049h", b"\x1b[?1049l"  # the alternate screen is taken, and left
ITS_FIRST_QUESTION = b"\x1b[?2026$p"  # Textual asks the terminal for synchronised output once it has taken it


def environment(extra: Mapping[str, str] | None = None) -> dict[str, str]:
    """What the program runs with: these sources, and no colour if none is asked for."""
    left_out = ("NO_COLOR", "COLORTERM", "FORCE_COLOR", "COLUMNS", "LINES")
    kept = {k: v for k, v in os.environ.items() if k not in left_out}
    look = {} if extra and "COLORTERM" in extra else {"LEAFTURN_LOOK": "none"}
    return (
        kept
        | look
        | {"TERM": "xterm-256color", "PYTHONPATH": SOURCES, "LANG": "C.UTF-8", "LEAFTURN_GLYPHS": "full"}
        | dict(extra or {})
    )


class Shown:
    """A screen as a person reads it, wherever its lines come from."""

    @property
    def lines(self) -> list[str]:
        """The screen line by line."""
        raise NotImplementedError

    @property
    def text(self) -> str:
        """The whole screen."""
        return "\n".join(self.lines)

    def tells(self, words: str | Callable[[str], bool]) -> bool:
        """Whether the screen holds some words, wherever its lines break, or a test of it is true."""
        if callable(words):
            return words(self.text)
        return words in self.text or words in " ".join(self.text.split())

    def row(self, holding: str) -> str:
        """The first line that holds some words."""
        found = next((line for line in self.lines if holding in line), None)
        assert found is not None, f"{holding!r} is not on the screen:\n{self.text}"
        return found


class Terminal(Shown):
    """The program in a pseudo-terminal.

    Parameters
    ----------
    words : list of str
        The words after `leafturn`.
    size : (int, int)
        Columns and lines.
    env : mapping, optional
        Further environment variables.
    cwd : Path, optional
        Where it runs.
    command : sequence of str
        What is run; `leafturn` unless told otherwise.
    """

    def __init__(
        self,
        words: list[str],
        *,
        size: tuple[int, int] = (80, 24),
        env: Mapping[str, str] | None = None,
        cwd: Path | None = None,
        command: Sequence[str] = COMMAND,
    ) -> None:
        columns, lines = size
        self.screen = pyte.Screen(columns, lines)
        self._stream = pyte.ByteStream(self.screen)
        self.bytes = b""
        self._opens_pages = command is COMMAND
        self.child = pexpect.spawn(
            command[0],
            [*command[1:], *words],
            dimensions=(lines, columns),
            env=environment(env),  # type: ignore[arg-type]
            cwd=str(cwd) if cwd else None,
            timeout=60,
        )

    def __enter__(self) -> Terminal:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.child.close(force=True)

    # ---- seeing ------------------------------------------------------------------------------

    @property
    def lines(self) -> list[str]:
        """The screen line by line."""
        return [line.rstrip() for line in self.screen.display]

    def read(self, seconds: float = 0.05) -> bool:
        """Take in what the program has written; tell whether there was anything."""
        try:
            data = self.child.read_nonblocking(65536, timeout=seconds)
        except pexpect.TIMEOUT:
            return False
        except pexpect.EOF:
            return False
        self.bytes += data
        self._stream.feed(data)
        return True

    def settle(self, quiet: float = 0.25, most: float = 20.0) -> None:
        """Read until nothing more comes for a moment."""
        end = time.monotonic() + most
        while time.monotonic() < end and self.read(quiet):
            pass

    def wait_for(self, words: str | Callable[[str], bool], most: float = 60.0) -> None:
        """Read until the screen tells some words, or a test of it is true."""
        end = time.monotonic() + most
        while time.monotonic() < end:
            if self.tells(words):
                return
            self.read(0.1)
        raise AssertionError(f"waited for {words!r} in vain; the screen:\n{self.text}")

    def until_open(self) -> None:
        """Read until the pages have taken the terminal over from the first picture."""
        self.wait_for(lambda _: ITS_FIRST_QUESTION in self.bytes)
        self.settle()

    # ---- doing -------------------------------------------------------------------------------

    def press(self, *keys: str) -> None:
        """Press keys, by name or as they are typed, one at a time, and let the screen settle.

        Keys typed before the pages are there come at once, and an Esc would be taken for part of the next.
        """
        if self._opens_pages:
            self.until_open()
        for key in keys:
            self.child.send(KEYS.get(key, key))
            self.settle(0.15)

    def type(self, text: str) -> None:
        """Type text quickly."""
        self.child.send(text)
        self.settle()

    def paste(self, text: str) -> None:
        """Paste as terminals do (bracketed)."""
        self.child.send(f"\x1b[200~{text}\x1b[201~")
        self.settle()

    def resize(self, columns: int, lines: int) -> None:
        """Give the window another size."""
        self.screen.resize(lines, columns)
        self.child.setwinsize(lines, columns)
        self.settle()

    def leave(self, key: str = "q") -> int:
        """Leave; the exit status."""
        self.child.send(KEYS.get(key, key))
        end = time.monotonic() + 30
        while time.monotonic() < end and self.child.isalive():
            self.read(0.1)
        self.settle(0.1)
        self.child.close()
        status = self.child.exitstatus
        return -int(self.child.signalstatus or 0) if status is None else int(status)

    def until_over(self) -> int | None:
        """Read until the program has ended; its status."""
        end = time.monotonic() + 30
        while time.monotonic() < end and self.child.isalive():
            self.read(0.1)
        self.settle(0.1)
        status = self.child.exitstatus
        return None if status is None else int(status)

    @property
    def echoes(self) -> bool:
        """Whether the terminal shows what is typed and takes it by lines, as a shell wants it."""
        flags = termios.tcgetattr(self.child.fileno())[3]
        return bool(flags & termios.ECHO and flags & termios.ICANON and flags & termios.ISIG)

    def kill(self) -> None:
        """End it as a power cut would."""
        self.child.kill(signal.SIGKILL)
        self.child.wait()
