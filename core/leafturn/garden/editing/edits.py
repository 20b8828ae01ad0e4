"""An edit of a garden file: what becomes of it, told line by line, and written whole."""

from __future__ import annotations

import difflib
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from leafturn.base.value import Value
from leafturn.files.reading import real_path
from leafturn.files.writing import ready_to_write
from leafturn.garden.reading.file import bytes_of


class NotTaken(ValueError):
    """What was typed or asked for cannot be taken; the message is one plain sentence."""


class TooUnusual(NotTaken):
    """A file written in a way that is not changed here; `lines` are those to put in by hand."""

    def __init__(self, lines: tuple[str, ...], where: str) -> None:
        super().__init__(f"This file is written in a way that only a hand can change. Write {where}:")
        self.lines = lines


class EditedLine(Value):
    """A line of a file before and after an edit, None where there was or is none; `number` counts from 1."""

    number: int
    was: str | None
    now: str | None


class Edit(Value):
    """What becomes of a garden file.

    Parameters
    ----------
    file : Path
    before, after : bytes
        The whole file.
    about : str
        Id of the plant or heap it is about.
    """

    file: Path
    before: bytes
    after: bytes
    about: str

    def undone(self) -> Edit:
        """The edit that takes this one back."""
        return Edit(file=self.file, before=self.after, after=self.before, about=self.about)

    def lines(self) -> tuple[EditedLine, ...]:
        """The lines that differ, blank ones left out.

        They are numbered as they stand in the new file; those that go, as in the old.
        """
        was, now = (data.decode("utf-8").split("\n") for data in (self.before, self.after))
        return tuple(line for line in _different(was, now) if line.was or line.now)

    def write(self) -> None:
        """Put the new file in place of the old, whole; a link stays, and what it leads to is replaced.

        Raises
        ------
        NotTaken
            If the file is no longer as it was when the edit was made; nothing is then written.
        OSError
            If the disk does not take it; the file is then as it was.
        """
        with self.ready() as put:
            put()

    @contextmanager
    def ready(self) -> Iterator[Callable[[], None]]:
        """The new file on the disk beside the old one, whose place it takes once what is given is called.

        For a note of the same act: it is written between the two, so that the file is not changed without
        it, and hardly anything can be in the file's way any more. Errors are those of `write`.
        """
        self._require_unchanged()
        real = real_path(self.file)
        with ready_to_write(real.parent, real.name, self.after) as place:

            def put() -> None:
                self._require_unchanged()
                place()

            yield put

    def _require_unchanged(self) -> None:
        if bytes_of(self.file) != self.before:
            raise NotTaken(f"{self.file.name} has changed meanwhile; nothing was written.")


def _different(was: list[str], now: list[str]) -> Iterator[EditedLine]:
    """The lines that differ. What is the same at both ends is left out first: most of the file is."""
    start = _common(was, now)
    most = min(len(was), len(now)) - start
    end = next((n for n in range(most) if was[-1 - n] != now[-1 - n]), most)
    old, new = was[start : len(was) - end], now[start : len(now) - end]
    for what, a, b, c, d in difflib.SequenceMatcher(None, old, new, autojunk=False).get_opcodes():
        for n in range(max(b - a, d - c) if what != "equal" else 0):
            gone, come = a + n < b, c + n < d
            yield EditedLine(
                number=start + (c if come else a) + n + 1,
                was=old[a + n].rstrip("\r") if gone else None,
                now=new[c + n].rstrip("\r") if come else None,
            )


def _common(was: list[str], now: list[str]) -> int:
    """How many lines are the same at the beginning."""
    most = min(len(was), len(now))
    return next((n for n in range(most) if was[n] != now[n]), most)
