"""The command `leafturn fleet`: the same questions asked of many gardens, answers written as they come."""

from __future__ import annotations

import argparse
import contextlib
import datetime as dt
import os
import signal
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from types import FrameType
from typing import cast

from leafturn.base.faults import clipped
from leafturn.files.writing import write_whole
from leafturn.fleet.engines import engine_of
from leafturn.fleet.forms import FORMS, Form, require
from leafturn.fleet.gardens import find_gardens
from leafturn.fleet.parts import Parts, Settings
from leafturn.fleet.run import Progress, ask_all
from leafturn.fleet.summary import Summary, summary
from leafturn.fleet.tables import QUESTIONS, Question
from leafturn_tui.cli.arguments import Parser, add_one_of, day_of, parser_for
from leafturn_tui.cli.statuses import FAULTS, FINE
from leafturn_tui.render.parts.fleet import lines, silent_lines
from leafturn_tui.render.parts.printed import printed
from leafturn_tui.safe_text import safe_text

ABOUT = """\
Ask many gardens for one day: what is due, who lacks a partner, what frost may take next week, and how
forecasts did. Answers are written to OUT as they come, as tables; a run that was stopped goes on where it
was. A garden that cannot be read is named, and the others are answered all the same.
"""
TERMINAL_SECONDS, PIPE_SECONDS = 0.5, 10.0  # between two lines on how far it is


def fleet(words: list[str], today: dt.date) -> int:
    """`leafturn fleet FOLDER_OR_LIST -o OUT`."""
    parser = _parser()
    given = parser.parse_args(words)
    on, questions = day_of(given.on, parser, today), _questions(given.ask, parser)
    if given.workers is not None and not 0 <= given.workers <= 1024:
        parser.error("--workers wants a number of processes, 0 for this one alone")
    workers = (os.cpu_count() or 1) if given.workers is None else given.workers
    form = cast(Form, given.format)
    require(form)
    gardens = find_gardens(Path(given.gardens), safe_text)
    settings = Settings(on=on, questions=questions, form=form)
    parts = Parts(Path(given.out), settings, time.monotonic, safe_text)
    with contextlib.closing(parts), _stoppable(), engine_of(workers, given.scheduler) as engine:
        progress = ask_all(gardens, settings, parts, engine, _telling())
        told = summary(parts, settings)
        _write_summary(Path(given.out), told)
    sys.stderr.write(printed(silent_lines(progress)))
    sys.stdout.write(printed(lines(progress, told, questions)))
    return FAULTS if progress.without_answers else FINE


def _parser() -> Parser:
    parser = parser_for("fleet", ABOUT, garden=False)
    help_text = "a folder with gardens below it, or a file with a garden's folder a line"
    parser.add_argument("gardens", metavar="FOLDER_OR_LIST", help=help_text)
    parser.add_argument("-o", "--out", metavar="OUT", required=True, help="the folder of the answers")
    help_text = f"only these, with commas between: {', '.join(QUESTIONS)} (default: all)"
    parser.add_argument("--ask", metavar="WHAT", default=",".join(QUESTIONS), help=help_text)
    add_one_of(parser, "--format", list(FORMS), "form of the tables (default: csv)", "csv")
    help_text = "processes on this machine (default: one a processor); 0: this one, without Dask"
    parser.add_argument("--workers", metavar="N", type=int, help=help_text)
    parser.add_argument("--scheduler", metavar="ADDRESS", help="a scheduler of Dask to ask by instead")
    return parser


def _questions(text: str, parser: argparse.ArgumentParser) -> tuple[Question, ...]:
    words = [word.strip() for word in text.split(",") if word.strip()]
    if strange := [word for word in words if word not in QUESTIONS]:
        parser.error(f"--ask knows {', '.join(QUESTIONS)}, not {clipped(strange[0])!r}")
    return tuple(question for question in QUESTIONS if question in words)


@contextlib.contextmanager
def _stoppable() -> Iterator[None]:
    """What ends the process from outside ends it as Ctrl-C does, so that what came is still written."""

    def stop(number: int, frame: FrameType | None) -> None:
        raise KeyboardInterrupt

    before = signal.signal(signal.SIGTERM, stop)
    try:
        yield
    finally:
        signal.signal(signal.SIGTERM, before)


def _telling() -> Callable[[Progress], None]:
    """Says on stderr how far it is: on one line at a terminal, else a line now and then."""
    at_terminal, begun = sys.stderr.isatty(), time.monotonic()
    every = TERMINAL_SECONDS if at_terminal else PIPE_SECONDS
    told = begun - every

    def tell(progress: Progress) -> None:
        nonlocal told
        now, whole = time.monotonic(), progress.done == progress.gardens
        if whole or now - told >= every:
            told = now
            said = _pace(progress, now - begun)
            print(f"\r{said}   " if at_terminal else said, end="\n" if whole or not at_terminal else "",
                  file=sys.stderr, flush=True)  # fmt: skip

    return tell


def _pace(progress: Progress, seconds: float) -> str:
    said = f"{progress.done} of {progress.gardens} gardens, {len(progress.without_answers)} without answers"
    if (asked := progress.done - progress.before) and seconds > 0:
        pace = asked / seconds
        said += f", {pace:.1f} a second"
        if left := progress.gardens - progress.done:
            minutes = left / pace / 60
            said += ", less than a minute left" if minutes < 1 else f", about {minutes:.0f} min left"
    return said


def _write_summary(out: Path, told: Summary) -> None:
    for name, columns, rows in told.tables():
        write_whole(out, f"summary/{name}.csv", FORMS["csv"].packed(columns, rows))
