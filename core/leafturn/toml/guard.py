"""Reading TOML within limits: hostile or broken text is refused in one plain sentence with its line."""

from __future__ import annotations

import math
import re
import tomllib
from collections.abc import Iterator
from typing import Any, NoReturn

from msgspec.structs import replace

from leafturn.base.faults import Fault, Unreadable, clipped
from leafturn.base.patterns import pattern
from leafturn.toml.messages import (
    MOST_DOTS_IN_A_KEY,
    TEXT_OR_COMMENT,
    TOKEN,
    in_plain_words,
    line_at,
    quote_hint,
    text_of_line,
)
from leafturn.toml.positions import Steps, TomlLines

# Limits chosen here (guesses, generous): a garden of 5,000 plants or a journal of 20,000 entries passes.
# They bound the work: tomllib needs a gigabyte for some forty kilobytes of dotted keys.
MOST_BYTES = 4_000_000
LONGEST_LINE = 20_000
DEEPEST_BRACKETS = 20
MOST_DOTS = 100_000
MOST_BRACKETS = 120_000
MOST_VALUES = 400_000

_LARGEST_WHOLE_NUMBER = 2**63 - 1  # TOML 1.0, "Integer": 64 bits

CONTROL = pattern(r"[\x00-\x08\x0b-\x1f\x7f]")  # TOML 1.0 allows none of these anywhere


def decode_toml(data: bytes, file: str) -> str:
    """The text of a TOML file with LF line ends and no byte order mark.

    Parameters
    ----------
    data : bytes
        The file as it lies on disk.
    file : str
        Its name, for the fault.

    Raises
    ------
    Unreadable
        If it is too large, not UTF-8, or uses lone carriage returns.
    """
    if len(data) > MOST_BYTES:
        _refuse(
            file,
            None,
            f"The file holds {len(data):,} bytes; {MOST_BYTES:,} is the most that is read.",
        )
    if data and not data.strip(b"\0"):
        said = "The file holds nothing but zero bytes, as disks leave it where the power failed."
        _refuse(file, None, said, "Put a copy of it in its place.")
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        _refuse(file, 1, "The file is saved as UTF-16.", "Save it again as UTF-8 text.")
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        wrong = data[error.start]
        _refuse(
            file,
            line,
            f"This line holds a byte (0x{wrong:02x}) that is not UTF-8.",
            "Save the file as UTF-8 text.",
        )
    text = text.removeprefix("\ufeff").replace("\r\n", "\n")
    lone = text.find("\r")
    if lone >= 0:
        _refuse(
            file,
            line_at(text, lone),
            "This line holds a carriage return without a line feed.",
            "Save the file with ordinary line ends (LF or CRLF).",
        )
    control = CONTROL.search(text)
    if control is not None:
        _refuse(
            file,
            line_at(text, control.start()),
            f"This line holds a control character (0x{ord(control[0]):02x}).",
            "Delete it.",
        )
    return text


def parse_toml(data: bytes, file: str, first_line: int = 1) -> dict[str, Any]:
    """Read TOML, refusing what is broken or built to exhaust the machine.

    Parameters
    ----------
    data : bytes
        The file as it lies on disk: UTF-8, with or without a byte order mark, LF or CRLF.
    file : str
        Its name, for the fault.
    first_line : int
        The line of the file that `data` begins on, where it is a piece of one.

    Returns
    -------
    dict
        The tables. Every number in them is finite and every whole number fits 64 bits.

    Raises
    ------
    Unreadable
        With one fault that names the line and what to write instead. Nothing else is raised,
        whatever the bytes.
    """
    try:
        return _parsed(data, file, first_line)
    except Unreadable as unreadable:
        fault = unreadable.fault
        if fault.line is None or first_line == 1:
            raise
        raise Unreadable(replace(fault, line=fault.line + first_line - 1)) from None


def _parsed(data: bytes, file: str, first_line: int) -> dict[str, Any]:
    """The tables; a fault names its line counted from the beginning of `data`."""
    text = decode_toml(data, file)
    _check_bulk(text, file)
    _check_shape(text, file)
    try:
        tables = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise Unreadable(in_plain_words(text, str(error), file, first_line)) from None
    except ValueError:
        # Python refuses to convert a decimal number of more than 4,300 digits.
        _refuse(file, _line_of_longest_number(text), "This line holds a number of thousands of digits.")
    except RecursionError:
        _refuse(file, None, "Brackets or dots lie too deep in one another.")
    for path, wrong in _odd_numbers(tables, ()) if _holds_odd_number(tables) else ():
        _refuse(
            file,
            TomlLines(text).line_of(*path),
            f"{_name(path)} is {wrong}.",
            "Write an ordinary number, such as 4.5.",
        )
    return tables


