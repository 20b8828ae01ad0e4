"""Answers as commands gave them, kept so that the same words asked again are answered at once.

An answer without faults follows from the words, the day, and the files that it rests on, and from nothing
else; so one that was kept (`files/resting.py`) is given again only while all of these are the same to the
last byte, and the program is the same too. A fault may lie elsewhere, as in what is not there. An answer is
looked for before the modules are loaded that would make it anew.
"""

from __future__ import annotations

import datetime as dt
import os
import sys
from collections.abc import Callable, Iterable, Iterator, Sequence
from pathlib import Path

import leafturn
import leafturn_tui
from leafturn.files.resting import keep_resting, place_of, resting

FOLDER = "leafturn/answers"


def answered_before(words: Sequence[str], today: dt.date) -> str | None:
    """What was answered to just these words, if nothing has changed since."""
    kept = _place(words)
    if kept is None or not kept.exists():
        return None
    found = resting(kept, _made_for(words, today))
    return None if found is None else found.decode("utf-8", "surrogatepass")


def keep_answer(
    answer: str, words: Sequence[str], today: dt.date, read: Iterable[Path], still: Callable[[], bool]
) -> None:
    """Keep an answer; where that cannot be done nothing is kept, and nothing is said.

    Parameters
    ----------
    words : sequence of str
        What was typed after `leafturn`.
    today : date
        That of the clock.
    read : iterable of Path
        Every file and folder that the answer rests on, there or not.
    still : callable
        Whether they are still those that it was made from.
    """
    if kept := _place(words):
        keep_resting(kept, _made_for(words, today), answer.encode("utf-8", "surrogatepass"), read, still)


def _place(words: Sequence[str]) -> Path | None:
    try:
        return place_of(FOLDER, *_asked(words))
    except OSError:  # the folder in which it is asked has gone
        return None


def _asked(words: Sequence[str]) -> list[bytes]:
    """Words with the folder in which they were typed, as they may name files in it."""
    return [os.getcwdb(), *(word.encode("utf-8", "surrogatepass") for word in words)]


def _made_for(words: Sequence[str], today: dt.date) -> list[bytes]:
    """What decides an answer beside the files of gardens."""
    return [*_asked(words), today.isoformat().encode(), *_program()]


def _program() -> Iterator[bytes]:
    """What tells one state of the program from another: Python, and size and time of each of its files."""
    yield sys.version.encode()
    for package in (leafturn, leafturn_tui):
        for folder, below, names in os.walk(package.__path__[0]):
            below[:] = sorted(one for one in below if one != "__pycache__")
            for name in sorted(names):
                stat = os.stat(os.path.join(folder, name))
                yield f"{name} {stat.st_size} {stat.st_mtime_ns}".encode()
