"""The commands within this process: what they print as bytes, and their status.

A command starts in half a second and answers in a few hundredths, so a suite of them is mostly starting.
That the program is one when it is started, the stories show. A garden asked several things is opened once,
as pages do it: an almanac never changes, and serves until one of its files has.
"""

from __future__ import annotations

import contextlib
import datetime as dt
import io
import os
import sys
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from subprocess import CompletedProcess
from unittest import mock

from leafturn.almanac import Almanac, open_almanac
from leafturn.base import quantities
from leafturn_tui.command_line import main
from tests.samples.places import DEMO, DEMO_DAY

MOST_OPEN = 8  # beside the demo on the day of its stories, which so many ask
THE_DEMO = (str(DEMO), DEMO_DAY)
_open: dict[tuple[str, str, dt.date], Almanac] = {}


def opened(path: str | Path, on: dt.date) -> Almanac:
    """A garden as `open_almanac` gives it: one of the last few again, if its files are as they were."""
    asked = (os.getcwd(), str(path), on)
    almanac = _open.pop(asked, None)
    if almanac is None or almanac.stale():
        almanac = open_almanac(path, on)
    _open[asked] = almanac
    others = [one for one in _open if one[1:] != THE_DEMO]
    if len(others) > MOST_OPEN:
        del _open[others[0]]
    quantities.speak(almanac.garden.place.units)
    return almanac


class _Pipe(io.TextIOWrapper):
    """A stream to a pipe, as a process has it."""

    def __init__(self) -> None:
        super().__init__(io.BytesIO(), encoding="utf-8", write_through=True)

    @property
    def written(self) -> bytes:
        self.flush()
        return self.buffer.getvalue()  # type: ignore[attr-defined,no-any-return]


@contextlib.contextmanager
def _stdin(words: str) -> Iterator[None]:
    before, sys.stdin = sys.stdin, io.TextIOWrapper(io.BytesIO(words.encode()), encoding="utf-8")
    try:
        yield
    finally:
        sys.stdin = before


def _asked_for(words: tuple[str, ...]) -> dt.date | None:
    given = [after for word, after in pairwise(words) if word == "--on"]
    try:
        return dt.date.fromisoformat(given[-1]) if given else None
    except ValueError:
        return None


def run_bytes(*words: str, cwd: Path | None = None, stdin: str = "") -> CompletedProcess[bytes]:
    """Run `leafturn` with these words, as on the day given with --on: the tests have no day of their own."""
    out, err = _Pipe(), _Pipe()
    with (
        contextlib.chdir(cwd or os.curdir),
        _stdin(stdin),
        contextlib.redirect_stdout(out),
        contextlib.redirect_stderr(err),
        mock.patch("leafturn.almanac.open_almanac", opened),
    ):
        status = main(list(words), today=_asked_for(words))
    return CompletedProcess(list(words), status, out.written, err.written)


def refused(*words: str, cwd: Path | None = None) -> str:
    """What is said of words that cannot be used: one sentence, with exit status 2."""
    done = run(*words, cwd=cwd)
    assert done.returncode == 2
    assert len(done.stderr.strip().splitlines()) == 1
    return done.stderr


def run(*words: str, cwd: Path | None = None, stdin: str = "") -> CompletedProcess[str]:
    """The same with what was printed as text."""
    done = run_bytes(*words, cwd=cwd, stdin=stdin)
    out, err = done.stdout.decode("utf-8"), done.stderr.decode("utf-8")
    assert "Traceback" not in out + err
    return CompletedProcess(done.args, done.returncode, out, err)
