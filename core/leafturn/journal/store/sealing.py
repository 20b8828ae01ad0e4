"""How a note is written so that one cut short can be told from a whole one.

The rule, in bytes:

* The tool opens each of its notes with exactly `OPENING` and closes it with the line `end = true`.
* A note with `begin = true` and no `end` was cut short; it is never taken for a note.
* A note without `begin` was written by hand, is complete as it stands, and needs no `end`.
* The tail of a file is torn if, from a line start on, it is (1) a beginning of `OPENING`, or (2) an
  `OPENING` with neither an `end` nor another table after it, or (3) a run of NUL bytes, as some file
  systems leave after a power cut, with whatever unfinished note stands before them.

Within a note the tool writes no line end inside a text and no line that begins with a bracket, so
every cut falls under one of the three: cut in the opening (1), cut later (2); only the last cut, which
takes nothing but the line end after `end = true`, leaves a whole note. A hand-written tail falls under (1)
only if it is as good as empty: a heading and nothing below.
"""

from __future__ import annotations

import datetime as dt
import re
import zlib
from typing import Any

import msgspec

from leafturn.journal.entries import WORDS, Entry

OPENING = "[[entry]]\nbegin = true\n"
SEAL = "end = true\n"

_OPENING_BYTES = OPENING.encode()
_SEALED = re.compile(rb"^end = true$", re.MULTILINE)
_TABLE = re.compile(rb"^[ \t]*\[", re.MULTILINE)


def fields_of(entry: Entry) -> dict[str, Any]:
    """The flat fields of an entry as they are written, in order, without those that say nothing.

    Text that is not Unicode (a stray byte from a terminal) has the odd part replaced by U+FFFD, since
    TOML could not hold it.
    """
    fields, besides = {}, dict(entry.besides)
    for name in WORDS:
        value = besides[name] if name in besides else getattr(entry, name, None)
        if value is None or value in ("", ()):
            continue
        fields[name] = _writable(value)
    return fields


def _writable(value: Any) -> Any:
    if isinstance(value, str):
        return value.encode("utf-16", "surrogatepass").decode("utf-16", "replace")
    if isinstance(value, tuple):
        return [_writable(part) for part in value]
    if isinstance(value, dt.datetime):  # a note keeps its day, not a moment
        return value.date()
    return value


def written_text(entry: Entry) -> str:
    """The entry as the tool writes it: `OPENING`, its fields, `SEAL`."""
    return OPENING + _toml(entry) + SEAL


def mark_of(entry: Entry) -> str:
    """Eight hexadecimal digits that depend on what the entry says, not on its id or place."""
    return f"{zlib.crc32(_toml(entry, without='id').encode()):08x}"


def _toml(entry: Entry, without: str = "") -> str:
    import tomli_w  # only writing needs it, and a first screen should not wait for it

    lines = []
    for name, value in fields_of(entry).items():
        if isinstance(value, list):  # on one line: easier on the eye, and read quickly below
            parts = (tomli_w.dumps({"x": part}).removeprefix("x = ").rstrip("\n") for part in value)
            lines.append(f"{name} = [{', '.join(parts)}]\n")
        elif name != without:
            lines.append(tomli_w.dumps({name: value}))
    return "".join(lines)


def torn_at(data: bytes) -> int | None:
    """Where the torn tail of a journal file begins, by the rule above.

    Parameters
    ----------
    data : bytes
        The file as it lies on disk.

    Returns
    -------
    int or None
        Offset [bytes] of the torn tail's first byte; None if the tail is whole.
    """
    content = data.rstrip(b"\0")
    last_line = content.rfind(b"\n") + 1
    line_before = content.rfind(b"\n", 0, max(last_line - 1, 0)) + 1
    for start in (line_before, last_line):
        tail = content[start:]
        if tail and len(tail) < len(_OPENING_BYTES) and _OPENING_BYTES.startswith(tail):
            return start
    opening = _last_opening(content)
    if opening is not None:
        note = content[opening:]
        another_table = _TABLE.search(note, len(_OPENING_BYTES))
        if another_table is None and (b"\0" in note or not _SEALED.search(note)):
            return opening
    return len(content) if len(content) < len(data) else None


def _last_opening(content: bytes) -> int | None:
    """Offset of the last `OPENING` that stands at the start of a line."""
    found = content.rfind(_OPENING_BYTES)
    while found > 0 and content[found - 1 : found] != b"\n":
        found = content.rfind(_OPENING_BYTES, 0, found)
    return found if found >= 0 else None


# Text in the escapes that TOML and JSON write alike; and a list of such texts.
_TEXT = r'"(?:[^"\\\x00-\x1f\x7f]|\\[btnfr"\\]|\\u(?![dD][89a-fA-F])[0-9a-fA-F]{4})*+"'
_VALUE = (
    r'"([^"\\\x00-\x08\x0a-\x1f\x7f]*+)"|(\d{4}-\d\d-\d\d)|(-?(?:0|[1-9]\d{0,14})(?:\.\d{1,17})?)|(true|false)'
    rf"|({_TEXT}|\[{_TEXT}(?:, {_TEXT})*+\])"
)
_PLAIN_LINE = re.compile(rf"^([a-z_]+) = (?:{_VALUE})$", re.MULTILINE)


def plain_fields(note: str) -> dict[str, Any] | None:
    """The fields of a note that stands exactly as the tool writes it; None for any other text.

    Reading the tool's own hand line by line is several times faster than the whole of TOML, and
    all but a few notes are in it. Whatever has a comment, an exponent or a change made by hand gives
    None, and is then read as TOML; what is read here reads the same there.

    Parameters
    ----------
    note : str
        From `OPENING` to the next note's heading.
    """
    if not note.startswith(OPENING):
        return None
    body = note[len(OPENING) :].rstrip("\n")
    if not body.endswith("\nend = true"):
        return None
    lines = _PLAIN_LINE.findall(body)
    if len(lines) != body.count("\n") + 1:
        return None
    fields: dict[str, Any] = {}
    for name, text, day, number, word, json in lines:
        if json:
            fields[name] = msgspec.json.decode(json)
        elif day:
            try:
                fields[name] = dt.date.fromisoformat(day)
            except ValueError:
                return None
        elif number:
            fields[name] = float(number) if "." in number else int(number)
        else:
            fields[name] = word == "true" if word else text
    # A name given twice is an error in TOML: let TOML say so.
    return fields if len(fields) == len(lines) else None
