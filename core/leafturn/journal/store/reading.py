"""Reading one journal file."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Any

from leafturn.base.faults import Fault, Unreadable
from leafturn.journal.entries import Entry
from leafturn.journal.store.checking import entry_from
from leafturn.journal.store.sealing import plain_fields, torn_at
from leafturn.toml.guard import decode_toml, parse_toml
from leafturn.toml.messages import clipped
from leafturn.toml.positions import TomlLines

_HEADING = re.compile(r"^[ \t]*\[\[[ \t]*entry[ \t]*\]\]", re.MULTILINE)
_ONE_BRACKET = re.compile(r"^[ \t]*\[[ \t]*(entry)[ \t]*\]", re.MULTILINE)
_TWO_BRACKETS = ("This heading has one pair of brackets; a note has two.", "Write [[entry]]")
_NO_NOTE = ("This is no note, so it is left out.", "Every note begins with the line [[entry]]")

Table = tuple[dict[str, Any], int]  # one [[entry]] as parsed, and its line


@dataclass(frozen=True, slots=True, kw_only=True)
class FileReading:
    """What one file holds.

    Parameters
    ----------
    entries : tuple of Entry
        In the order they stand; `id` is empty where none is written.
    faults : tuple of Fault
        What was left out and why.
    sound : bool
        Whether all of it is TOML to which a note may be appended.
    torn : int or None
        Where a torn tail begins [bytes]; it is not among the entries.
    """

    entries: tuple[Entry, ...] = ()
    faults: tuple[Fault, ...] = ()
    sound: bool = True
    torn: int | None = None


def read_data(data: bytes, file: str) -> FileReading:
    """Read a whole journal file.

    Each note is read by itself, so that one that is broken costs itself and no other. A note cannot
    be told from its surroundings where long text in three quote marks may hold a heading, so a
    file with such text is read as one piece.

    Parameters
    ----------
    data : bytes
        The file as it lies on disk.
    file : str
        Its name, for faults.
    """
    torn = torn_at(data)
    try:
        text = decode_toml(data if torn is None else data[:torn], file)
    except Unreadable as unreadable:
        return FileReading(faults=(unreadable.fault,), sound=False, torn=torn)
    return replace(_read_text(text, 1, file), torn=torn)


def _read_text(text: str, first_line: int, file: str) -> FileReading:
    """What a text holds that begins on `first_line` of the file, outside any note."""
    faults: list[Fault] = []
    pieces: Iterable[tuple[str, int]] = [(text, first_line)]
    if not has_long_text(text):
        faults += [
            _fault(file, first_line + text.count("\n", 0, found.start()), *_TWO_BRACKETS)
            for found in _ONE_BRACKET.finditer(text)
        ]
        pieces = _pieces(_ONE_BRACKET.sub("[[entry]]", text) if faults else text, first_line)
    sound = not faults
    tables: list[Table] = []
    for piece, line in pieces:
        fields = plain_fields(piece)
        if fields is not None:
            tables.append((fields, line))
            continue
        try:
            inside, said, may_grow = _tables(piece, line, file)
        except Unreadable as unreadable:
            inside, said, may_grow = [], [unreadable.fault], False
        tables += inside
        faults += said
        sound = sound and may_grow
    entries: list[Entry] = []
    for table, line in tables:
        entry, said = entry_from(table, file, line)
        faults += said
        if entry is not None:
            entries.append(entry)
    return FileReading(entries=tuple(entries), faults=tuple(faults), sound=sound)


def _pieces(text: str, first_line: int) -> Iterator[tuple[str, int]]:
    """The text cut before every heading, with the line each piece begins on."""
    starts = [found.start() for found in _HEADING.finditer(text)]
    if not starts or starts[0] > 0:
        starts.insert(0, 0)
    line = first_line
    for start, end in zip(starts, [*starts[1:], len(text)], strict=True):
        piece = text[start:end]
        yield piece, line
        line += piece.count("\n")


def _tables(piece: str, line: int, file: str) -> tuple[list[Table], list[Fault], bool]:
    """The notes in a piece of TOML with their lines, faults for whatever else it holds, and whether
    another note may follow: not after notes written as one list, `entry = [...]`.
    """
    data = piece.encode()
    try:
        parsed = parse_toml(data, file)
    except Unreadable:
        if line > 1:  # once more, so that every line in the sentence is a line of the file
            parse_toml(b"\n" * (line - 1) + data, file)
        raise
    lines = TomlLines(piece)

    def line_of(*path: str | int) -> int:
        return line - 1 + (lines.line_of(*path) or 1)

    found = parsed.pop("entry", None)
    may_grow = found is None or _HEADING.search(piece) is not None
    faults = [
        _fault(
            file,
            line_of(name),
            f"{clipped(name)} stands outside any note, so it is left out.",
            "Every note begins with the line [[entry]]",
        )
        for name in parsed
    ]
    tables: list[Table] = []
    for place, row in enumerate(found if isinstance(found, list) else []):
        if isinstance(row, dict):
            tables.append((row, line_of("entry", place)))
        else:
            faults.append(_fault(file, line_of("entry", place), *_NO_NOTE))
    if isinstance(found, dict):
        faults.append(_fault(file, line_of("entry"), *_TWO_BRACKETS))
        tables.append((found, line_of("entry")))
    elif found is not None and not isinstance(found, list):
        faults.append(_fault(file, line_of("entry"), *_NO_NOTE))
    return tables, faults, may_grow


def has_long_text(text: str) -> bool:
    """Whether text in three quote marks stands in a file, which could hold what looks like a heading."""
    return '"""' in text or "'''" in text


def _fault(file: str, line: int, message: str, hint: str) -> Fault:
    return Fault(file=file, line=line, message=message, hint=hint)
