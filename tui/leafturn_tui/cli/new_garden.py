"""The command `leafturn new`: a garden file to begin with."""

from __future__ import annotations

import argparse
import datetime as dt
import os
import shlex
import sys
from collections.abc import Callable
from pathlib import Path

from leafturn.base.faults import Fault, Unreadable, clipped
from leafturn.garden.beginning.answers import frost_typed, region_typed
from leafturn.garden.beginning.first_file import Beginning
from leafturn.garden.reading.degrees import Which, degrees_in
from leafturn.garden.reading.file import GARDEN_FILE
from leafturn_tui.cli.arguments import Parser, day_of, parser_for
from leafturn_tui.cli.beginning import begin_plainly
from leafturn_tui.cli.statuses import FINE
from leafturn_tui.notes import NotUnderstood, plainly
from leafturn_tui.notes.beginning import first_text, write_garden
from leafturn_tui.safe_text import safe_text

ABOUT = """\
Begin a garden: asked for in the pages, or with --no-pages in plain lines, and written as a garden file into a
folder of its own. With words, as --lat 46.9, it is written at once. Nothing is ever overwritten.
"""
FLAGS = ("name", "lat", "lon", "region", "last_frost", "first_frost")
MOST: dict[Which, tuple[str, int, str]] = {
    "lat": ("latitude", 90, "46.9 or 42 S"),
    "lon": ("longitude", 180, "15.9 or 71 W"),
}


def new(words: list[str], today: dt.date, ask: Callable[[Path, dt.date | None], int] | None = None) -> int:
    """`leafturn new FOLDER`. With words it is written at once; without, `ask` asks for what is needed.

    Parameters
    ----------
    words : list of str
        After the command's name.
    today : date
    ask : callable, optional
        Asks in the pages for a garden in a folder and opens it on a day, where one was asked for; its status.
    """
    parser = parser_for("new", ABOUT, garden=False)
    parser.add_argument("folder", metavar="FOLDER", help="where to; made if it is not there")
    parser.add_argument("--name", help="what the place is called")
    parser.add_argument("--lat", help="latitude in degrees; south is negative")
    parser.add_argument("--lon", help="longitude in degrees; west is negative")
    parser.add_argument("--region", help="the country, state or continent")
    parser.add_argument("--last-frost", metavar="MM-DD", help='usual last frost, "never" or "1 year in 5"')
    parser.add_argument("--first-frost", metavar="MM-DD", help="usual first frost of autumn, likewise")
    parser.add_argument("--no-pages", action="store_true", help="ask in plain lines")
    given = parser.parse_args(
        [_plain_minus(before, word) for before, word in zip(["", *words], words, strict=False)]
    )
    asked = day_of(given.on, parser, today) if given.on else None
    file = Path(given.folder) / GARDEN_FILE
    if os.path.lexists(file):
        raise Unreadable(Fault(file=str(file), line=None, message="is there already; nothing was written."))
    if sys.stdin.isatty() and not any(getattr(given, flag) for flag in FLAGS):
        status = begin_plainly(file.parent) if given.no_pages or ask is None else ask(file.parent, asked)
        return told(file.parent) if file.exists() else status
    beginning = _from_words(given, parser)
    try:
        write_garden(first_text(beginning, file.parent), "", file.parent)
    except NotUnderstood as why:
        raise Unreadable(Fault(file=str(file), line=None, message=str(why))) from why
    print("Add your plants to it: leafturn add, or a on the page Plants.")
    return told(file.parent)


def told(folder: Path) -> int:
    """Say where the file lies, what is still odd in it, and how the garden is opened."""
    from leafturn.assembly.sources import read_sources

    for fault in read_sources(folder / GARDEN_FILE).faults:
        print(safe_text(fault.sentence(), limit=2000), file=sys.stderr)
    print(f"A garden file is now in {safe_text(str(folder / GARDEN_FILE))}.")
    print(f"Open it with: leafturn {safe_text(shlex.quote(str(folder)))}")
    return FINE


def _plain_minus(before: str, word: str) -> str:
    """A latitude such as "-43.4" with a minus sign that is not taken for the dash of an option."""
    return f"−{word[1:]}" if before in ("--lat", "--lon") and word.startswith("-") else word


def _from_words(given: argparse.Namespace, parser: Parser) -> Beginning:
    """A beginning from the words of the command."""
    try:
        with plainly():
            return Beginning(
                name=given.name or "",
                lat=_degrees("lat", given.lat or ""),
                lon=_degrees("lon", given.lon) if given.lon else None,
                region=region_typed(given.region or ""),
                last_frost=frost_typed(given.last_frost) if given.last_frost else "",
                first_frost=frost_typed(given.first_frost) if given.first_frost else "",
            )
    except NotUnderstood as why:
        parser.error(str(why))


def _degrees(key: Which, text: str) -> float:
    word, most, example = MOST[key]
    if not text:
        raise NotUnderstood(f"a {word} is needed, such as --{key} 46.9 (south is negative, or --lat 42S)")
    degrees = degrees_in(text, key)
    if degrees is None or abs(degrees) > most:
        raise NotUnderstood(
            f"{clipped(text)!r} is no {word}; write degrees from -{most} to {most}, such as {example}"
        )
    return degrees
