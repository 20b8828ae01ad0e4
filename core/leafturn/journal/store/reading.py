"""Reading one journal file."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from msgspec.structs import replace

from leafturn.base.faults import MOST_FAULTS, Fault, Unreadable, clipped, listed
from leafturn.base.patterns import pattern
from leafturn.base.value import Value
from leafturn.journal.entries import Entry
from leafturn.journal.store.checking import entry_from
from leafturn.journal.store.quick import plain_fields
from leafturn.journal.store.sealing import FORMAT, torn_at
from leafturn.toml.guard import MOST_BYTES, decode_toml, parse_toml
from leafturn.toml.messages import HERE_MERGED, MERGE_MARK, UNMERGE
from leafturn.toml.positions import TomlLines

_HEADING = pattern(rb"^[ \t]*\[(?:\[[ \t]*entry[ \t]*\]|[ \t]*entry[ \t]*)\]", re.MULTILINE)
_ONE_BRACKET = pattern(rb"[ \t]*\[[ \t]*entry[ \t]*\]")
_TWO_BRACKETS = ("This heading has one pair of brackets; a note has two.", "Write [[entry]]")
_NO_NOTE = ("This is no note, so it is left out.", "Every note begins with the line [[entry]]")
_MERGE_MARK = pattern(MERGE_MARK.encode(), re.MULTILINE)
_MARKED = pattern(rb"^<{7} ", re.MULTILINE)
_FORMAT = pattern(rb"# leafturn journal, format ([0-9]{1,6})\b")
_SEALED = (  # a whole note of the tool's, with which a piece begins: in format 2, and in format 1
    pattern(rb"\[\[entry\]\] # [^\n]*\nnote = \{ [^\n]* \}\r?(?:\n|\Z)"),
    pattern(rb"\[\[entry\]\]\r?\nbegin = true\r?\n(?:[a-z_]+ = [^\n]*\n)*?end = true\r?(?:\n|\Z)"),
)

Table = tuple[dict[str, Any], int]  # one [[entry]] as parsed, and its line
Piece = tuple[bytes, int]  # of a file, and the line it begins on


class FileReading(Value, kw_only=False):
    """What one file holds.

    Parameters
    ----------
    entries : tuple of Entry
        In the order they stand; `id` is empty where none is written.
    faults : tuple of Fault
        What was left out and why: the first of them, and how many more there are.
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

    Each note is cut out and read by itself, so that one that is broken, or holds a bad byte, costs itself
    and no other. A note cannot be told from its surroundings where long text in three quote marks may hold a
    heading, so a file with such text is read as one piece if that can be done.

    Parameters
    ----------
    data : bytes
        The file as it lies on disk.
    file : str
        Its name, for faults.
    """
    torn = torn_at(data)
    reader = _Reader(file)
    reader.read(data if torn is None else data[:torn])
    return FileReading(
        entries=tuple(reader.entries),
        faults=listed(reader.faults, file),
        sound=reader.sound,
        torn=torn,
    )


def has_long_text(data: bytes) -> bool:
    """Whether text in three quote marks stands in a file, which could hold what looks like a heading."""
    return b'"""' in data or b"'''" in data


