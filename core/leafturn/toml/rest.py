"""Reading the rest of a TOML text round a slip, so that one line does not hide a whole garden.

What a line with a slip plainly means is read (`meant.py`). Any other slip costs its line, or where the lines
after it hang on it, its table; nothing is moved to another table, and what lies in a long text that is never
closed is not guessed.
"""

from __future__ import annotations

import re
from collections.abc import Collection
from typing import Any

from msgspec.structs import replace

from leafturn.base.faults import Fault, Unreadable, clipped
from leafturn.base.patterns import pattern
from leafturn.base.value import Value
from leafturn.files.letters import each_line_in_utf8
from leafturn.toml.guard import CONTROL, decode_toml, parse_toml
from leafturn.toml.meant import line_meant, name_in_heading, names_of_lists, one_of_many
from leafturn.toml.messages import MERGE_MARK

WESTERN_SAID = "Such lines are read as Windows-1252, as Western editors of old save."
LINE_ENDS_SAID = "It is read as the end of a line, wherever it stands."
PASSED_OVER_SAID = "All such are passed over."
MOST_SLIPS = 10  # of more, a file is not read at all: nobody can say what it means; a guess

_HEADER = pattern(r"[ \t]*\[\[?[ \t]*[A-Za-z]")
_MERGE_MARK = pattern(MERGE_MARK, re.MULTILINE)
_LONG_TEXT = pattern(r"\"\"\"|'''")


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


def parse_round_slips(data: bytes, file: str, lists: Collection[str] = ()) -> TomlRest:
    """Read TOML, leaving out as little as slips in it demand.

    Parameters
    ----------
    data : bytes
        The file as it lies on disk.
    file : str
        Its name, for faults.
    lists : collection of str
        Names of tables that come in lists: where one heading of such has one pair of brackets and that is
        no TOML, all are read as if they had two.

    Raises
    ------
    Unreadable
        As `parse_toml`, with the first slip, where the rest cannot be told from it.
    """
    slips: list[Fault] = []
    faults: list[Fault] = []
    for what, put_right in _PUT_RIGHT:
        try:
            decode_toml(data, file)
            break
        except Unreadable as why:
            if (right := put_right(data)) != data:
                data = right
                slips.append(why.fault)
                faults.append(replace(why.fault, message=f"{why.fault.message} {what}"))
    text = decode_toml(data, file)
    while True:
        read = _read(text, file)
        if not isinstance(read, Fault):
            return TomlRest(read, text, tuple(slips), tuple(faults))
        lists = names_of_lists(text).union(lists)
        slip = _with_one_bracket(read, text, lists)
        slips.append(slip)
        mended = (
            None if slip.line is None or len(faults) == MOST_SLIPS else _mended(text, file, slip.line, lists)
        )
        if mended is None:
            raise Unreadable(slips[0])
        text, said = mended
        faults.append(replace(slip, message=f"{slip.message} {said}"))


def _with_lines_ended(data: bytes) -> bytes:
    """The same with the line ends of other systems, or those that were made twice, as they are in TOML."""
    return re.sub(rb"\r+\n?", b"\n", data)


def _without_control_characters(data: bytes) -> bytes:
    """The same without what a failing disk, or an editor for print, leaves; UTF-8 has them for no letter."""
    line_ends = data.replace(b"\r\n", b"\n").decode("latin-1")
    return CONTROL.sub("", line_ends).encode("latin-1")


# What a file that is no text may have, in the order in which `decode_toml` refuses it.
_PUT_RIGHT = (
    (WESTERN_SAID, each_line_in_utf8),
    (LINE_ENDS_SAID, _with_lines_ended),
    (PASSED_OVER_SAID, _without_control_characters),
)


def _read(text: str, file: str) -> dict[str, Any] | Fault:
    """The tables of a text, or the first thing in it that is no TOML."""
    try:
        return parse_toml(text.encode(), file)
    except Unreadable as why:
        return why.fault


def _with_one_bracket(slip: Fault, text: str, lists: Collection[str]) -> Fault:
    """The same; but a fault of tables of which some have one pair of brackets names the first of these."""
    if slip.line is None:
        return slip
    lines = text.split("\n")
    there = lines[slip.line - 1]
    name = name_in_heading(there) if _HEADER.match(there) else ""
    for number, written in enumerate(lines[: slip.line], start=1) if name else ():
        if one_of_many(written, lists) == name:
            said = f"[{name}] has one pair of brackets, and tables that come in lists have two."
            return replace(slip, line=number, message=said, hint=f"Write [[{name}]]")
    return slip


def _mended(text: str, file: str, line: int, lists: Collection[str]) -> tuple[str, str] | None:
    """The text without the slip on a line, and what was done about it; None where that would be a guess."""
    lines = text.split("\n")
    written = lines[line - 1]
    if _LONG_TEXT.search(written):
        return None
    if _MERGE_MARK.match(written):
        return _MERGE_MARK.sub("", text), "Both sides are read."
    if (name := one_of_many(written, lists)) is not None:
        whole = [f"[[{name}]]" if one_of_many(each, lists) == name else each for each in lines]
        return "\n".join(whole), f"It is read as [[{name}]], wherever it stands."
    if (meant := line_meant(written)) is not None:
        return _with(lines, line, meant), f"It is read as {clipped(meant)}."
    if not _HEADER.match(written):
        without = _with(lines, line, "")
        after = _read(without, file)
        if not isinstance(after, Fault) or after.line is None or not _same_table(lines, line, after.line):
            return without, "The line is left out, the rest is read."
    return _without_table(lines, line)


def _with(lines: list[str], line: int, written: str) -> str:
    return "\n".join([*lines[: line - 1], written, *lines[line:]])


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