def _refuse(file: str, line: int | None, message: str, hint: str = "") -> NoReturn:
    raise Unreadable(Fault(file=file, line=line, message=message, hint=hint))


def _check_bulk(text: str, file: str) -> None:
    """Refuse more dots, values, brackets or longer lines than a garden can need."""
    for mark, most, what in (
        (".", MOST_DOTS, "dots"),
        ("=", MOST_VALUES, "equals signs"),
        (",", MOST_VALUES, "commas"),
        ("[", MOST_BRACKETS, "brackets"),
        ("{", MOST_BRACKETS, "braces"),
    ):
        number = text.count(mark)
        if number > most:
            _refuse(file, None, f"The file holds {number:,} {what}; {most:,} is the most that is read.")
    start = 0
    while len(text) - start > LONGEST_LINE:
        end = text.rfind("\n", start, start + LONGEST_LINE + 1)
        if end < 0:
            _refuse(
                file,
                line_at(text, start),
                f"This line holds more than {LONGEST_LINE:,} characters.",
                "Break it into shorter lines.",
            )
        start = end + 1


def _check_shape(text: str, file: str) -> None:
    """Refuse deep brackets, long dotted keys, and quote marks without a partner."""
    depth = 0
    for token in TOKEN.finditer(text):
        kind = token.lastgroup
        if kind == "bracket":
            mark = token[0]
            if mark in "[{":
                depth += 1
                if depth > DEEPEST_BRACKETS:
                    _refuse(
                        file,
                        line_at(text, token.start()),
                        f"Brackets lie more than {DEEPEST_BRACKETS} deep in one another here.",
                        "Look above for a bracket that was not closed.",
                    )
            elif depth:
                depth -= 1
        elif kind == "dots":
            _refuse(
                file,
                line_at(text, token.start()),
                f"A name here has more than {MOST_DOTS_IN_A_KEY} dots.",
                "Put text in quote marks.",
            )
        elif kind == "open_long":
            _refuse(
                file,
                line_at(text, token.start()),
                f"The long text opened here with {token[0]} is never closed.",
                f"Put {token[0]} where it ends.",
            )
        elif kind == "open_short":
            line = line_at(text, token.start())
            _refuse(
                file,
                line,
                f"A quote mark ({token[0]}) has no partner on this line.",
                quote_hint(text_of_line(text, line)),
            )


def _line_of_longest_number(text: str) -> int | None:
    """Line of the first number too long for Python; digits in texts and comments do not count."""
    bare = TEXT_OR_COMMENT.sub(lambda found: "\n" * found[0].count("\n"), text)
    found = re.search(r"[0-9][0-9_]{4299,}", bare)
    return line_at(bare, found.start()) if found else None


def _holds_odd_number(tables: dict[str, Any]) -> bool:
    """Whether any number is not finite or does not fit 64 bits; quick, for it goes over every file."""
    waiting: list[Any] = [tables]
    while waiting:
        value = waiting.pop()
        if isinstance(value, dict):
            waiting.extend(value.values())
        elif isinstance(value, list):
            waiting.extend(value)
        elif isinstance(value, (int, float)) and not abs(value) <= _LARGEST_WHOLE_NUMBER:
            return True
    return False


def _odd_numbers(value: object, path: Steps) -> Iterator[tuple[Steps, str]]:
    """Numbers that are not finite or do not fit 64 bits: path, and what is wrong."""
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from _odd_numbers(inner, (*path, key))
    elif isinstance(value, list):
        for place, inner in enumerate(value):
            yield from _odd_numbers(inner, (*path, place))
    elif isinstance(value, float):
        if not math.isfinite(value):
            yield path, f"{value}, which is not a number to reckon with"
    elif isinstance(value, int) and abs(value) > _LARGEST_WHOLE_NUMBER:
        yield path, "a whole number of more than 64 bits"


def _name(path: Steps) -> str:
    keys = [step for step in path if isinstance(step, str)]
    return clipped(keys[-1]) if keys else "a value"