class _Reader:
    """One file being read."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.entries: list[Entry] = []
        self.faults: list[Fault] = []
        self.sound = True

    def read(self, data: bytes) -> None:
        """Take in the whole file."""
        if len(data) > MOST_BYTES or data.startswith((b"\xff\xfe", b"\xfe\xff")):
            self._refuse_whole(data)
            return
        data = data.removeprefix(b"\xef\xbb\xbf")
        self._see_format(data)
        if has_long_text(data) and self._as_one(data):
            return
        for piece, line in _pieces(self._without_merge_marks(data)):
            self._piece(piece, line)

    def _say(self, line: int | None, message: str, hint: str = "") -> None:
        self.faults.append(Fault(file=self.file, line=line, message=message, hint=hint))

    def _refuse_whole(self, data: bytes) -> None:
        self.sound = False
        try:
            decode_toml(data, self.file)
        except Unreadable as unreadable:
            self.faults.append(unreadable.fault)

    def _see_format(self, data: bytes) -> None:
        """A file of a later format is read as far as it goes, and never written to."""
        found = _FORMAT.match(data)
        if found is not None and int(found[1]) > FORMAT:
            self.sound = False
            known = f"format {int(found[1])}; this leafturn knows formats up to {FORMAT}"
            self._say(1, f"This file is of {known}, so notes in it may be left out.", "Use a newer leafturn.")

    def _as_one(self, data: bytes) -> bool:
        """Read a file with long text as one piece, if it is whole TOML."""
        try:
            tables = self._tables(data, 1)
        except Unreadable:
            return False
        self._take(tables)
        return True

    def _without_merge_marks(self, data: bytes) -> bytes:
        """The file with the marks that a merge of versions left in it made empty lines."""
        if not (first := _MARKED.search(data)):
            return data
        self.sound = False
        line = data.count(b"\n", 0, first.start()) + 1
        self._say(line, f"{HERE_MERGED}; the notes of both are read.", UNMERGE)
        return _MERGE_MARK.sub(b"", data)

    def _piece(self, piece: bytes, line: int) -> None:
        """Take in one note, or what stands before the first."""
        if _ONE_BRACKET.match(piece):
            self.sound = False
            self._say(line, *_TWO_BRACKETS)
            piece = _ONE_BRACKET.sub(b"[[entry]]", piece, count=1)
        fields = _plainly(piece)
        if fields is not None:
            self._take([(fields, line)])
            return
        try:
            self._take(self._tables(piece, line))
        except Unreadable as unreadable:
            self.sound = False
            sealed = next((found for seal in _SEALED if (found := seal.match(piece))), None)
            if sealed is None or sealed.end() == len(piece):
                fault = unreadable.fault
                left_out = f"{fault.message} The note round it is left out." if _HEADING.match(piece) else ""
                self.faults.append(replace(fault, message=left_out or fault.message))
                return
            # A whole note, and below it something that is none: each is read by itself.
            self._piece(sealed[0], line)
            self._piece(piece[sealed.end() :], line + sealed[0].count(b"\n"))

    def _take(self, tables: list[Table]) -> None:
        for table, line in tables:
            many = len(self.faults) > MOST_FAULTS
            entry, said = entry_from(table, self.file, line, hints=not many)
            self.faults += said
            if entry is not None:
                self.entries.append(entry)

    def _tables(self, data: bytes, line: int) -> list[Table]:
        """The notes in a piece of TOML with their lines; whatever else it holds is said.

        After notes written as one list, `entry = [...]`, no other may follow.
        """
        parsed = parse_toml(data, self.file, line)
        lines = TomlLines(decode_toml(data, self.file))

        def line_of(*path: str | int) -> int:
            return line - 1 + (lines.line_of(*path) or 1)

        found = parsed.pop("entry", None)
        self.sound = self.sound and (found is None or _HEADING.search(data) is not None)
        for name in parsed:
            said = f"{clipped(name)} stands outside any note, so it is left out."
            self._say(line_of(name), said, "Every note begins with the line [[entry]]")
        tables: list[Table] = []
        for place, row in enumerate(found if isinstance(found, list) else []):
            if isinstance(row, dict):
                tables.append((_opened(row), line_of("entry", place)))
            else:
                self._say(line_of("entry", place), *_NO_NOTE)
        if isinstance(found, dict):
            self._say(line_of("entry"), *_TWO_BRACKETS)
            tables.append((found, line_of("entry")))
        elif found is not None and not isinstance(found, list):
            self._say(line_of("entry"), *_NO_NOTE)
        return tables


def _pieces(data: bytes) -> Iterator[Piece]:
    """The file cut before every heading."""
    starts = [found.start() for found in _HEADING.finditer(data)]
    if not starts or starts[0] > 0:
        starts.insert(0, 0)
    line = 1
    for start, end in zip(starts, [*starts[1:], len(data)], strict=True):
        piece = data[start:end]
        yield piece, line
        line += piece.count(b"\n")


def _plainly(piece: bytes) -> dict[str, Any] | None:
    """The fields of a note that stands plainly; None for any other, and for bytes that are no text."""
    try:
        return plain_fields(piece.decode())
    except UnicodeDecodeError:
        return None


def _opened(row: dict[str, Any]) -> dict[str, Any]:
    """The fields of a note; those of the tool stand in one line, a hand may have added others below."""
    inside = row.get("note")
    if not isinstance(inside, dict):
        return row
    return {**inside, **{name: value for name, value in row.items() if name != "note"}}
