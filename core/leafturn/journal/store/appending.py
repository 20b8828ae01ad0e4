"""Adding notes at the end of the journal, so that a crash or a full disk loses none of them."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from pathlib import Path

from msgspec import structs
from msgspec.structs import replace

from leafturn.base.bloom_stages import BBCH
from leafturn.base.faults import Unreadable
from leafturn.files.reading import real_path, require_inside
from leafturn.journal.entries import BloomNote, Entry
from leafturn.journal.store import disk
from leafturn.journal.store.checking import entry_from
from leafturn.journal.store.errors import NotWritten
from leafturn.journal.store.files import FOLDER, JournalFile, journal_files
from leafturn.journal.store.ids import next_ids
from leafturn.journal.store.reading import has_long_text, read_data
from leafturn.journal.store.sealing import FORMAT, written_text
from leafturn.toml.guard import MOST_BYTES, parse_toml

_HEAD = (
    f"# leafturn journal, format {FORMAT}: "
    "notes written in {year}, new ones at the end. By hand, a note needs [[entry]], on and what.\n"
)


def append_entries(
    folder: Path, entries: Sequence[Entry], today: dt.date, patience: float
) -> tuple[Entry, ...]:
    """Add notes to the newest file of a journal, under its lock, and wait until they are on the disk.

    The file is never one that cannot be read as it stands, is no ordinary file, or is full: the notes then
    go into a further part of the same year.

    Parameters
    ----------
    folder : Path
        The garden's folder.
    entries : sequence of Entry
        At least one.
    today : date
        The day they are written.
    patience : float
        How long to wait for the lock [s].

    Returns
    -------
    tuple of Entry
        The notes as they will be read.

    Raises
    ------
    NotWritten
        If a note cannot be understood.
    LockNotHad, OSError
        If the disk does not take them. Nothing is then changed.
    """
    journal = folder / FOLDER
    disk.make_folder(journal)
    home = real_path(journal)
    require_inside(home, folder)
    with disk.locked(home, patience):
        files = journal_files(folder)
        year = max([today.year, *(file.year for file in files)])
        parts = [file for file in files if file.year == year]
        file = parts[-1] if parts else JournalFile(year, 1, folder)
        while True:
            before = _text_to_grow(file)
            if before is not None:
                texts, kept = _worded(entries, today, year, files, before)
                lead = _lead(before, year)
                addition = (lead + "\n".join(texts)).encode()
                if _takes(before, addition, file.name):
                    disk.append(real_path(file.path), addition)
                    return _placed(kept, texts, file.name, before.count(b"\n") + lead.count("\n") + 1)
            file = file.next


def _text_to_grow(file: JournalFile) -> bytes | None:
    """The file's bytes once a torn tail is set aside; None if it is damaged and must not be touched."""
    try:
        data = file.data()
    except OSError:
        return None
    reading = read_data(data, file.name)
    if not reading.sound or not file.may_grow:
        return None
    if reading.torn is None:
        return data
    disk.set_aside(real_path(file.path), reading.torn)
    return data[: reading.torn]


def _worded(
    entries: Sequence[Entry], today: dt.date, year: int, files: Sequence[JournalFile], before: bytes
) -> tuple[list[str], list[Entry]]:
    """The notes as text, each with its id, and as they read back from it."""
    near = [file for file in files if file.year == 0 or file.year >= today.year]
    held = [(file.year, _data_if_read(file)) for file in near]
    ids = next_ids(len(entries), today, year, [*held, (year, before)])
    own = [structs.replace(entry, id=given) for entry, given in zip(entries, ids, strict=True)]
    # Written as it will be read, so that its check sum is that of what will be read.
    kept = [_read_back(written_text(_with_number(entry))) for entry in own]
    texts = [written_text(entry) for entry in kept]
    return texts, [_read_back(text) for text in texts]


def _data_if_read(file: JournalFile) -> bytes:
    """What a file holds; nothing of one that cannot be read, which `check` tells of."""
    try:
        return file.data()
    except OSError:
        return b""


def _with_number(entry: Entry) -> Entry:
    """A bloom whose stage is given in words alone gets its BBCH number too."""
    if isinstance(entry, BloomNote) and entry.bbch is None:
        return structs.replace(entry, bbch=BBCH.get(entry.stage or ""))
    return entry


def _read_back(text: str) -> Entry:
    """The one note in a text, read with all care: what is written must be what will be read."""
    try:
        table = parse_toml(text.encode(), FOLDER)["entry"][0]["note"]
    except Unreadable as unreadable:
        raise NotWritten(replace(unreadable.fault, line=None)) from None
    entry, faults = entry_from(table, FOLDER, 0)
    if entry is None:
        raise NotWritten(replace(faults[0], line=None))
    return entry


def _lead(before: bytes, year: int) -> str:
    """What stands between the file's text and the next note."""
    if not before:
        return _HEAD.format(year=year) + "\n"
    return "\n" if before.endswith(b"\n") else "\n\n"


def _takes(before: bytes, addition: bytes, name: str) -> bool:
    """Whether the file will still be read once it has grown."""
    if not before:
        return True
    if len(before) + len(addition) > MOST_BYTES:
        return False
    if not has_long_text(before):
        return True
    try:  # read as one piece, so what is added counts towards its limits
        parse_toml(before + addition, name)
    except Unreadable:
        return False
    return True


def _placed(entries: Sequence[Entry], texts: Sequence[str], name: str, line: int) -> tuple[Entry, ...]:
    """The entries with the file and line they were written to."""
    placed = []
    for entry, text in zip(entries, texts, strict=True):
        placed.append(structs.replace(entry, file=name, line=line))
        line += text.count("\n") + 1
    return tuple(placed)
