"""What a trial is: the program does its work, a fault strikes, and what was acknowledged is counted."""

from __future__ import annotations

import datetime as dt
import io
import re
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from multiprocessing.connection import Connection
from pathlib import Path
from typing import Any

from leafturn.journal.entries import Entry, PlainNote
from leafturn.journal.store.store import Store
from leafturn_tui.command_line import main
from leafturn_tui.safe_text import safe_text
from tests.in_process import run
from tests.samples.garden_text import garden_text, plant

MOST_SAID = 700  # characters; a long line in a terminal, and no more
TODAY = dt.date(2027, 4, 19)
GARDEN = garden_text(plant("comice", "pear", at=[0, 0]), plant("plum", "european plum", at=[5, 0]))
_SENTENCE = re.compile(r"[.?!]['\")]*(?: |$)")


@dataclass
class Tally:
    """What came of a trial: how often the fault struck, how many notes were acknowledged, what went wrong."""

    tried: int = 0
    acknowledged: int = 0
    lost: int = 0
    wrong: int = 0  # notes read that were never written, or written otherwise
    unsaid: int = 0  # tracebacks, and refusals that are no sentence

    def add(self, other: Tally) -> None:
        """Take in what another one counted."""
        for name in self.__dataclass_fields__:
            setattr(self, name, getattr(self, name) + getattr(other, name))

    @property
    def clean(self) -> bool:
        """Whether nothing was lost, wrong or unsaid."""
        return not (self.lost or self.wrong or self.unsaid)


@dataclass(frozen=True)
class Trial:
    """A fault that is tried. `run` takes how often and a seed; `short` and `long` are how often."""

    name: str
    words: str
    run: Callable[[int, int], Tally]
    short: int
    long: int


@contextmanager
def small_garden(journal: bool = True) -> Iterator[Path]:
    """A garden of two plants in a folder of its own."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder).resolve() / "garden"
        path.mkdir()
        (path / "garden.toml").write_text(GARDEN)
        if journal:
            (path / "journal").mkdir()
        yield path


def note(garden: Path, words: str, today: dt.date = TODAY) -> str:
    """Note by the command; "kept", or what was said in refusal, or "TRACEBACK"."""
    try:
        done = run("note", str(garden), words, "--on", today.isoformat())
    except Exception as error:
        return f"TRACEBACK {error}"
    if done.returncode in (0, 1) and done.stdout.startswith("noted:"):
        return "kept"
    return (done.stderr or done.stdout).strip()


def is_sentence(said: str) -> bool:
    """Whether what is said is one plain line: a sentence, and after it perhaps what to write instead."""
    shown = safe_text(said, limit=10_000)  # as everything goes to a screen or a pipe
    return "\n" not in shown and len(shown) < MOST_SAID and bool(_SENTENCE.search(shown))


def kept(garden: Path) -> list[Entry]:
    """The notes as whoever opens the garden next reads them."""
    return list(Store(garden, patience=2).read().entries)


def texts(garden: Path) -> list[str]:
    """The texts of the plain notes."""
    return [entry.text or "" for entry in kept(garden) if isinstance(entry, PlainNote)]


def compared(acknowledged: list[str], found: list[str], written: set[str]) -> Tally:
    """What was acknowledged against what is found; `written` is all that was ever typed."""
    return Tally(
        acknowledged=len(acknowledged),
        lost=len(set(acknowledged) - set(found)),
        wrong=len([text for text in found if text not in written]) + len(found) - len(set(found)),
    )


def noting(garden: Path, prefix: str, most: int = 10_000) -> Callable[[Connection], None]:
    """What a child does: note by the command again and again, telling what was acknowledged."""

    def work(pipe: Connection) -> None:
        sys.stdout = sys.stderr = io.TextIOWrapper(io.BytesIO(), write_through=True)
        pipe.send("ready")
        for number in range(most):
            words = f"{prefix} note {number} of many"
            if main(["note", str(garden), words, "--on", TODAY.isoformat()], today=TODAY) in (0, 1):
                pipe.send(words)
        pipe.send(None)

    return work


def heard(pipe: Any) -> list[str]:
    """All that a child has told until it was silent for good."""
    told: list[str] = []
    try:
        while (word := pipe.recv()) is not None:
            if word != "ready":
                told.append(word)
    except (EOFError, OSError):
        pass
    return told
