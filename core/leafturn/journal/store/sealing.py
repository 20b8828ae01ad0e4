"""How a note is written, so that one cut short can be told from a whole one and merging keeps it whole.

A note of the tool is two lines, each with the note's id in it, and a blank line before:

    [[entry]] # 2027-04-19.3.k7fq
    note = { id = "2027-04-19.3.k7fq", on = 2027-04-19, what = "harvest", kg = 4.5, sum = "1c9e02ab" }

No line of one note is a line of another, so a program that merges texts line by line can neither join two
notes nor part one. `sum` is `mark_of` the note: it tells whether the note still says what it said. Format 1,
before leafturn 0.1.0, had a line for each field, from `begin = true` to `end = true`; it is read as ever.

The rule for what was cut short, in bytes. The tail of a file is torn if, from a line start on, it is

1. a beginning of `[[entry]]`, or a heading of the tool's with nothing below;
2. such a heading and one line `note = { ...` below that is neither whole TOML nor ended by a line end;
3. of format 1, `[[entry]]` and `begin = true` with neither an `end` nor another table after it;
4. a run of NUL bytes, as some file systems leave after a power cut, with whatever unfinished note stands
   before them.

Within a note the tool writes no line end inside a text, so every cut falls under one of these; only the last
cut, which takes nothing but the line end, leaves a whole note. A note by hand needs no end and is complete as
it stands; it falls under (1) only if it is as good as empty: a heading and nothing below.
"""

from __future__ import annotations

import datetime as dt
import re
import tomllib
import zlib
from typing import Any

from leafturn.base.patterns import pattern
from leafturn.journal.entries import WORDS, Entry
from leafturn.toml.writing import value_text

FORMAT = 2
HEADING = "[[entry]]"

_BEGUN = f"{HEADING}\nbegin = true\n".encode()  # format 1
_OURS = pattern(rb"\[\[entry\]\](?: # [0-9]{4}-[0-9]{2}-[0-9]{2}\.[0-9a-z.]+\n|\nbegin = true\n)")
_BEGINNING = pattern(rb"\[\[entry\]\] (?:#(?: [0-9a-z.-]*\n?)?)?")
_LINE_BEGUN = b"note = { "
_END = pattern(rb"^[ \t]*end[ \t]*=[ \t]*true[ \t]*(?:#[^\n]*)?\r?$", re.MULTILINE)
_TABLE = pattern(rb"^[ \t]*\[", re.MULTILINE)


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
    """The entry as the tool writes it: a heading and one line."""
    fields = {**fields_of(entry), "sum": mark_of(entry)}
    inside = ", ".join(f"{name} = {value_text(value)}" for name, value in fields.items())
    return f"{HEADING} # {entry.id}\nnote = {{ {inside} }}\n"


def mark_of(entry: Entry) -> str:
    """Eight hexadecimal digits that depend on what the entry says, not on its id or place."""
    said = "".join(f"{name} = {value_text(v)}\n" for name, v in fields_of(entry).items() if name != "id")
    return f"{zlib.crc32(said.encode()):08x}"


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
        if _only_begun(content[start:]):
            return start
    ours = _last_of_ours(content)
    if ours is not None and _unfinished(content[ours:]):
        return ours
    return len(content) if len(content) < len(data) else None


def _only_begun(tail: bytes) -> bool:
    """Whether a tail is no more than the beginning of a note."""
    heading = HEADING.encode()
    if not tail.strip(b"\n"):
        return False
    begun = tail == heading or (len(tail) < len(_BEGUN) and _BEGUN.startswith(tail))
    return begun or _BEGINNING.fullmatch(tail) is not None


def _last_of_ours(content: bytes) -> int | None:
    """Offset of the last heading that the tool wrote."""
    found = content.rfind(HEADING.encode())
    while found >= 0:
        if (found == 0 or content[found - 1 : found] == b"\n") and _OURS.match(content, found):
            return found
        found = content.rfind(HEADING.encode(), 0, found)
    return None


def _unfinished(note: bytes) -> bool:
    """Whether what begins as a note of the tool's and ends the file was cut short."""
    written = note.partition(b"\0")[0]
    if note.startswith(_BEGUN):
        if _TABLE.search(note, len(_BEGUN)) is not None:
            return False
        return not (_END.search(written) or "end" in _parsed(written))
    if len(written) < len(note) and _TABLE.search(note, 1) is not None:
        return False
    _, _, line = written.partition(b"\n")
    begun = line.startswith(_LINE_BEGUN) or _LINE_BEGUN.startswith(line)
    return begun and b"\n" not in line and not _parsed(written)


def _parsed(note: bytes) -> dict[str, Any]:
    """The fields of a note, if it is whole TOML."""
    try:
        (table,) = tomllib.loads(note.decode())["entry"]
    except (ValueError, RecursionError, LookupError):
        return {}
    return dict(table)
