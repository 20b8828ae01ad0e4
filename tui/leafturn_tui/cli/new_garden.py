"""The command `leafturn new`: a garden file to begin with."""

from __future__ import annotations

import argparse
import datetime as dt
import sys
from pathlib import Path

from leafturn.base.faults import Fault, Unreadable
from leafturn.garden.reading.degrees import Which, degrees_in
from leafturn.garden.reading.frost_dates import month_and_day, share_of_years
from leafturn_tui.cli.arguments import FINE, parser_for
from leafturn_tui.safe_text import safe_text

ABOUT = """\
Write a garden file to begin with, in a folder of its own. Nothing is ever overwritten. What is left out is
asked for at a terminal; a latitude is enough, the two frost dates make every date surer.
"""
FILE = "garden.toml"
QUESTIONS = {
    "lat": "Latitude, such as 46.9 or 42 S: ",
    "lon": "Longitude, such as 15.9 or 71 W: ",
    "last_frost": "Usual last frost of spring, such as 04-24, or never (empty if you do not know): ",
    "first_frost": "Usual first frost of autumn, such as 10-16, or never (empty if you do not know): ",
}
MOST: dict[Which, tuple[str, int, str]] = {
    "lat": ("latitude", 90, "46.9 or 42 S"),
    "lon": ("longitude", 180, "15.9 or 71 W"),
}
BEFORE = "# Yours alone: leafturn reads this file and never writes it again.\n\n"
AFTER = """
# A plant needs only its kind; every further line makes its dates and partners surer.
#
# [[plant]]
# id = "pear-1"
# kind = "pear"
# cultivar = "Comice"
# year = 2012
# at = "5 m north of gate"
#
# [[heap]]
# id = "bay-1"
# stage = "filling"
"""


def new(words: list[str], today: dt.date) -> int:
    """`leafturn new FOLDER`."""
    parser = parser_for("new", ABOUT, garden=False)
    parser.add_argument("folder", metavar="FOLDER", help="where to; made if it is not there")
    parser.add_argument("--name", help="what the place is called")
    parser.add_argument("--lat", help="latitude in degrees; south is negative")
    parser.add_argument("--lon", help="longitude in degrees; west is negative")
    parser.add_argument("--last-frost", metavar="MM-DD", help='usual last frost, "never" or "1 year in 5"')
    parser.add_argument("--first-frost", metavar="MM-DD", help="usual first frost of autumn, likewise")
    given = parser.parse_args(
        [_plain_minus(before, word) for before, word in zip(["", *words], words, strict=False)]
    )
    file = Path(given.folder) / FILE
    if file.exists() or file.is_symlink():
        raise Unreadable(Fault(file=str(file), line=None, message="is there already; nothing was written."))
    place = _place(given, parser)
    _write(file, _text(place))
    from leafturn.assembly.sources import read_sources

    for fault in read_sources(file).faults:
        print(safe_text(fault.sentence(), limit=2000), file=sys.stderr)
    print(f"A garden file is now in {safe_text(str(file))}: add your plants to it, a kind for each.")
    print(f"Open it with: leafturn {safe_text(given.folder)}")
    return FINE


def _plain_minus(before: str, word: str) -> str:
    """A latitude such as "-43.4" with a minus sign that is not taken for the dash of an option."""
    return f"−{word[1:]}" if before in ("--lat", "--lon") and word.startswith("-") else word


class _Odd(ValueError):
    """An answer that is not understood; the message says what to write."""


def _place(given: argparse.Namespace, parser: argparse.ArgumentParser) -> dict[str, str | float]:
    """What stands under [place]; each value is checked as it is given, and asked again where it is odd."""
    place: dict[str, str | float] = {"name": given.name} if given.name else {}
    asked = sys.stdin.isatty() and given.lat is None
    for key in QUESTIONS:
        try:
            value = _value(key, getattr(given, key) or "")
        except _Odd as why:
            parser.error(str(why))
        if value is None and asked:
            value = _answer(key)
        if value is not None:
            place[key] = value
    if "lat" not in place:
        parser.error("a latitude is needed, such as --lat 46.9 (south is negative, or --lat 42S)")
    return place


def _answer(key: str) -> str | float | None:
    """What is typed to a question, asked again until it is understood; None for an empty line."""
    while True:
        print(QUESTIONS[key], end="", flush=True)
        line = sys.stdin.readline()
        try:
            value = _value(key, line)
        except _Odd as why:
            print(f"{str(why)[:1].upper()}{str(why)[1:]}.")
            continue
        if value is not None or key != "lat" or not line:
            return value


def _value(key: str, text: str) -> str | float | None:
    """An answer as the garden file holds it; None where it is empty.

    Raises
    ------
    _Odd
        If it is not understood.
    """
    text = text.strip()
    if not text:
        return None
    which: Which | None = next((one for one in MOST if one == key), None)
    return _frost(text) if which is None else _degrees(which, text)


def _degrees(key: Which, text: str) -> float:
    word, most, example = MOST[key]
    degrees = degrees_in(text, key)
    if degrees is None or abs(degrees) > most:
        raise _Odd(f"{text!r} is no {word}; write degrees from -{most} to {most}, such as {example}")
    return degrees


def _frost(text: str) -> str:
    if share_of_years(text) is not None:
        return " ".join(text.lower().split())
    day = month_and_day(text)
    if day is None:
        raise _Odd(
            f'{text!r} is no month and day; write them as 04-24 or 24 April, or "never", or "1 year in 5"'
        )
    return day


def _text(place: dict[str, str | float]) -> str:
    import tomli_w

    return BEFORE + tomli_w.dumps({"place": place}) + AFTER


def _write(file: Path, text: str) -> None:
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        with file.open("x", encoding="utf-8") as new_file:
            new_file.write(text)
    except OSError as why:
        message = f"cannot be written ({why.strerror or why})."
        raise Unreadable(Fault(file=str(file), line=None, message=message)) from why
