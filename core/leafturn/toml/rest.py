"""Reading the rest of a TOML text round a slip, so that one line does not hide a whole garden.

Text that lacks its quote marks is read as if it had them. Any other slip costs its line, or where the lines
after it hang on it, its table; nothing is moved to another table, and what lies in a long text that is never
closed is not guessed.
"""

from __future__ import annotations

import re
import tomllib
from typing import Any

from msgspec.structs import replace

from leafturn.base.faults import Fault, Unreadable, clipped
from leafturn.base.value import Value
from leafturn.toml.guard import decode_toml, parse_toml
from leafturn.toml.messages import with_quotes

MOST_SLIPS = 10  # of more, a file is not read at all: nobody can say what it means; a guess

_HEADER = re.compile(r"[ \t]*\[\[?[ \t]*[A-Za-z]")
_LONG_TEXT = re.compile(r"\"\"\"|'''")


class TomlRest(Value, kw_only=False):
    """What could be read of a TOML text.

    Parameters
    ----------
    tables : dict
        As `parse_toml` gives them.
    text : str
        What they were read from: the file, with each line that was left out empty, so that lines keep their
        numbers.
    slips : tuple of Fault
        What is wrong, as `parse_toml` says it.
    faults : tuple of Fault
        The same, with what was left out or put right.
    """

    tables: dict[str, Any]
    text: str
    slips: tuple[Fault, ...] = ()
    faults: tuple[Fault, ...] = ()


def parse_round_slips(data: bytes, file: str) -> TomlRest:
    """Read TOML, leaving out as little as slips in it demand.

    Parameters
    ----------
    data : bytes
        The file as it lies on disk.
    file : str
        Its name, for faults.

    Raises
    ------
    Unreadable
        As `parse_toml`, with the first slip, where the rest cannot be told from it.
    """
    text = decode_toml(data, file)
    slips: list[Fault] = []
    faults: list[Fault] = []
    while True:
        slip = _read(text, file)
        if not isinstance(slip, Fault):
            return TomlRest(slip, text, tuple(slips), tuple(faults))
        slips.append(slip)
        mended = None if slip.line is None or len(faults) == MOST_SLIPS else _mended(text, file, slip.line)
        if mended is None:
            raise Unreadable(slips[0])
        text, said = mended
        faults.append(replace(slip, message=f"{slip.message} {said}"))


def _read(text: str, file: str) -> dict[str, Any] | Fault:
    """The tables of a text, or the first thing in it that is no TOML."""
    try:
        return parse_toml(text.encode(), file)
    except Unreadable as why:
        return why.fault


def _mended(text: str, file: str, line: int) -> tuple[str, str] | None:
    """The text without the slip on a line, and what was done about it; None where that would be a guess."""
    lines = text.split("\n")
    written = lines[line - 1]
    if _LONG_TEXT.search(written):
        return None
    if not _HEADER.match(written):
        meant = with_quotes(written.strip())
        if meant is not None and _is_toml(meant) and not _is_toml(written):
            return _with(lines, line, meant), f"It is read as {clipped(meant)}."
        without = _with(lines, line, "")
        after = _read(without, file)
        if not isinstance(after, Fault) or after.line is None or not _same_table(lines, line, after.line):
            return without, "The line is left out, the rest is read."
    return _without_table(lines, line)


def _with(lines: list[str], line: int, written: str) -> str:
    return "\n".join([*lines[: line - 1], written, *lines[line:]])


def _is_toml(written: str) -> bool:
    try:
        tomllib.loads(written)
    except ValueError:
        return False
    return True


def _header_of(lines: list[str], line: int) -> int:
    """The line of the header above a line, or on it; 0 where none stands there."""
    return next((n for n in range(line, 0, -1) if _HEADER.match(lines[n - 1])), 0)


def _same_table(lines: list[str], line: int, other: int) -> bool:
    return _header_of(lines, line) == _header_of(lines, min(other, len(lines)))


def _without_table(lines: list[str], line: int) -> tuple[str, str] | None:
    """The text without the table that holds a line; None where that is no table, or the place."""
    begin = _header_of(lines, line)
    name = lines[begin - 1].split("#")[0].strip() if begin else ""
    if not begin:
        return None
    end = next((n for n in range(begin + 1, len(lines) + 1) if _HEADER.match(lines[n - 1])), len(lines) + 1)
    rest = [*lines[: begin - 1], *[""] * (end - begin), *lines[end - 1 :]]
    return "\n".join(rest), f"{clipped(name, 40)} of line {begin} is left out, the rest is read."
